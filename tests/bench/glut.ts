import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { keepPlan } from '../../server/jobs/keep-plan.ts';
import { newestPlan } from '../../server/queries/year/plans.ts';
import { supplyGuessFor } from '../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear } from '../../server/solver/plan-year.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import { asDate } from '../../shared/week.ts';
import { glutWays } from '../../src/planning/glut/glut.ts';
import { glutHere, planWithGlut } from '../../src/planning/glut/glut-here.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';

// npm run -s bench:glut: seconds until the demo household knows what a glut can become, and what its year does with it,
// asked in the seasons such crops ripen in, beside the plan it keeps by then.

const gluts = [
  ['2026-07-06', 'cherries', '25'],
  ['2026-07-27', 'peaches', '60'],
  ['2026-08-10', 'tomatoes', '80'],
  ['2026-08-10', 'green beans', '30'],
  ['2026-09-21', 'apples', '100'],
  ['2026-11-25', 'tomatoes', '40'],
] as const;
const reference = loadReferenceTables();
const thousandth = 1000;

const seconds: number[] = [];
for (const [day, crop, amount] of gluts) {
  const asOf = asDate(day);
  const db = await openDatabase(':memory:');
  const household = await makeDemoHousehold(db, asOf);
  const { loaded, answer } = await planHousehold(db, household, asOf, reference, planYear);
  await keepPlan(db, household, {
    year: loaded.year,
    factsVersion: loaded.facts.household.factsVersion,
    answer,
    at: 0,
  });
  const plan = await newestPlan(db, household);
  const year = await loadPlanningYear(db, household, asOf, reference);

  const asked = performance.now();
  const here = glutHere(year, { crop, amount, unit: 'lb' }, reference, supplyGuessFor);
  if (!here.ok) throw new Error(here.problems.map(({ message }) => message).join(' '));
  const ways = glutWays(here.value.loaded.year, here.value.glut, (item) =>
    walkOfItem(here.value.loaded, item, null),
  );
  const known = performance.now();
  const planned = here.value.glut.isKept
    ? await planWithGlut(here.value.loaded, plan, here.value.glut, planYear)
    : null;
  const ended = performance.now();
  if (planned !== null) seconds.push((ended - known) / thousandth);
  console.log(
    `${day} ${amount} lb of ${crop}: ${ways.length} ways after ${(known - asked).toFixed(0)} ms; ` +
      (planned === null
        ? 'nothing kept is made of it, so there is nothing to plan'
        : `${planned.outcome} after ${((ended - known) / thousandth).toFixed(1)} s more`),
  );
  await db.destroy();
}
await closePlanner();
const sorted = seconds.sort((one, other) => one - other);
console.log(
  `planned again, least / median / most: ${[sorted[0], sorted[Math.floor(sorted.length / 2)], sorted.at(-1)]
    .map((each) => (each ?? 0).toFixed(1))
    .join(' / ')} s`,
);
