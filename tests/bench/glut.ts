import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { keepPlan } from '../../server/jobs/keep-plan.ts';
import { supplyGuessFor, vesselGuesses } from '../../server/reference/first-year.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { closePlanner, planYear } from '../../server/solver/plan-year.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import type { ItemId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { glutWays } from '../../src/planning/glut/glut.ts';
import { glutAnswers } from '../../src/planning/glut/glut-answers.ts';
import { glutAtHand } from '../../src/planning/glut/glut-at-hand.ts';
import { glutHere } from '../../src/planning/glut/glut-here.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';

// npm run -s bench:glut: seconds until the demo household knows what a glut can become and the answers to choose from,
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
    factsVersion: loaded.facts.version,
    answer,
    at: 0,
  });
  const year = await loadPlanningYear(db, household, asOf, reference);

  const asked = performance.now();
  const here = glutHere(year, { crop, amount, unit: 'lb' }, reference, supplyGuessFor);
  if (!here.ok) throw new Error(here.problems.map(({ message }) => message).join(' '));
  const { glut, loaded: own } = here.value;
  const walkOf = (item: ItemId) => walkOfItem(own, item, null);
  const ways = glutWays(own.year, glut, walkOf);
  const atHand = glut.isKept ? glutAtHand(own, glut, reference, vesselGuesses()) : null;
  const answers =
    atHand === null ? [] : glutAnswers(atHand.loaded.year, glut, { weeks: atHand.weeks, walkOf });
  const known = performance.now();
  if (glut.isKept) seconds.push((known - asked) / thousandth);
  console.log(
    `${day} ${amount} lb of ${crop}: ${ways.length} ways and ${answers.length} answers after ${(known - asked).toFixed(0)} ms`,
  );
  await db.destroy();
}
await closePlanner();
const sorted = seconds.sort((one, other) => one - other);
console.log(
  `answered, least / median / most: ${[sorted[0], sorted[Math.floor(sorted.length / 2)], sorted.at(-1)]
    .map((each) => (each ?? 0).toFixed(3))
    .join(' / ')} s`,
);
