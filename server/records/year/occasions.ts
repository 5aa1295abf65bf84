import { dateWords } from '../../../shared/date-words.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { OccasionRequest } from '../../../shared/schemas/occasion.ts';
import { knownItem, wholeUnits } from '../canning/checks.ts';
import { freshId } from '../fresh-id.ts';
import { problemsIn, type Recording, type Rules, record, refuse } from '../record.ts';

/** Whole jars, on a day that can still come. */
export const occasionRules: Rules<OccasionRequest> = async (reader, { itemId, units, onDate, yearly }) => {
  const item = itemId === undefined ? null : await knownItem(reader, itemId);
  const isPast = onDate !== undefined && onDate < reader.today && yearly === false;
  return problemsIn(
    units === undefined || !item?.ok ? found(null) : wholeUnits(item.value, units),
    isPast
      ? refuse(
          'occasion-is-past',
          'onDate',
          `${dateWords(onDate)} is past, and this does not come every year; today is ${dateWords(reader.today)}. Choose a later day, or say that it comes every year.`,
        )
      : found(null),
  );
};

/** Writes down dated units beyond everyday use. One that does not come again must still lie ahead. */
export const addOccasion = (
  recording: Recording,
  request: OccasionRequest,
): Promise<Outcome<{ readonly occasionId: string }>> =>
  record(recording, 'add occasion', request, async (recorder) => {
    const { trx, householdId } = recorder;
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    const wrong = await occasionRules(recorder, request);
    if (wrong.length > 0) return refused(...wrong);
    const taken = await trx
      .selectFrom('occasion')
      .select('id')
      .where('household_id', '=', householdId)
      .execute();
    const id = freshId(
      `${request.itemId} ${request.note || request.kind}`,
      taken.map((row) => row.id),
    );
    await trx
      .insertInto('occasion')
      .values({
        household_id: householdId,
        id,
        item_id: item.value.id,
        kind: request.kind,
        on_date: request.onDate,
        units: request.units,
        note: request.note,
        yearly: request.yearly ? 1 : 0,
      })
      .execute();
    return found({ occasionId: id });
  });

export const removeOccasion = (
  recording: Recording,
  occasionId: string,
): Promise<Outcome<{ readonly occasionId: string }>> =>
  record(recording, 'remove occasion', { occasionId }, async ({ trx, householdId }) => {
    const { numDeletedRows } = await trx
      .deleteFrom('occasion')
      .where('household_id', '=', householdId)
      .where('id', '=', occasionId)
      .executeTakeFirstOrThrow();
    return numDeletedRows === 1n
      ? found({ occasionId })
      : refuse(
          'occasion-unknown',
          'occasionId',
          'That occasion, gift or promise is not written down; it may be removed already. Load the page again.',
        );
  });
