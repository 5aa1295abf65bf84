import { createHash } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import { type Outcome, refused } from '../../shared/problems.ts';
import type { Writing } from '../database/database.ts';

/** Code of the problem when a key is sent again with something else; a web page answers it with 409. */
export const keyReused = 'key-reused';

interface Key {
  readonly householdId: HouseholdId;
  readonly key: string;
  readonly at: number;
}

/**
 * Does the work once for a key. The same key with the same request gives the first answer again; with another request it
 * is refused. Refused work is not remembered, so that a mended form may be sent under the same key.
 */
export async function once<T>(
  trx: Writing,
  { householdId, key, at }: Key,
  request: unknown,
  work: () => Promise<Outcome<T>>,
): Promise<{ readonly outcome: Outcome<T>; readonly repeated: boolean }> {
  if (key.length < 8 || key.length > 200) {
    const message = `A write needs a key of 8 to 200 characters; found ${key.length}. Load the page again and repeat it.`;
    return { outcome: refused({ code: 'key-malformed', path: ['key'], message }), repeated: false };
  }
  const requestHash = createHash('sha256').update(canonical(request)).digest('hex');
  const earlier = await trx
    .selectFrom('idempotency')
    .select(['request_hash', 'answer_json'])
    .where('household_id', '=', householdId)
    .where('key', '=', key)
    .executeTakeFirst();
  if (earlier?.request_hash === requestHash)
    return { outcome: JSON.parse(earlier.answer_json) as Outcome<T>, repeated: true };
  if (earlier) {
    const message =
      'This form was already sent with other contents, and that was recorded. Load the page again to see it, then enter the change anew.';
    return { outcome: refused({ code: keyReused, path: ['key'], message }), repeated: false };
  }
  const outcome = await work();
  if (outcome.ok) {
    await trx
      .insertInto('idempotency')
      .values({
        household_id: householdId,
        key,
        request_hash: requestHash,
        answer_json: JSON.stringify(outcome),
        recorded_at: at,
      })
      .execute();
  }
  return { outcome, repeated: false };
}

/** The request as text that does not depend on the order of its fields. */
const canonical = (request: unknown): string =>
  JSON.stringify(request, (_, value: unknown) =>
    value !== null && typeof value === 'object' && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)))
      : value,
  );
