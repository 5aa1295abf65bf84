import { z } from 'zod';
import { optionalTextField } from '../../shared/schemas/form-fields.ts';
import { standingPlan } from '../../src/planning/answer/standing-plan.ts';
import { type GlutWay, glutWays, type WalkOf } from '../../src/planning/glut/glut.ts';
import { glutHere, planWithGlut } from '../../src/planning/glut/glut-here.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';
import { everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { formatQuantity } from '../../views/words/format.ts';
import { readingOf } from '../../views/words/reading.ts';
import { insideSentence } from '../../views/words/sentences.ts';
import { presentGlutChange, presentWay } from '../pages/glut/present-glut.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { supplyGuessFor } from '../reference/first-year.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { closePlanner, planYear } from '../solver/plan-year.ts';
import { loadPlanningYear } from '../year/load-year.ts';
import {
  complain,
  couldNot,
  done,
  notUnderstood,
  readOptions,
  usualFields,
  usualOptions,
  withHousehold,
} from './options.ts';

const schema = z.object({
  ...usualFields,
  crop: optionalTextField('Crop', 60).refine(
    (crop) => crop !== '',
    'Which crop? For example: glut plums 1 bushel.',
  ),
  amount: optionalTextField('How much', 20),
  unit: optionalTextField('Unit', 10),
});

/** Prints at once what a glut can become, then what the year planned again with it does otherwise; keeps nothing. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, usualOptions, schema, ['crop', 'amount', 'unit']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { crop, amount, demo, json, database, 'as-of': asOf } = options.value;
  const unit = options.value.unit === '' ? 'lb' : options.value.unit;
  try {
    return await withHousehold({ demo, asOf, database }, async ({ db, household, today }) => {
      const reference = loadReferenceTables();
      const [own, plan] = await Promise.all([
        loadPlanningYear(db, household.id, today, reference),
        newestPlan(db, household.id),
      ]);
      const here = glutHere(own, { crop, amount, unit }, reference, supplyGuessFor);
      if (!here.ok) return complain(here.problems, notUnderstood);
      const { glut, loaded } = here.value;
      const reading = readingOf(household, today);
      const standing = plan === null ? null : standingPlan(plan, own.facts.kept, own.facts.purchases);
      const walkOf: WalkOf = (item) => walkOfItem(own, item, standing);
      const ways = glutWays(loaded.year, glut, walkOf);
      if (!json) {
        console.log(
          `${formatQuantity(glut.lb, 'lb', reading)} of ${insideSentence(glut.name)} can become one of:`,
        );
        for (const way of ways) {
          const card = presentWay(way, loaded, { walk: walkOf(way.item), hasPlan: plan !== null }, reading);
          console.log(`\n  ${card.item.name}: ${card.batches}\n    ${card.needed}`);
          for (const { words, value } of card.facts) console.log(`    ${words}: ${value}`);
        }
        if (ways.length === 0) console.log('  nothing: it is less than one batch of anything you keep.');
        else {
          console.log('\n  Before you can any of this:');
          for (const { text } of everyCaution) console.log(`    - ${text}`);
        }
      }
      if (!json && !glut.isKept)
        console.log(
          '\nYou don’t keep anything made of it yet, so the plan has no place for it. Add one of these first.',
        );
      const planned =
        ways.length === 0 || !glut.isKept ? null : await planWithGlut(loaded, plan, glut, planYear);
      if (json)
        console.log(
          JSON.stringify(
            {
              ...glut,
              ways: ways.map((way) => withChoices(way, loaded)),
              cautions: everyCaution,
              planned: inJson(planned),
            },
            null,
            1,
          ),
        );
      if (planned === null) return done;
      if (planned.outcome !== 'planned') {
        console.error(
          `We could not plan with it (${planned.outcome}): ${planned.detail}. Your plan is as it was.`,
        );
        return couldNot;
      }
      if (!json) {
        const change = presentGlutChange(planned.difference, loaded, reading);
        const lines = [
          '\nPlanned with it:',
          ...(change.now.length === 0 ? ['  nothing to make of it now'] : []),
          ...change.now.map(({ words }) => `  make ${words}`),
          ...[change.freeze, change.left].flatMap((words) => (words === null ? [] : [`  ${words}`])),
          'What it changes:',
          ...(change.moved.length + change.overYear.length === 0 ? ['  nothing else'] : []),
          ...[...change.moved, ...change.overYear].map(({ words }) => `  ${words}`),
          change.sum,
        ];
        for (const line of lines) console.log(line);
      }
      return done;
    });
  } finally {
    await closePlanner();
  }
}

/** Where the table prints several schedules none of them is the answer: they are listed, and one is chosen on the day. */
function withChoices(way: GlutWay, { recipes }: HouseholdYear) {
  const printed = recipes.schedules.get(way.recipe) ?? [];
  return printed.length < 2
    ? way
    : { ...way, processing: null, choices: printed.map(({ minutes, psi }) => ({ minutes, psi })) };
}

function inJson(planned: Awaited<ReturnType<typeof planWithGlut>> | null) {
  if (planned === null || planned.outcome !== 'planned') return planned;
  const { gap, solveSeconds } = planned.plan;
  return { outcome: planned.outcome, gap, solveSeconds, ...planned.difference };
}
