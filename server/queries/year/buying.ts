import { groupedBy } from '../../../shared/grouped-by.ts';
import type { CropKey, HouseholdId, SourceId } from '../../../shared/ids.ts';
import type { Cents } from '../../../shared/money.ts';
import { addDays, type CalendarDate, mondayOf, type WeekKey, weekOf } from '../../../shared/week.ts';
import { smallestAmount } from '../../../src/household/lot.ts';
import type { FetchedProduce, LinePurchase } from '../../../src/household/purchase.ts';
import type { Database, Writing } from '../../database/database.ts';
import { fittingRows } from '../household/fitting.ts';

/** Lines of the shopping list that were bought or skipped and not taken back, from a week on, as they were written down. */
export async function purchasesOf(
  db: Database | Writing,
  householdId: HouseholdId,
  since?: WeekKey,
): Promise<readonly LinePurchase[]> {
  const rows = await (db as Database)
    .selectFrom('bought')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('undone_at', 'is', null)
    .$if(since !== undefined, (all) => all.where('week', '>=', since ?? ''))
    .orderBy('recorded_at')
    .orderBy('id')
    .execute();
  return fittingRows('bought', rows).map((row) => ({
    id: row.id,
    week: row.week as WeekKey,
    kind: row.kind,
    what: row.what,
    pack: row.pack_id,
    decision: row.decision,
    quantity: row.quantity,
    cost: row.cost_cents as Cents,
    on: row.bought_on as CalendarDate,
    settles: row.settles === 1,
    ...(row.price_taught_cents === null ? {} : { newPrice: row.price_taught_cents as Cents }),
  }));
}

/** Crops fetched and not wholly used: what first came is used first, and what kept no longer was not used. */
export async function fetchedProduceOf(
  db: Database | Writing,
  householdId: HouseholdId,
  asOf: CalendarDate,
): Promise<readonly FetchedProduce[]> {
  const rows = fittingRows(
    'store_event',
    await (db as Database)
      .selectFrom('store_event')
      .selectAll()
      .where('household_id', '=', householdId)
      .where('store', '=', 'crop')
      .orderBy('seq')
      .execute(),
  );
  const weekBegan = addDays(mondayOf(weekOf(asOf)), -1);
  return [...groupedBy(rows, (row) => row.subject)].flatMap(([crop, events]) => {
    const came = [...groupedBy(events, (row) => row.entry_id)]
      .flatMap(([, ofEntry]) => {
        const [first] = ofEntry;
        const lb = ofEntry.reduce((sum, { quantity }) => sum + quantity, 0);
        return first?.kind === 'bought' && lb > smallestAmount ? [{ ...first, lb, left: lb }] : [];
      })
      .toSorted((one, other) => (one.occurred_on < other.occurred_on ? -1 : 1));
    const used = [...groupedBy(events, (row) => row.entry_id)].flatMap(([, ofEntry]) => {
      const [first] = ofEntry;
      const lb = -ofEntry.reduce((sum, { quantity }) => sum + quantity, 0);
      return first?.kind === 'used' && lb > smallestAmount ? [{ on: first.occurred_on, lb }] : [];
    });
    for (const use of used) {
      let toTake = use.lb;
      for (const one of came) {
        if (one.use_by !== null && one.use_by < use.on) continue;
        const taken = Math.min(one.left, toTake);
        one.left -= taken;
        toTake -= taken;
      }
    }
    return came
      .filter(({ use_by: useBy, occurred_on: on }) => (useBy ?? on) >= asOf || on >= weekBegan)
      .map(
        (one): FetchedProduce => ({
          sourceId: (one.source_id ?? '') as SourceId,
          crop: crop as CropKey,
          on: one.occurred_on as CalendarDate,
          useBy: (one.use_by ?? one.occurred_on) as CalendarDate,
          lb: one.lb,
          lbLeft: Math.max(0, one.left),
        }),
      );
  });
}
