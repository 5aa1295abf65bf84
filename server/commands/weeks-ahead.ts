import { counted } from '../../shared/counting.ts';
import type { JarKind } from '../../shared/jar.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { weekHolding } from '../../shared/week.ts';
import type { DayLine } from '../../src/planning/days/day-lines.ts';
import type { Plan, PlannedPurchase, PlannedWeek } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import {
  formatJarKind,
  formatJars,
  formatMinutes,
  formatMoney,
  formatNumber,
  formatQuantity,
  formatWeek,
} from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { lineText } from '../words/batch-days.ts';

/** The first weeks of a plan as lines of text: what to can, what to buy, minutes and money. */
export function weeksAhead(
  plan: Plan,
  year: PlanningYear,
  reading: Reading,
  days: { readonly lines: readonly DayLine[]; readonly reference: ReferenceTables },
  howMany = 4,
): readonly string[] {
  return plan.weeks
    .slice(0, howMany)
    .flatMap((week) => [
      `${formatWeek(week.week, reading)}${totals(week, reading)}`,
      ...days.lines
        .filter(({ on, kind }) => weekHolding(on, reading.weekStartsOn) === week.week && kind !== 'load')
        .map((line) => `  do   ${lineText(line, days.reference, reading)}`),
      ...canning(week, year, reading).map((line) => `  can  ${line}`),
      ...week.purchases.map(
        (purchase) =>
          `  ${isPicked(purchase, year) ? 'pick' : 'buy '} ${purchaseLine(purchase, year, reading)}`,
      ),
      ...(week.sessions.length + week.purchases.length === 0 ? ['  nothing to can or buy'] : []),
    ]);
}

const isPicked = ({ kind, what }: PlannedPurchase, { sources }: PlanningYear): boolean =>
  kind === 'produce' && sources.some((source) => source.id === what && source.kind !== 'market');

const totals = ({ kitchenMinutes, spend }: PlannedWeek, reading: Reading): string => {
  const parts = [
    ...(kitchenMinutes > 0 ? [`${formatMinutes(kitchenMinutes)} in the kitchen`] : []),
    ...(spend > 0 ? [formatMoney(spend, reading)] : []),
  ];
  return parts.length === 0 ? '' : `: ${parts.join(', ')}`;
};

const canning = (week: PlannedWeek, year: PlanningYear, reading: Reading): string[] =>
  week.sessions.map(({ recipe, batches, jars, units }) => {
    const name = year.recipes.find(({ id }) => id === recipe)?.name ?? recipe;
    const filled = jars.map(({ kind, count }) => formatJars(count, kind, reading)).join(', ');
    return `${name}, ${counted(batches, 'batch')} (${filled === '' ? `about ${units}` : `up to ${filled}`})`;
  });

function purchaseLine(
  { what, kind, quantity, unit, packs, cost }: PlannedPurchase,
  year: PlanningYear,
  reading: Reading,
): string {
  const price = cost === 0 ? 'our own' : formatMoney(cost, reading);
  switch (kind) {
    case 'jars':
      return `${quantity} jars (${formatJarKind(what as JarKind)}), ${price}`;
    case 'lids':
      return `${quantity} ${what} lids, ${price}`;
    default: {
      const name =
        [...year.items, ...year.sources, ...year.supplies].find(({ id }) => id === what)?.name ?? what;
      const amount =
        kind === 'item' && packs !== null
          ? packWords(packs.count, quantity / packs.count, reading)
          : formatQuantity(quantity, unit, reading);
      return `${name}, ${amount}, ${price}`;
    }
  }
}

const packWords = (count: number, unitsEach: number, reading: Reading): string => {
  const packs = formatQuantity(count, 'pack', reading);
  return unitsEach === 1 ? formatNumber(count, reading) : `${packs} of ${formatNumber(unitsEach, reading)}`;
};
