import { found, type Outcome } from '../../../shared/problems.ts';
import type { ServingsWanted } from '../../../shared/schemas/meals.ts';
import { type Recording, record } from '../record.ts';

/** Servings wanted for each person and week; null where none are. */
export const sayServingsWanted = (
  recording: Recording,
  request: ServingsWanted,
): Promise<Outcome<ServingsWanted>> =>
  record(recording, 'say servings wanted', request, async (recorder) => {
    await recorder.trx
      .updateTable('household')
      .set({
        fruit_servings: request.fruit,
        vegetable_servings: request.vegetable,
        protein_servings: request.protein,
        sweet_servings: request.sweet,
      })
      .where('id', '=', recorder.householdId)
      .execute();
    return found(request);
  });
