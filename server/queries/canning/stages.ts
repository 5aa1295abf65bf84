import { groupedBy } from '../../../shared/grouped-by.ts';
import type { HouseholdId, RecipeId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { PreparedBatches, RecipeBatches, RecipeFilledOn } from '../../../src/household/begun.ts';
import { batchesBegun, loadPlaceOf } from '../../../src/preserving/day/load-key.ts';
import type { Database } from '../../database/database.ts';
import { batchResultsOf } from './batch-results.ts';

/** Every batch of which a stage was written down and not taken back, oldest first, those filled long ago too. */
export async function batchesWithStages(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly RecipeBatches[]> {
  const events = await db
    .selectFrom('stage_event')
    .selectAll()
    .where('household_id', '=', householdId)
    .orderBy('seq')
    .execute();
  return [...groupedBy(events, (event) => event.batch_id)].flatMap(([id, own]) => {
    const [first] = own;
    if (first === undefined) return [];
    const begun = new Map<number, PreparedBatches['begun'][number]>();
    let isThrownAway = false;
    for (const { kind, position, way, begun_at: begunAt } of own) {
      if (position === null) isThrownAway = true;
      else if (kind === 'begun' && begunAt !== null) begun.set(position, { position, way, begunAt });
      else begun.delete(position);
    }
    if (begun.size === 0) return [];
    return [
      {
        id,
        recipeId: first.recipe_id as RecipeId,
        batches: first.batches,
        begun: [...begun.values()].sort((one, other) => one.position - other.position),
        isThrownAway,
      },
    ];
  });
}

/** Batches of each recipe that went into a canner or were written down, day by day. */
export async function batchesFilled(
  db: Database,
  householdId: HouseholdId,
): Promise<readonly RecipeFilledOn[]> {
  const [ticks, clocks, results] = await Promise.all([
    db
      .selectFrom('session_tick')
      .select(['session_on', 'load_key'])
      .where('household_id', '=', householdId)
      .execute(),
    db
      .selectFrom('load_clock_event')
      .select(['session_on', 'load_key'])
      .where('household_id', '=', householdId)
      .execute(),
    batchResultsOf(db, householdId),
  ]);
  const touched = groupedBy([...ticks, ...clocks], (row) => row.session_on);
  const made = groupedBy(results, ({ madeOn }) => madeOn);
  return [...new Set([...touched.keys(), ...made.keys()])].flatMap((day) => {
    const on = day as CalendarDate;
    const keys = (touched.get(day) ?? []).map((row) => row.load_key);
    const writtenDown = made.get(on) ?? [];
    const ofDay = new Set([
      ...keys.flatMap((key) => loadPlaceOf(key)?.recipe ?? []),
      ...writtenDown.map(({ recipeId }) => recipeId),
    ]);
    return [...ofDay].map((recipe) => ({
      recipeId: recipe as RecipeId,
      on,
      batches: batchesBegun(
        recipe,
        keys,
        writtenDown
          .filter(({ recipeId }) => recipeId === recipe)
          .reduce((sum, { batches }) => sum + batches, 0),
      ),
    }));
  });
}

/** When work on each pot of a day began: its first tick or clock, milliseconds since 1970, by recipe and pot (`kraut.2`). */
export async function potsBegunOn(
  db: Database,
  householdId: HouseholdId,
  on: CalendarDate,
): Promise<ReadonlyMap<string, number>> {
  const [ticks, clocks] = await Promise.all([
    db
      .selectFrom('session_tick')
      .select(['load_key', 'ticked_at as at'])
      .where('household_id', '=', householdId)
      .where('session_on', '=', on)
      .execute(),
    db
      .selectFrom('load_clock_event')
      .select(['load_key', 'at'])
      .where('household_id', '=', householdId)
      .where('session_on', '=', on)
      .execute(),
  ]);
  const begun = new Map<string, number>();
  for (const { load_key: key, at } of [...ticks, ...clocks]) {
    const place = loadPlaceOf(key);
    if (place === null) continue;
    const pot = potKeyOf(place);
    begun.set(pot, Math.min(at, begun.get(pot) ?? at));
  }
  return begun;
}

export const potKeyOf = ({ recipe, pot }: { readonly recipe: string; readonly pot: number }): string =>
  `${recipe}.${pot}`;
