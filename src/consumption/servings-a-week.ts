import type { ItemId } from '../../shared/ids.ts';
import { type MealKind, mealKinds } from '../../shared/meal-kinds.ts';
import { countsAs } from '../household/counts-as.ts';
import type { Item } from '../household/item.ts';

export interface ServingsOfKind {
  readonly kind: MealKind;
  /** Servings for each person and week, over the year as it is expected. */
  readonly perPerson: number;
  /** What it comes from, the most first. */
  readonly from: readonly { readonly item: Item; readonly perPerson: number }[];
  /** Eaten as well, and not counted: nobody said how many servings one gives. */
  readonly uncounted: readonly Item[];
}

/**
 * Servings of each kind for each person and week: units eaten a week × servings in one, shared among the people.
 *
 * `unitsAWeek` are units of an item expected to be eaten in an average week of the year. Example: 0.8 pints a week of 2.4
 * servings for 4 people: 0.48.
 */
export function servingsAWeek(
  items: readonly Item[],
  unitsAWeek: ReadonlyMap<ItemId, number>,
  people: number,
): readonly ServingsOfKind[] {
  if (!(people > 0)) throw new RangeError(`servingsAWeek: expected 1 or more people, got ${people}`);
  return mealKinds.map((kind) => {
    const eaten = items.flatMap((item) => {
      const units = unitsAWeek.get(item.id) ?? 0;
      return countsAs(item) === kind && units > 1e-9 ? [{ item, units }] : [];
    });
    const from = eaten
      .flatMap(({ item, units }) =>
        item.servingsPerUnit === null ? [] : [{ item, perPerson: (units * item.servingsPerUnit) / people }],
      )
      .sort((one, other) => other.perPerson - one.perPerson || (one.item.name < other.item.name ? -1 : 1));
    return {
      kind,
      perPerson: from.reduce((sum, { perPerson }) => sum + perPerson, 0),
      from,
      uncounted: eaten.flatMap(({ item }) => (item.servingsPerUnit === null ? [item] : [])),
    };
  });
}
