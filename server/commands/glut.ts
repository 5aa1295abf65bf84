import { z } from 'zod';
import { optionalTextField } from '../../shared/schemas/form-fields.ts';
import { amountSaid } from '../../shared/trade-measure.ts';
import { standingPlan } from '../../src/planning/answer/standing-plan.ts';
import { type GlutWay, glutWays, type WalkOf } from '../../src/planning/glut/glut.ts';
import { glutAnswers } from '../../src/planning/glut/glut-answers.ts';
import { glutAtHand } from '../../src/planning/glut/glut-at-hand.ts';
import { glutHere, type NamedGlut } from '../../src/planning/glut/glut-here.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';
import { everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { type AnswerColumn, answerLines } from '../../views/pages/glut/glut-answers.tsx';
import { formatQuantity } from '../../views/words/format.ts';
import { pageNames } from '../../views/words/page-names.ts';
import { readingOf } from '../../views/words/reading.ts';
import { insideSentence } from '../../views/words/sentences.ts';
import { noteOn, presentAnswer } from '../pages/glut/present-answers.ts';
import { presentWay } from '../pages/glut/present-glut.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { supplyGuessFor, vesselGuesses } from '../reference/first-year.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { loadPlanningYear } from '../year/load-year.ts';
import {
  complain,
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

/** Prints what a glut can become, and the two or three answers that the page holds against each other; keeps nothing. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, usualOptions, schema, ['crop', 'amount', 'unit']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { crop, amount, demo, json, database, 'as-of': asOf } = options.value;
  const { unit } = options.value;
  // What is no unit at all is told so; what is one may be written as people say it.
  const asked =
    unit === '' || amountSaid(`1 ${unit}`, 'lb').amount === '1'
      ? { amount: `${amount} ${unit}`.trim() }
      : { amount, unit };
  return withHousehold({ demo, asOf, database }, async ({ db, household, today }) => {
    const reference = loadReferenceTables();
    const [own, plan] = await Promise.all([
      loadPlanningYear(db, household.id, today, reference),
      newestPlan(db, household.id),
    ]);
    const here = glutHere(
      own,
      { crop, ...asked },
      reference,
      supplyGuessFor,
      household.units === 'metric' ? 'kg' : 'lb',
    );
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
    const { atHand, answers } = answersTo(loaded, glut, walkOf);
    const columns = answers.map((answer) => presentAnswer(answer, glut.crop, own, reading, reference));
    const note = atHand === null || ways.length === 0 ? null : noteOn(answers, atHand, reading);
    if (json)
      console.log(
        JSON.stringify(
          {
            ...glut,
            ways: ways.map((way) => withChoices(way, loaded)),
            cautions: everyCaution,
            answers,
            note,
          },
          null,
          1,
        ),
      );
    else {
      for (const line of columns.flatMap(linesOf)) console.log(line);
      if (note !== null) console.log(`\n${note}`);
      if (columns.length > 0)
        console.log(`\nUse one of these on the page “Too much at once”, under ${pageNames.harvest}.`);
    }
    return done;
  });
}

/** Where the table prints several schedules none of them is the answer: they are listed, and one is chosen on the day. */
function withChoices(way: GlutWay, { recipes }: HouseholdYear) {
  const printed = recipes.schedules.get(way.recipe) ?? [];
  return printed.length < 2
    ? way
    : { ...way, processing: null, choices: printed.map(({ minutes, psi }) => ({ minutes, psi })) };
}

/** The mixes to choose from, those of the page; none of a crop that nothing kept is made of. */
function answersTo(loaded: HouseholdYear, glut: NamedGlut, walkOf: WalkOf) {
  if (!glut.isKept) return { atHand: null, answers: [] };
  const atHand = glutAtHand(loaded, glut, loadReferenceTables(), vesselGuesses());
  return { atHand, answers: glutAnswers(atHand.loaded.year, glut, { weeks: atHand.weeks, walkOf }) };
}

/** One answer as the page holds it against the others. */
const linesOf = (answer: AnswerColumn): readonly string[] => [
  `\n${answer.title}:`,
  ...answer.makes.map(
    ({ comes, item, batches }) => `  make ${comes} of ${insideSentence(item.name)} (${batches})`,
  ),
  ...answerLines.flatMap(({ words, of }) => {
    const value = of(answer);
    return value === null ? [] : [`  ${words}: ${value}`];
  }),
];
