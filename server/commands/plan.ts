import { z } from 'zod';
import { bounds } from '../../shared/bounds.ts';
import { counted } from '../../shared/counting.ts';
import type { ItemId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { numberField } from '../../shared/schemas/form-fields.ts';
import { dayLines } from '../../src/planning/days/day-lines.ts';
import { gaveWayRungs } from '../../src/planning/plan.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { itemGaps } from '../../src/planning/year/item-gaps.ts';
import { itemOutlook } from '../../src/planning/year/item-outlook.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';
import { measuresIn } from '../../src/preserving/foods/trade-measures.ts';
import { formatDate, formatMoney, formatQuantity } from '../../views/words/format.ts';
import { readingOf } from '../../views/words/reading.ts';
import { keepPlan } from '../jobs/keep-plan.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { closePlanner, planYear } from '../solver/plan-year.ts';
import { provenWords } from '../words/plan-status.ts';
import { givenWords, rungWords } from '../words/year/gave-way.ts';
import { bareWords } from '../words/year/run-out.ts';
import { batchDaysBy } from '../year/batch-days-by.ts';
import { planHousehold } from '../year/plan-household.ts';
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
import { weeksAhead } from './weeks-ahead.ts';

const schema = z.object({
  ...usualFields,
  minutes: numberField({ label: '--minutes', ...bounds.planningMinutes, example: '5' }).prefault('1'),
});

/** Plans the year and prints it; for the household's own file and today the plan is kept as well. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, { ...usualOptions, minutes: { type: 'string' } }, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { demo, json, database, minutes, 'as-of': asOf } = options.value;
  try {
    return await withHousehold(
      { demo, asOf, database },
      async ({ db, household, today, at, isThrowAway }) => {
        const reference = loadReferenceTables();
        const { loaded, answer } = await planHousehold(db, household.id, today, reference, planYear, {
          secondsLimit: 60 * minutes,
        });
        if (!isThrowAway && asOf === null)
          await keepPlan(db, household.id, {
            year: loaded.year,
            factsVersion: loaded.facts.version,
            answer,
            at,
          });
        const { plan, paths } = answer.outcome === 'planned' ? answer : answer.fallback;
        if (answer.outcome !== 'planned')
          console.error(
            `No plan was found (${answer.outcome}): ${answer.detail}. This is what you would have to buy if you put nothing up.`,
          );
        if (json) console.log(JSON.stringify(plan, null, 1));
        else {
          const lines = dayLines(await batchDaysBy(plan, db, household, today, reference));
          for (const line of planLines({ plan, paths, isProven: answer.outcome === 'planned' }, loaded, {
            lines,
            reference,
          }))
            console.log(line);
        }
        return answer.outcome === 'planned' ? done : couldNot;
      },
    );
  } finally {
    await closePlanner();
  }
}

/** A plan of the whole year as lines of text: how good it is, its weeks, what does not fit, what is not planned. */
export function planLines(
  { plan, paths, isProven }: Pick<StoredPlan, 'plan' | 'paths'> & { readonly isProven: boolean },
  loaded: HouseholdYear,
  days: Parameters<typeof weeksAhead>[2],
): readonly string[] {
  const reading = readingOf(loaded.facts.household, loaded.year.asOf);
  const money = (amount: number) => formatMoney(asCents(amount), reading);
  const batches = plan.weeks
    .flatMap(({ sessions }) => sessions)
    .reduce((sum, session) => sum + session.batches, 0);
  const names = {
    facts: loaded.facts,
    walkOf: (item: ItemId) => walkOfItem(loaded, item, { paths, year: loaded.year }),
    bareOf: (id: ItemId) => bareUnder(paths, loaded, id),
    reading,
  };
  return [
    `${loaded.facts.household.name}, ${counted(plan.horizonWeeks, 'week')} from ${formatDate(plan.asOf, reading)}: ${formatQuantity(batches, 'batch', reading)} in ${formatQuantity(plan.weeks.filter(({ sessions }) => sessions.length > 0).length, 'week', reading)}, ${money(plan.weeks.reduce((sum, { spend }) => sum + spend, 0))} to spend.`,
    isProven
      ? `${provenWords(plan.gap, reading)} It took ${plan.solveSeconds.toFixed(1)} s.`
      : 'Nothing is proven about this plan.',
    '',
    ...weeksAhead(
      plan,
      { ...loaded.facts, reading, measuresOf: measuresIn(days.reference) },
      days,
      plan.weeks.length,
    ),
    ...(plan.gaveWay.length === 0 ? [] : ['', 'What doesn’t fit:']),
    ...gaveWayRungs.flatMap((rung) =>
      givenWords(
        plan.gaveWay.filter((gaveWay) => gaveWay.rung === rung),
        names,
      ).map((words) => `  ${rungWords[rung]}: ${words}`),
    ),
    ...(loaded.recipes.leftOut.length === 0 ? [] : ['', 'Not planned:']),
    ...loaded.recipes.leftOut.map(
      ({ name, reasons }) => `  ${name}: ${reasons.map(({ message }) => message).join(' ')}`,
    ),
  ];
}

/** When a plan leaves none of an item, in words; null where it always leaves some. */
function bareUnder(paths: StoredPlan['paths'], loaded: HouseholdYear, id: ItemId): string | null {
  const item = loaded.facts.items.find((one) => one.id === id);
  const path = paths.find((one) => one.item === id);
  if (item === undefined || path === undefined) return null;
  const projection = itemOutlook(loaded, item, { path, weeks: loaded.year.weeks });
  return bareWords({ projection, gaps: itemGaps(projection, true, null) }, loaded.year.asOf);
}
