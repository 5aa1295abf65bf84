import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import type { Database } from '../database/database.ts';
import { householdById } from '../queries/household/household.ts';
import { itemsOnShelf } from '../queries/household/items.ts';
import {
  canners,
  daysOff,
  jarStock,
  kitchenHours,
  lidStock,
  places,
  seasonFund,
} from '../queries/household/kitchen.ts';
import { materials, recipes, supplies } from '../queries/household/recipes.ts';
import { ledger } from '../queries/shelf/ledger.ts';
import { lots } from '../queries/shelf/shelf.ts';
import { shelfCounts } from '../queries/shelf/shelf-counts.ts';
import { seasonLateness } from '../queries/year/ground.ts';
import { sources } from '../queries/year/harvest.ts';
import { jarWishes } from '../queries/year/jar-wishes.ts';
import { keptDecisions } from '../queries/year/plans.ts';
import {
  declaredUses,
  handTargets,
  itemGroups,
  occasions,
  seasonMultipliers,
  shopPacks,
} from '../queries/year/targets.ts';
import { preparations } from './preparations.ts';

/** Everything a household has said and done up to a date, read in one transaction, so that all of it is of one version. */
export const householdFacts = (
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
): Promise<HouseholdFacts> =>
  db.transaction().execute(async (trx) => ({
    household: await householdById(trx, householdId),
    items: await itemsOnShelf(trx, householdId),
    lots: await lots(trx, householdId, { asOf, empty: true }),
    events: await ledger(trx, householdId, { to: asOf }),
    counts: await shelfCounts(trx, householdId, asOf),
    declaredUses: await declaredUses(trx, householdId, asOf),
    seasonMultipliers: await seasonMultipliers(trx, householdId),
    occasions: await occasions(trx, householdId),
    handTargets: await handTargets(trx, householdId),
    jarWishes: await jarWishes(trx, householdId),
    groups: await itemGroups(trx, householdId),
    packs: await shopPacks(trx, householdId),
    recipes: await recipes(trx, householdId),
    supplies: await supplies(trx, householdId),
    materials: await materials(trx, householdId),
    sources: await sources(trx, householdId),
    lateness: await seasonLateness(trx, householdId),
    canners: await canners(trx, householdId),
    places: await places(trx, householdId),
    hours: await kitchenHours(trx, householdId),
    daysOff: await daysOff(trx, householdId),
    fund: await seasonFund(trx, householdId),
    jars: await jarStock(trx, householdId),
    lids: await lidStock(trx, householdId),
    kept: await keptDecisions(trx, householdId),
    preparations: await preparations(trx, householdId),
  }));
