import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { DeclaredUseRequest, HandTarget } from '../../../shared/schemas/declared-use.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { knownItem } from '../canning/checks.ts';
import { problem, type Recorder, type Recording, type Rules, record } from '../record.ts';

/** Servings can be counted where it is known how many a unit gives. */
export const declaredUseRules: Rules<DeclaredUseRequest> = async (reader, { itemId, countedIn }) => {
  const item = itemId === undefined ? null : await knownItem(reader, itemId);
  if (!item?.ok || countedIn !== 'servings' || item.value.servingsPerUnit !== null) return [];
  return [
    problem(
      'servings-unknown',
      'countedIn',
      `Nobody has said how many servings one ${item.value.unit} of ${item.value.name} gives. Choose another way to count.`,
    ),
  ];
};

/** Says how much of an item is eaten, from a day on (today when no day is given). */
export const recordDeclaredUse = (
  recording: Recording,
  request: DeclaredUseRequest,
): Promise<Outcome<{ readonly sinceOn: CalendarDate }>> =>
  record(recording, 'declare use', request, (recorder) => declareUseWithin(recorder, request));

export async function declareUseWithin(
  recorder: Recorder,
  request: DeclaredUseRequest,
): Promise<Outcome<{ readonly sinceOn: CalendarDate }>> {
  const item = await knownItem(recorder, request.itemId);
  if (!item.ok) return item;
  const wrong = await declaredUseRules(recorder, request);
  if (wrong.length > 0) return refused(...wrong);
  const sinceOn = request.sinceOn ?? recorder.today;
  const said = {
    amount: request.amount,
    per: request.per,
    counted_in: request.countedIn,
    people: request.people,
    meals_per_week: request.mealsPerWeek,
    restarts_filter: request.restartsFilter ? 1 : 0,
    recorded_at: recorder.at,
  };
  await recorder.trx
    .insertInto('declared_use')
    .values({
      household_id: recorder.householdId,
      item_id: item.value.id,
      since_on: sinceOn,
      ...said,
    })
    .onConflict((same) => same.columns(['household_id', 'item_id', 'since_on']).doUpdateSet(said))
    .execute();
  return found({ sinceOn });
}

/** Sets a yearly target by hand, or takes it back so that it follows from use again. */
export const setHandTarget = (
  recording: Recording,
  request: HandTarget,
): Promise<Outcome<{ readonly units: number | null }>> =>
  record(recording, 'set target', request, async (recorder) => {
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    const place = { household_id: recorder.householdId, item_id: item.value.id };
    if (request.units === null) {
      await recorder.trx
        .deleteFrom('hand_target')
        .where('household_id', '=', place.household_id)
        .where('item_id', '=', place.item_id)
        .execute();
    } else {
      const set = { units: request.units, set_on: recorder.today };
      await recorder.trx
        .insertInto('hand_target')
        .values({ ...place, ...set })
        .onConflict((same) => same.columns(['household_id', 'item_id']).doUpdateSet(set))
        .execute();
    }
    return found({ units: request.units });
  });
