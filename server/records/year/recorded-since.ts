import { found, type Outcome } from '../../../shared/problems.ts';
import type { RecordedSince } from '../../../shared/schemas/recorded-since.ts';
import { pastDay } from '../canning/checks.ts';
import { type Recording, record } from '../record.ts';

/** "We have recorded since …", once for all items; null takes the word back. */
export const sayRecordedSince = (
  recording: Recording,
  request: RecordedSince,
): Promise<Outcome<RecordedSince>> =>
  record(recording, 'say recorded since', request, async (recorder) => {
    const day = request.since === null ? null : pastDay(recorder, 'since', request.since);
    if (day !== null && !day.ok) return day;
    await recorder.trx
      .updateTable('household')
      .set({ recorded_since: request.since })
      .where('id', '=', recorder.householdId)
      .execute();
    return found(request);
  });
