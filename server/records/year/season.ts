import { found, type Outcome } from '../../../shared/problems.ts';
import type { SeasonRequest } from '../../../shared/schemas/season.ts';
import { knownItem } from '../canning/checks.ts';
import { type Recording, record } from '../record.ts';

/** Says how the use of an item goes through the year. All months as usual: nothing is kept. */
export const declareSeason = (
  recording: Recording,
  request: SeasonRequest,
): Promise<Outcome<{ readonly isAllYear: boolean }>> =>
  record(recording, 'declare season', request, async (recorder) => {
    const item = await knownItem(recorder, request.itemId);
    if (!item.ok) return item;
    const { trx, householdId } = recorder;
    await trx
      .deleteFrom('season_multiplier')
      .where('household_id', '=', householdId)
      .where('item_id', '=', item.value.id)
      .execute();
    const isAllYear = request.percentByMonth.every((percent) => percent === 100);
    if (!isAllYear)
      await trx
        .insertInto('season_multiplier')
        .values(
          request.percentByMonth.map((percent, at) => ({
            household_id: householdId,
            item_id: item.value.id,
            month: at + 1,
            multiplier: percent / 100,
          })),
        )
        .execute();
    return found({ isAllYear });
  });
