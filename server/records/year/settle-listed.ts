import { asCents } from '../../../shared/money.ts';
import { weekHolding } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { PurchaseKind } from '../../../src/household/purchase.ts';
import { householdById } from '../../queries/household/household.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import type { Recorder } from '../record.ts';
import { addBoughtLine } from './bought-line.ts';

/** What came in apart from the shopping list, in the unit of the list. */
export interface CameIn {
  readonly kind: PurchaseKind;
  readonly what: string;
  readonly quantity: number;
  /** What brought it; null where it was counted. */
  readonly entryId: string | null;
}

/** What was bought or counted elsewhere is not asked for again: lines of the list it covers are bought with it, the next first. */
export async function settleListed(
  recorder: Recorder,
  { kind, what, quantity, entryId }: CameIn,
): Promise<void> {
  const { trx, householdId, today } = recorder;
  const [plan, { weekStartsOn }] = await Promise.all([
    standingPlanOf(trx, householdId),
    householdById(trx, householdId),
  ]);
  const thisWeek = weekHolding(today, weekStartsOn);
  let left = quantity;
  for (const { week, purchases } of plan?.plan.weeks ?? []) {
    if (week < thisWeek) continue;
    for (const line of purchases) {
      if (line.kind !== kind || line.what !== what || left <= smallestAmount) continue;
      const covered = Math.min(left, line.quantity);
      left -= covered;
      await addBoughtLine(
        recorder,
        { week, kind, what, pack: line.packs?.id ?? null },
        {
          decision: 'bought',
          quantity: covered,
          // What it cost is kept with what came.
          cost: asCents(0),
          on: today,
          settles: covered >= line.quantity - smallestAmount,
          entryId,
          price: null,
        },
      );
    }
  }
}
