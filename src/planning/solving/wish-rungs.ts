import { entry, orNone } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { Entry, Model } from '../model/model.ts';
import { type RungName, rungNames } from './rungs.ts';

/** What is missed on one rung, as a sum over columns; in units of the wish (garden crop: units it would have given; first jars:
 * units of the average food, those of the first quarter three times; coming weeks: units of use, those of the reserve a third). */
export interface WishRung {
  readonly name: RungName;
  readonly entries: readonly Entry[];
  /** Price of one unit in the objective, cents. */
  readonly cents: number;
}

/** The rungs of a built model that have any wish on them, heaviest first. */
export function wishRungs({ terms, prices }: BuiltModel): WishRung[] {
  const priced: Record<RungName, readonly [cents: number, ...terms: string[]]> = {
    'cash and hours': [prices.pinned, 'cash and hours'],
    pins: [prices.pinned, 'pins'],
    'family minimums and groups': [prices.group, 'family minimum', 'group'],
    'coming weeks': [prices.comingWeeks, 'coming weeks'],
    'first jars': [prices.firstJars, 'first jars'],
    'garden crop': [prices.gardenUnit, 'garden crop'],
    use: [prices.use, 'use'],
    reserve: [prices.reserve, 'reserve'],
    variety: [prices.variety, 'variety'],
  };
  return rungNames
    .map((name) => {
      const [cents, ...names] = priced[name];
      const entries = names.flatMap((term) => terms[term]?.entries ?? []);
      return { name, cents, entries: entries.map(([column, price]): Entry => [column, price / cents]) };
    })
    .filter(({ entries }) => entries.length > 0);
}

/** What given values miss on a rung. */
export function missedOn({ entries }: WishRung, values: ArrayLike<number>): number {
  return Math.max(
    0,
    entries.reduce((sum, [column, units]) => sum + units * entry(values, column, 'values'), 0),
  );
}

/** What given values miss on all rungs together, at their prices, cents. */
export const costOfWishes = (rungs: readonly WishRung[], values: ArrayLike<number>): number =>
  rungs.reduce((sum, rung) => sum + rung.cents * missedOn(rung, values), 0);

/** The model asked for nothing but to miss as little as possible on one rung. */
export function modelOfRung(model: Model, { entries }: WishRung): Model {
  const costs = new Map<number, number>();
  for (const [column, units] of entries) costs.set(column, orNone(costs.get(column)) + units);
  return {
    rows: model.rows,
    columns: model.columns.map((column, at) => ({ ...column, cost: orNone(costs.get(at)) })),
    constant: 0,
  };
}

/**
 * The model with the prices of its wishes so many times what they are. Nought leaves money, freshness and what breaks
 * ties; many times leave no part of a unit unserved for want of a whole pack.
 */
export function withWishPrices(model: Model, rungs: readonly WishRung[], times: number): Model {
  const priced = new Map<number, number>();
  for (const { entries, cents } of rungs)
    for (const [column, units] of entries) priced.set(column, orNone(priced.get(column)) + units * cents);
  return {
    ...model,
    columns: model.columns.map((column, at) => ({
      ...column,
      cost: column.cost + (times - 1) * orNone(priced.get(at)),
    })),
  };
}

/** The model with no more missed on a rung than said. */
export function withRungKept(
  model: Model,
  { name, entries }: Pick<WishRung, 'name' | 'entries'>,
  most: number,
): Model {
  const upper = most + 1e-6 * (1 + most);
  const row = { name: `rung[${name}]`, lower: Number.NEGATIVE_INFINITY, upper, entries };
  return { ...model, rows: [...model.rows, row] };
}
