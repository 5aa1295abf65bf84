import type { HouseholdId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { mondayOf } from '../../shared/week.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { Database } from '../database/database.ts';
import { itemsOnShelf } from '../queries/household/items.ts';
import { ledgerOf } from '../queries/shelf/ledger.ts';
import { lotsOf } from '../queries/shelf/shelf.ts';
import { type PlannedNames, purchaseWords } from '../words/planned-words.ts';
import { csvText } from './csv-text.ts';

/** What stands on the shelf, batch by batch, first to be eaten first. */
export async function shelfCsv(db: Database, householdId: HouseholdId): Promise<string> {
  const [items, lots] = await Promise.all([itemsOnShelf(db, householdId), lotsOf(db, householdId)]);
  const itemById = new Map(items.map((item) => [item.id, item]));
  return csvText(
    [
      'item',
      'kept',
      'batch',
      'jar',
      'left',
      'unit',
      'made',
      'ready from',
      'best until',
      'place',
      'came',
      'set aside',
    ],
    lots.map((lot) => {
      const item = itemById.get(lot.itemId);
      return [
        item?.name ?? lot.itemId,
        item?.keeping ?? null,
        lot.batchCode,
        lot.jarKind,
        lot.unitsLeft,
        item?.unit ?? null,
        lot.madeOn,
        lot.readyFrom,
        lot.bestQualityUntil,
        lot.place?.name ?? null,
        lot.origin,
        lot.setAside?.reason ?? null,
      ];
    }),
  );
}

/** Every event of the ledger in the order it was recorded; units with their sign. */
export async function ledgerCsv(db: Database, householdId: HouseholdId): Promise<string> {
  const events = await ledgerOf(db, householdId);
  return csvText(
    [
      'number',
      'day',
      'recorded',
      'item',
      'batch',
      'jar',
      'what',
      'units',
      'counts as eaten',
      'reason',
      'takes back',
      'who took it',
    ],
    events.map((event) => [
      event.seq,
      event.occurredOn,
      new Date(event.recordedAt).toISOString(),
      event.itemName,
      event.batchCode,
      event.jarKind,
      event.kind,
      event.units,
      event.trainsUse ? 'yes' : 'no',
      event.reason,
      event.reversesSeq,
      event.takenBy,
    ]),
  );
}

/** What the plan makes, week by week. */
export function planCsv(plan: StoredPlan | null, names: PlannedNames): string {
  return csvText(
    ['week', 'from', 'recipe', 'batches', 'units', 'jars', 'jar', 'canner', 'loads', 'hands-on minutes'],
    (plan?.plan.weeks ?? []).flatMap(({ week, sessions }) =>
      sessions.map((session) => [
        week,
        mondayOf(week),
        names.recipes.find(({ id }) => id === session.recipe)?.name ?? session.recipe,
        session.batches,
        session.units,
        session.jars.reduce((sum, { count }) => sum + count, 0),
        session.jars.map(({ kind }) => kind).join(' '),
        names.canners.find(({ id }) => id === session.canner)?.name ?? session.canner,
        session.loads,
        session.handsOnMinutes,
      ]),
    ),
  );
}

/** What the plan buys, week by week; what it costs in the household's own money. */
export function buyingCsv(plan: StoredPlan | null, names: PlannedNames, currency: string): string {
  return csvText(
    ['week', 'from', 'kind', 'what', 'quantity', 'unit', 'packs', 'cost', 'currency'],
    (plan?.plan.weeks ?? []).flatMap(({ week, purchases }) =>
      purchases.map((purchase) => [
        week,
        mondayOf(week),
        purchase.kind,
        purchaseWords(names, purchase).what,
        purchase.quantity,
        purchase.unit,
        purchase.packs?.count ?? null,
        asCents(purchase.cost) / 100,
        currency,
      ]),
    ),
  );
}
