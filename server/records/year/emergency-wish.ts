import { found, type Outcome } from '../../../shared/problems.ts';
import type { EmergencyWish } from '../../../shared/schemas/meals.ts';
import { pastDay } from '../canning/checks.ts';
import { type Recording, record } from '../record.ts';

/** For how many days a household is to be ready, and the water it keeps for them, gallons; null where it says nothing. */
export const sayEmergencyWish = (
  recording: Recording,
  request: Omit<EmergencyWish, 'water'> & { readonly waterGallons: number | null },
): Promise<Outcome<null>> =>
  record(recording, 'say emergency wish', request, async (recorder) => {
    const day = request.filledOn === null ? null : pastDay(recorder, 'filledOn', request.filledOn);
    if (day !== null && !day.ok) return day;
    await recorder.trx
      .updateTable('household')
      .set({
        emergency_days: request.days,
        water_gallons: request.waterGallons,
        water_filled_on: request.filledOn,
      })
      .where('id', '=', recorder.householdId)
      .execute();
    return found(null);
  });
