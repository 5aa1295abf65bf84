import { asCents } from '../../../shared/money.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { BoughtRequest, LineRequest } from '../../../shared/schemas/buying.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { isSameLine } from '../../../src/household/purchase.ts';
import type { PlannedPurchase } from '../../../src/planning/plan.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import { pastDay } from '../canning/checks.ts';
import { problemsIn, type Recorder, type Recording, type Rules, record, refuse } from '../record.ts';
import { addBoughtLine } from './bought-line.ts';
import { lowerOnHand, raiseOnHand, soldSo } from './on-hand.ts';
import { forgetPrice, teachPrice } from './paid-prices.ts';

export interface LineAnswer {
  readonly id: string;
}

/** More than nothing, whole where it is sold whole, on a day that has come. */
export const boughtRules: Rules<BoughtRequest> = async (reader, { kind, what, amount = null, boughtOn }) =>
  problemsIn(
    amount !== null && amount <= 0
      ? refuse(
          'nothing-bought',
          'amount',
          'Write how much you bought, more than 0. Skip the line if you are not buying any.',
        )
      : amount !== null && kind !== undefined && what !== undefined
        ? await soldSo(reader, { kind, what }, amount)
        : found(null),
    boughtOn === undefined ? found(null) : pastDay(reader, 'boughtOn', boughtOn),
  );

/** A line of the plan's list was bought, as planned or in another amount, for another price, on another day. */
export const markBought = (recording: Recording, request: BoughtRequest): Promise<Outcome<LineAnswer>> =>
  record(recording, 'bought', request, async (recorder) => {
    const line = await standingLine(recorder, request);
    if (!line.ok) return line;
    const { quantity: planned, cost } = line.value;
    const quantity = request.amount ?? planned;
    const wrong = await boughtRules(recorder, { ...request, amount: quantity });
    const day = pastDay(recorder, 'boughtOn', request.boughtOn);
    if (!day.ok || wrong.length > 0) return refused(...wrong);
    const expected = asCents((cost * quantity) / Math.max(planned, 1e-9));
    const paid = request.paid ?? expected;
    const raised = await raiseOnHand(recorder, request, { quantity, paid, on: day.value });
    if (!raised.ok) return raised;
    const id = await addBoughtLine(recorder, request, {
      decision: 'bought',
      quantity,
      cost: paid,
      on: day.value,
      settles: request.rest !== 'asked',
      entryId: raised.value,
      price: paid === expected ? null : await teachPrice(recorder, request, { quantity, paid }),
    });
    return found({ id });
  });

/** A line is not to be bought in its week. */
export const skipLine = (recording: Recording, request: LineRequest): Promise<Outcome<LineAnswer>> =>
  record(recording, 'skip line', request, async (recorder) => {
    const line = await standingLine(recorder, request);
    if (!line.ok) return line;
    const id = await addBoughtLine(recorder, request, {
      decision: 'skipped',
      quantity: 0,
      cost: asCents(0),
      on: recorder.today,
      settles: true,
      entryId: null,
      price: null,
    });
    return found({ id });
  });

/** Takes a line back that was bought or skipped, with all it raised; what was counted since is right as it is. */
export const undoLine = (recording: Recording, id: string): Promise<Outcome<LineAnswer>> =>
  record(recording, 'undo line', { id }, async (recorder) => {
    const { trx, householdId, at } = recorder;
    const row = await trx
      .selectFrom('bought')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('id', '=', id)
      .executeTakeFirst();
    if (row === undefined || row.undone_at !== null)
      return refuse(
        'already-undone',
        '',
        'That line is not among what was bought or skipped; it may be undone already. Load the page again.',
      );
    if (row.entry_id !== null) {
      const lowered = await lowerOnHand(recorder, row.kind, row.what, row.entry_id);
      if (!lowered.ok) return lowered;
    }
    const { price_before_cents: before, price_taught_cents: taught } = row;
    if (before !== null && taught !== null)
      await forgetPrice(
        recorder,
        { week: row.week as WeekKey, kind: row.kind, what: row.what, pack: row.pack_id },
        { before: asCents(before), taught: asCents(taught), at: row.recorded_at },
      );
    await trx
      .updateTable('bought')
      .set({ undone_at: at })
      .where('household_id', '=', householdId)
      .where((line) => (row.entry_id === null ? line('id', '=', id) : line('entry_id', '=', row.entry_id)))
      .where('undone_at', 'is', null)
      .execute();
    return found({ id });
  });

/** The line as the standing plan still has it. */
async function standingLine(
  { trx, householdId }: Recorder,
  request: LineRequest,
): Promise<Outcome<PlannedPurchase>> {
  const stored = await standingPlanOf(trx, householdId);
  const line = stored?.plan.weeks
    .find(({ week }) => week === request.week)
    ?.purchases.find((one) =>
      isSameLine(request, {
        week: request.week,
        kind: one.kind,
        what: one.what,
        pack: one.packs?.id ?? null,
      }),
    );
  return line === undefined
    ? refuse(
        'line-gone',
        '',
        'That line is no longer on the shopping list: it was bought or skipped already, or the plan has changed. Load the page again.',
      )
    : found(line);
}
