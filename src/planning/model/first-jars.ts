import { entry } from '../lookup.ts';
import type { PlanningSets } from './sets.ts';

/** How much of a food the year wants, for the wish that every food has its first jars before any has its last. */
export interface FirstJars {
  /** Use the year could serve and what its end hands over, units. */
  readonly wantedUnits: number;
  /** What one missing unit counts for, in units of the average food: foods are compared by shares of their year. */
  readonly weight: number;
}

/**
 * The first jars of a food, as shares of what the year wants of it: a jar missing of the first quarter counts three times
 * as much as one of the second, and one of the other half is no first jar. Judgement, no published source.
 */
export const firstJarBands: readonly {
  readonly name: string;
  readonly untilShare: number;
  readonly times: number;
}[] = [
  { name: 'first-half', untilShare: 0.5, times: 1 },
  { name: 'first-quarter', untilShare: 0.25, times: 2 },
];

/**
 * By item: foods the year wants and could still have, each with its weight; null for the others. A jar of one food is worth a jar of another only by its
 * share of that food's year: a missing half-pint of twelve a year counts as much as four missing quarts of forty-eight.
 *
 * weight = (units wanted of the average food) / (units wanted of this one). Foods that can neither be made nor bought in
 * time are left out, since no plan could serve them.
 */
export function firstJars(
  { items, weekCount }: PlanningSets,
  useByWeek: readonly (readonly number[])[],
  firstSupplyWeek: readonly number[],
): (FirstJars | null)[] {
  const wanted = items.map((item, at) => {
    const use = entry(useByWeek, at, 'useByWeek').reduce((sum, units) => sum + units, 0);
    const wantedUnits = use + item.yearEndUnits;
    const mayCome = entry(firstSupplyWeek, at, 'firstSupplyWeek') < weekCount;
    return mayCome && wantedUnits > 1e-6 ? wantedUnits : null;
  });
  const foods = wanted.flatMap((units) => units ?? []);
  const average = foods.reduce((sum, units) => sum + units, 0) / Math.max(1, foods.length);
  return wanted.map((wantedUnits) =>
    wantedUnits === null ? null : { wantedUnits, weight: average / wantedUnits },
  );
}
