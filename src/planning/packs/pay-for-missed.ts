import { cell, entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { rungTolerance } from '../solving/rungs.ts';

/** One pack more of something eaten. */
export interface PackMore {
  readonly item: number;
  readonly pack: number;
  readonly week: number;
  readonly column: number;
}

/**
 * Packs more that serve use which is missed, one after the other, those first that serve most for their price: each where the fund pays
 * for it in its week and in every later one. What search there was may have been too short to find them; no shelf should stand bare beside
 * money that nobody uses. Counted from an answer's values alone: how the rest then stands is for the solver to say.
 */
export function packsForMissed(
  { sets, columns, model }: Pick<BuiltModel, 'sets' | 'columns' | 'model'>,
  values: ArrayLike<number>,
): readonly PackMore[] {
  const amountOf = (column: number | null) => (column === null ? 0 : entry(values, column, 'values'));
  const room = columns.fund.map((column) => amountOf(column) - entry(model.columns, column, 'columns').lower);
  const missed = columns.shortage.map((weeks) => weeks.map(amountOf));
  const found: PackMore[] = [];
  for (;;) {
    const paidUpTo = leastFrom(room);
    let best: (PackMore & { readonly cents: number; readonly served: number }) | null = null;
    sets.items.forEach(({ packs }, item) => {
      entry(missed, item, 'missed').forEach((units, week) => {
        if (units <= rungTolerance) return;
        packs.forEach(({ priceByWeek }, pack) => {
          const column = cell(entry(columns.purchases, item, 'purchases'), pack, week, 'purchases');
          const cents = entry(priceByWeek, week, 'priceByWeek');
          if (column === null || cents > entry(paidUpTo, week, 'paidUpTo') + 1e-9) return;
          const served = servedBy(sets, missed, { item, pack, week });
          if (best === null || served * best.cents > best.served * cents * (1 + 1e-9))
            best = { item, pack, week, column, cents, served };
        });
      });
    });
    if (best === null) return found;
    const { cents, served: _, ...more }: PackMore & { cents: number; served: number } = best;
    found.push(more);
    for (let week = more.week; week < room.length; week += 1) room[week] = entry(room, week, 'room') - cents;
    serve(sets, missed, more);
  }
}

type Place = Pick<PackMore, 'item' | 'pack' | 'week'>;

/** Units of use in its week and after that a pack serves while it keeps. */
function servedBy(
  sets: Pick<BuiltModel['sets'], 'items'>,
  missed: readonly (readonly number[])[],
  place: Place,
): number {
  return shares(sets, missed, place).reduce((sum, units) => sum + units, 0);
}

function serve(sets: Pick<BuiltModel['sets'], 'items'>, missed: number[][], place: Place): void {
  const weeks = entry(missed, place.item, 'missed');
  shares(sets, missed, place).forEach((units, after) => {
    const week = place.week + after;
    weeks[week] = entry(weeks, week, 'weeks') - units;
  });
}

/** What a pack serves of what is missed, by weeks from its own. */
function shares(
  { items }: Pick<BuiltModel['sets'], 'items'>,
  missed: readonly (readonly number[])[],
  { item, pack, week }: Place,
): readonly number[] {
  const { packs, bestQualityWeeks } = entry(items, item, 'items');
  let left = entry(packs, pack, 'packs').units;
  return entry(missed, item, 'missed')
    .slice(week, week + Math.max(1, bestQualityWeeks))
    .map((units) => {
      const taken = Math.min(left, units);
      left -= taken;
      return taken;
    });
}

/** By week: the least of its own amount and all later ones. */
function leastFrom(amounts: readonly number[]): readonly number[] {
  const least = [...amounts];
  for (let week = least.length - 2; week >= 0; week -= 1)
    least[week] = Math.min(entry(least, week, 'amounts'), entry(least, week + 1, 'amounts'));
  return least;
}
