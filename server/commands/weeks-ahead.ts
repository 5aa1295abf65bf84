import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { weekHolding } from '../../shared/week.ts';
import type { Keeping } from '../../src/household/item.ts';
import type { DayLine } from '../../src/planning/days/day-lines.ts';
import type { Plan, PlannedPurchase, PlannedSession, PlannedWeek } from '../../src/planning/plan.ts';
import { formatMinutes, formatMoney, formatQuantity, formatWeek } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { lineText } from '../words/batch-days.ts';
import { comesWords, itemOf, type PlannedNames, purchaseWords, recipeOf } from '../words/planned-words.ts';

/** The first weeks of a plan as lines of text: what to put up, what to buy, minutes and money. */
export function weeksAhead(
  plan: Plan,
  names: PlannedNames,
  days: { readonly lines: readonly DayLine[]; readonly reference: ReferenceTables },
  howMany = 4,
): readonly string[] {
  const { reading } = names;
  return plan.weeks
    .slice(0, howMany)
    .flatMap((week) => [
      `${formatWeek(week.week, reading)}${totals(week, reading)}`,
      ...days.lines
        .filter(({ on, kind }) => weekHolding(on, reading.weekStartsOn) === week.week && kind !== 'load')
        .map((line) => told('do', lineText(line, days.reference, reading))),
      ...week.sessions.map((session) => putUpLine(session, names)),
      ...week.purchases.map((purchase) => purchaseLine(purchase, names)),
      ...(week.sessions.length + week.purchases.length === 0 ? ['  nothing to put up or buy'] : []),
    ]);
}

/** What is done to put something up, by how it is then kept. */
const putUpVerbs: Readonly<Record<Keeping, string>> = {
  canned: 'can',
  frozen: 'freeze',
  dried: 'dry',
  fermented: 'ferment',
  cellar: 'store',
  refrigerated: 'chill',
  bought: 'make',
};

const widestVerb = Math.max(...Object.values(putUpVerbs).map(({ length }) => length));

const told = (verb: string, words: string): string => `  ${verb.padEnd(widestVerb)} ${words}`;

const totals = ({ kitchenMinutes, spend }: PlannedWeek, reading: Reading): string => {
  const parts = [
    ...(kitchenMinutes > 0 ? [`${formatMinutes(kitchenMinutes)} in the kitchen`] : []),
    ...(spend > 0 ? [formatMoney(spend, reading)] : []),
  ];
  return parts.length === 0 ? '' : `: ${parts.join(', ')}`;
};

const putUpLine = (session: PlannedSession, names: PlannedNames): string => {
  const name = recipeOf(names, session)?.name ?? session.recipe.replaceAll('-', ' ');
  const comes = comesWords(names, session);
  return told(
    putUpVerbs[itemOf(names, session)?.keeping ?? 'bought'],
    `${name}, ${formatQuantity(session.batches, 'batch', names.reading)}${comes === '' ? '' : `: ${comes}`}`,
  );
};

const purchaseLine = (purchase: PlannedPurchase, names: PlannedNames): string => {
  const { what, quantity, packs } = purchaseWords(names, purchase);
  const price = purchase.cost === 0 ? 'our own' : formatMoney(purchase.cost, names.reading);
  const source = names.sources.find(({ id }) => purchase.kind === 'produce' && id === purchase.what);
  return told(
    source === undefined || source.kind === 'market' ? 'buy' : 'pick',
    `${what}, ${quantity}${packs === '' ? '' : ` (${packs})`}, ${price}`,
  );
};
