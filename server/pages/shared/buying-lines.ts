import type { Cents } from '../../../shared/money.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { LinePurchase, PurchaseKind, PurchaseLine } from '../../../src/household/purchase.ts';
import type { PlannedPurchase } from '../../../src/planning/plan.ts';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { LineForm, LineTickProps, SettledLine } from '../../../views/parts/line-tick.tsx';
import { formatDay, formatMoney, readersUnit, unitFor } from '../../../views/words/format.ts';
import { pricePerWeight } from '../../words/buying/price-per-weight.ts';
import { type PlannedNames, purchaseWords } from '../../words/planned-words.ts';
import { fieldsFrom, type SentBack, statesFrom } from './answer-form.ts';
import { unitChoicesOf, weightUnit } from './produce/units.ts';

const nothingTyped: LineForm['values'] = { amount: '', amountUnit: '', paid: '', boughtOn: '', rest: false };

/** Id of the form of a line. */
export const lineFormId = ({ week, kind, what, pack }: PurchaseLine): string =>
  [week, kind, what, pack ?? ''].join(' ');

/** What is wrong with a line as a whole; null where nothing is. */
export const lineProblem = (sentBack: SentBack | null): string | null =>
  (sentBack === null ? undefined : fieldsFrom(sentBack)(sentBack.formId, nothingTyped).problems['']) ?? null;

export const presentTick = (
  purchase: PlannedPurchase,
  week: WeekKey,
  {
    names,
    keys,
    back,
    failed,
    opened = null,
  }: {
    readonly names: PlannedNames;
    readonly keys: () => FormKeys;
    readonly back: '/' | '/buying';
    readonly failed: SentBack | null;
    /** The line that was asked for, where only one has its fields. */
    readonly opened?: string | null;
  },
): LineTickProps => {
  const { what, amount } = purchaseWords(names, purchase);
  const pack = purchase.packs?.id ?? null;
  const line = { week, kind: purchase.kind, what: purchase.what, pack };
  const formId = lineFormId(line);
  const unit = unitOf(purchase, names);
  const price = purchase.cost === 0 ? '' : ` for ${formatMoney(purchase.cost, names.reading)}`;
  return {
    line: { ...line, pack: pack ?? '' },
    back,
    words: `${what}, ${amount}`,
    unit,
    units: unitsOf(purchase, names),
    planned: `${amount}${price}, today`,
    form: statesFrom(keys, failed)(formId, { ...nothingTyped, amountUnit: unit }),
    otherAt:
      back === '/buying' || opened === lineAddress(line) || failed?.formId === formId
        ? null
        : `/?other=${encodeURIComponent(lineAddress(line))}#pick-and-buy`,
  };
};

/** A line in the address of a page. */
const lineAddress = ({ week, kind, what, pack }: PurchaseLine): string =>
  [week, kind, what, ...(pack === null ? [] : [pack])].join(' ');

/** What an amount of produce may be said in; empty of everything else. */
const unitsOf = ({ kind, what }: PlannedPurchase, { sources, measuresOf, reading }: PlannedNames) => {
  const crop = kind === 'produce' ? sources.find(({ id }) => id === what)?.crop : undefined;
  return crop === undefined ? [] : unitChoicesOf(measuresOf(crop), reading);
};

const unitOf = ({ kind, what, unit }: PlannedPurchase, names: PlannedNames): string => {
  const { items, supplies } = names;
  switch (kind) {
    case 'item': {
      const item = items.find(({ id }) => id === what);
      return item === undefined ? unit : unitFor(2, readersUnit(item.unit, names.reading));
    }
    case 'supply':
      return unitFor(2, readersUnit(supplies.find(({ id }) => id === what)?.unit ?? unit, names.reading));
    case 'produce':
      return weightUnit(names.reading);
    case 'jars':
      return 'jars';
    case 'lids':
      return 'lids';
  }
};

/** What was bought or skipped of some weeks, the last first. */
export const presentSettled = (
  purchases: readonly LinePurchase[],
  names: PlannedNames,
  keys: () => FormKeys,
): readonly SettledLine[] =>
  purchases.toReversed().map(({ id, kind, what, quantity, cost, decision, on, newPrice }) => {
    const words = purchaseWords(names, { kind, what, quantity, unit: 'unit', packs: null, cost });
    const price = cost === 0 ? '' : ` for ${formatMoney(cost, names.reading)}`;
    return {
      id,
      words: decision === 'skipped' ? words.what : `${words.what}, ${words.amount}${price}`,
      how:
        decision === 'skipped'
          ? 'not to be bought'
          : [
              boughtOn(on, names),
              ...(newPrice === undefined ? [] : [priceFromNowOn(kind, newPrice, names)]),
            ].join('; '),
      keys: keys(),
    };
  });

const boughtOn = (on: CalendarDate, { reading }: PlannedNames): string => `bought ${formatDay(on, reading)}`;

/** "$4.90 a pack from now on": what the next plan counts with. */
const priceFromNowOn = (kind: PurchaseKind, price: Cents, { reading }: PlannedNames): string => {
  switch (kind) {
    case 'produce':
      return `${pricePerWeight(price, reading)} from now on`;
    case 'lids':
      return `${formatMoney(price, reading)} a box from now on`;
    case 'item':
    case 'supply':
    case 'jars':
      return `${formatMoney(price, reading)} a pack from now on`;
  }
};
