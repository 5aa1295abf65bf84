import { counted } from '../../../shared/counting.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { SealCheckRequest } from '../../../shared/schemas/canning-session.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { sealAdviceFor } from '../../../src/preserving/afterwards/seal-advice.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { itemById } from '../../queries/household/items.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { problem, type Recording, type Rules, record, refuse } from '../record.ts';
import { takeWithin } from './take.ts';

/** No more jars failed than the batch has. */
export const sealRules =
  (lotId: string): Rules<Pick<SealCheckRequest, 'failed'>> =>
  async ({ trx, householdId }, { failed }) => {
    const [lot] = await lotsOf(trx, householdId, { lotId, empty: true });
    return lot === undefined || failed === undefined || failed <= lot.unitsLeft
      ? []
      : [
          problem(
            'more-than-there-is',
            'failed',
            `This batch has ${counted(lot.unitsLeft, 'jar')}, so ${failed} cannot have failed. Count them again.`,
          ),
        ];
  };

/** The look at the seals after 12 to 24 hours: what failed leaves the shelf, and how it is saved is kept. Once for a lot. */
export const checkSeals = (
  recording: Recording,
  reference: ReferenceTables,
  lotId: string,
  { failed, choice }: SealCheckRequest,
): Promise<Outcome<{ readonly failed: number }>> =>
  record(recording, 'check seals', { lotId, failed, choice }, async (recorder) => {
    const { trx, householdId, at, today } = recorder;
    const [lot] = await lotsOf(trx, householdId, { lotId, empty: true });
    const result = (await batchResultsOf(trx, householdId)).find((one) =>
      one.lots.some((own) => own.lotId === lotId),
    );
    const own = result?.lots.find((one) => one.lotId === lotId);
    if (!lot || !result || !own?.isProcessed)
      return refuse('lot-unknown', 'lotId', 'Choose a batch from the canning day.');
    if (own.sealCheck !== null)
      return refuse(
        'already-checked',
        'lotId',
        'The seals of this batch are checked already. A jar found unsealed later is another matter: see “Found unsealed”.',
      );
    const item = await itemById(trx, householdId, lot.itemId);
    const recipe = (await recipesOf(trx, householdId)).find(({ id }) => id === lot.recipeId) ?? null;
    const wrong = await sealRules(lotId)(recorder, { failed });
    if (failed > 0 && item !== null) {
      const possible = sealAdviceFor(item, recipe, reference, result.processedAt, at);
      if (!possible.some((advice) => advice.choice === choice) && choice !== 'discard')
        return refused(
          ...wrong,
          problem(
            'choice-not-possible',
            'choice',
            `Choose one of: ${possible.map((advice) => advice.choice).join(', ')}. ${possible[0]?.text ?? ''}`,
          ),
        );
    }
    if (wrong.length > 0) return refused(...wrong);
    if (failed > 0 && item !== null) {
      const gone = await takeWithin(recorder, {
        itemId: null,
        lotId: lot.id,
        jarKind: null,
        units: failed,
        kind: choice === 'discard' ? 'discarded' : 'seal failed',
        reason: choice === 'discard' ? 'not-sealed' : choice,
        occurredOn: today,
        late: false,
        forPromise: false,
        takenBy: null,
      });
      if (!gone.ok) return gone;
    }
    await trx
      .insertInto('seal_check')
      .values({
        household_id: householdId,
        lot_id: lotId,
        checked_at: at,
        failed,
        choice: failed > 0 ? choice : null,
      })
      .execute();
    return found({ failed });
  });
