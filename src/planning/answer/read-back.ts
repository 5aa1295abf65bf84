import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { CanningDecision } from '../model/planning-stage.ts';
import type { MaybeColumn } from '../model/variables.ts';
import type { BuyingDecision } from '../solving/decision.ts';

/** In parts of one. A solver's nought is often a little below it: none comes out as −0, which no plan that was kept would equal. */
const rounded = (amount: number, parts = 1): number => Math.round(amount * parts) / parts + 0;

/** Batches and sessions of a solution, rounded once. */
export function readCanning({ columns, sets }: BuiltModel, values: ArrayLike<number>): CanningDecision {
  const amount = amountsIn(values);
  const whole = (column: MaybeColumn) => rounded(amount(column));
  return {
    batches: columns.batches.map((weeks, recipe) =>
      weeks.map(entry(sets.recipes, recipe, 'recipes').setUp === undefined ? whole : amount),
    ),
    sessionsByWeek: columns.sessions.map(whole),
  };
}

/** What is bought under a solution of the pack stage: whole packs rounded once, produce up to a hundredth of a pound. */
export function readBuying({ columns, sets }: BuiltModel, values: ArrayLike<number>): BuyingDecision {
  const amount = amountsIn(values);
  const amounts = (weeks: readonly MaybeColumn[]) => weeks.map((column) => rounded(amount(column), 1000));
  const wholeByWeek = (weeks: readonly MaybeColumn[]) => weeks.map((column) => rounded(amount(column)));
  return {
    packs: columns.purchases.map((packs) => packs.map(wholeByWeek)),
    produceLb: columns.produce.map((weeks, source) =>
      weeks.map((column, week) =>
        Math.min(
          hundredthsUp(amount(column)),
          entry(entry(sets.sources, source, 'sources').lbByWeek, week, 'lbByWeek'),
        ),
      ),
    ),
    supplyPacks: columns.supplyBought.map(wholeByWeek),
    jarPacks: columns.jarsBought.map(wholeByWeek),
    lidBoxes: columns.lidsBought.map(wholeByWeek),
    materials: {
      freeze: columns.frozenIn.map(amounts),
      thaw: columns.thawed.map(amounts),
      waiting: columns.waiting.map(amounts),
      frozen: columns.frozen.map(amounts),
      lost: columns.lost.map(amounts),
    },
  };
}

/** What values hold of a column; none where the model has no column. */
const amountsIn =
  (values: ArrayLike<number>) =>
  (column: MaybeColumn): number =>
    column === null ? 0 : entry(values, column, 'values');

function hundredthsUp(lb: number): number {
  return lb < 1e-6 ? 0 : Math.ceil(lb * 100 - 1e-4) / 100;
}

/** Cents by named term of the objective, and their sum. */
export type TermsInCents = Readonly<Record<string, number>> & { readonly total: number };

/** Each named term of the objective at given values, and their sum as `total`, cents. */
export function objectiveByTerm({ terms }: BuiltModel, values: ArrayLike<number>): TermsInCents {
  const byTerm = Object.fromEntries(
    Object.entries(terms).map(([name, { constant, entries }]) => [
      name,
      entries.reduce((sum, [column, cents]) => sum + cents * entry(values, column, 'values'), constant),
    ]),
  );
  const total = Object.values(byTerm).reduce((sum, cents) => sum + cents, 0);
  return { ...byTerm, total };
}
