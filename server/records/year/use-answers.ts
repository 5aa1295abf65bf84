import type { ItemId } from '../../../shared/ids.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { type CalendarDate, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { knownItem } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import { type Recorder, type Recording, record } from '../record.ts';

/** A full week, the day on which most of it was taken, and the units that were more than usual. */
export interface FullWeek {
  readonly itemId: ItemId;
  readonly week: WeekKey;
  readonly on: CalendarDate;
  readonly units: number;
}

/** "Was this an occasion?": yes once, yes every year, or no. An occasion is a dated one from then on, and no longer teaches. */
export const answerFullWeek = (
  recording: Recording,
  request: FullWeek & { readonly answer: 'once' | 'every-year' | 'ordinary' },
): Promise<Outcome<{ readonly itemId: ItemId }>> =>
  record(recording, 'answer full week', request, async (recorder) => {
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    if (request.answer === 'ordinary')
      await callOrdinary(recorder, request.itemId, 'week', mondayOf(request.week));
    else await addPastOccasion(recorder, request, request.answer === 'every-year');
    return found({ itemId: request.itemId });
  });

/** "Is it eaten mostly in these months?": no, all year alike. (Yes is a declared season.) */
export const sayAllYearAlike = (
  recording: Recording,
  itemId: ItemId,
): Promise<Outcome<{ readonly itemId: ItemId }>> =>
  record(recording, 'say all year alike', { itemId }, async (recorder) => {
    const item = await knownItem(recorder, itemId);
    if (!item.ok) return item;
    await callOrdinary(recorder, itemId, 'year', recorder.today);
    return found({ itemId });
  });

const callOrdinary = (
  { trx, householdId }: Recorder,
  itemId: ItemId,
  kind: 'week' | 'year',
  on: CalendarDate,
): Promise<unknown> =>
  trx
    .insertInto('ordinary_use')
    .values({ household_id: householdId, item_id: itemId, kind, on_date: on })
    .onConflict((same) => same.doNothing())
    .execute();

async function addPastOccasion(
  { trx, householdId }: Recorder,
  { itemId, on, units }: FullWeek,
  isYearly: boolean,
): Promise<void> {
  const taken = await trx
    .selectFrom('occasion')
    .select('id')
    .where('household_id', '=', householdId)
    .execute();
  await trx
    .insertInto('occasion')
    .values({
      household_id: householdId,
      id: freshId(
        `${itemId} occasion`,
        taken.map((row) => row.id),
      ),
      item_id: itemId,
      kind: 'occasion',
      on_date: on,
      units,
      note: '',
      yearly: isYearly ? 1 : 0,
    })
    .execute();
}
