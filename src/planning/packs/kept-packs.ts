import type { PurchaseKind } from '../../household/purchase.ts';
import { entry, found, orNone } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { MaybeColumn } from '../model/variables.ts';
import type { Plan } from '../plan.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';

/** What the packs of an earlier plan are told from: what it buys week by week, what it misses, and how near it was to the best. */
export type PacksBefore = Pick<Plan, 'weeks' | 'packRounding' | 'rungs'>;

/**
 * Bounds that fix every pack column at what an earlier plan of the same weeks buys, or the nearest the week can take, with what
 * canning now needs on top; null for a plan of other weeks, which lacks the packs of some, and for one whose packs were only
 * rounded up.
 */
export function keptPacks(
  { sets, columns, model }: BuiltModel,
  { weeks, packRounding }: PacksBefore,
): ColumnBoundsByIndex | null {
  const { year } = sets;
  const isOfSameWeeks =
    weeks.length === year.weeks.length && weeks.every(({ week }, at) => week === year.weeks[at]);
  if (!isOfSameWeeks || packRounding.isRoundedUp === true) return null;
  const bought = weeks.map(
    ({ purchases }) =>
      new Map(purchases.map(({ kind, what, packs }) => [`${kind} ${what} ${packs?.id}`, packs?.count])),
  );
  const counts = new Map<number, number>();
  const keep = (list: readonly MaybeColumn[], kind: PurchaseKind, what: string, pack: string) =>
    list.forEach((column, week) => {
      if (column === null) return;
      const { lower, upper } = entry(model.columns, column, 'columns');
      const count = entry(bought, week, 'bought').get(`${kind} ${what} ${pack}`);
      counts.set(column, Math.min(upper, Math.max(lower, orNone(count))));
    });
  columns.purchases.forEach((packs, at) => {
    const item = entry(sets.items, at, 'items');
    packs.forEach((list, packAt) => {
      keep(list, 'item', item.id, entry(item.packs, packAt, 'packs').id);
    });
  });
  year.supplies.forEach(({ id }, at) => {
    keep(entry(columns.supplyBought, at, 'supplyBought'), 'supply', id, id);
  });
  year.jars.forEach(({ kind }, at) => {
    keep(entry(columns.jarsBought, at, 'jarsBought'), 'jars', kind, kind);
  });
  year.lids.forEach(({ mouth }, at) => {
    keep(entry(columns.lidsBought, at, 'lidsBought'), 'lids', mouth, mouth);
  });
  // What nothing but packs can serve: as much more as it lacks is bought at its end.
  for (const { lower, entries } of model.rows) {
    const last = entries.at(-1)?.[0];
    if (last === undefined || !entries.every(([column]) => counts.has(column))) continue;
    const bought = entries.reduce((sum, [column, packs]) => sum + packs * found(counts, column, 'counts'), 0);
    if (bought < lower) counts.set(last, found(counts, last, 'counts') + Math.ceil(lower - bought));
  }
  return new Map([...counts].map(([column, packs]) => [column, [packs, packs]]));
}
