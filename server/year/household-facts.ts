import type { HouseholdId } from '../../shared/ids.ts';
import { addDays, type CalendarDate, weekOf } from '../../shared/week.ts';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import type { Database } from '../database/database.ts';
import { engineOf } from '../database/engine-of.ts';
import { householdById } from '../queries/household/household.ts';
import { itemsOnShelf } from '../queries/household/items.ts';
import {
  cannersOf,
  daysOffOf,
  jarStockOf,
  kitchenHoursOf,
  lidStockOf,
  placesOf,
  seasonFundOf,
} from '../queries/household/kitchen.ts';
import { materialsOf, recipesOf, suppliesOf } from '../queries/household/recipes.ts';
import { type BookSoFar, ledgerReadOn } from '../queries/shelf/ledger.ts';
import { lotsOf } from '../queries/shelf/shelf.ts';
import { shelfCountsOf } from '../queries/shelf/shelf-counts.ts';
import { fetchedProduceOf, purchasesOf } from '../queries/year/buying.ts';
import { seasonLateness } from '../queries/year/ground.ts';
import { sourcesOf } from '../queries/year/harvest.ts';
import { jarWishesOf } from '../queries/year/jar-wishes.ts';
import { ordinaryUseOf } from '../queries/year/ordinary-use.ts';
import { decisionsOf } from '../queries/year/plans.ts';
import {
  declaredUsesOf,
  handTargetsOf,
  itemGroupsOf,
  occasionsOf,
  plannedPacks,
  seasonMultipliersOf,
  shopPacksOf,
} from '../queries/year/targets.ts';
import { preparationsOf } from './preparations.ts';

/**
 * Everything a household has said and done up to a date, read in one transaction, so that all of it is of one version. `before` is what its
 * book said up to the same date when it was read last.
 */
export const householdFacts = (
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  before?: BookSoFar,
): Promise<HouseholdFacts> =>
  engineOf(db).snapshot(db, async (trx) => {
    const { factsVersion: version, ...household } = await householdById(trx, householdId);
    const lots = await lotsOf(trx, householdId, { asOf, empty: true });
    const storePacks = await shopPacksOf(trx, householdId);
    return {
      version,
      household,
      items: await itemsOnShelf(trx, householdId),
      lots,
      events: await ledgerReadOn(trx, householdId, asOf, { version, lots, before }),
      counts: await shelfCountsOf(trx, householdId, asOf),
      declaredUses: await declaredUsesOf(trx, householdId, asOf),
      seasonMultipliers: await seasonMultipliersOf(trx, householdId),
      occasions: await occasionsOf(trx, householdId),
      ordinaryUse: await ordinaryUseOf(trx, householdId),
      handTargets: await handTargetsOf(trx, householdId),
      jarWishes: await jarWishesOf(trx, householdId),
      groups: await itemGroupsOf(trx, householdId),
      packs: plannedPacks(storePacks),
      storePacks,
      recipes: await recipesOf(trx, householdId),
      supplies: await suppliesOf(trx, householdId),
      materials: await materialsOf(trx, householdId),
      sources: await sourcesOf(trx, householdId),
      lateness: await seasonLateness(trx, householdId),
      canners: await cannersOf(trx, householdId),
      places: await placesOf(trx, householdId),
      hours: await kitchenHoursOf(trx, householdId),
      daysOff: await daysOffOf(trx, householdId),
      fund: await seasonFundOf(trx, householdId),
      jars: await jarStockOf(trx, householdId),
      lids: await lidStockOf(trx, householdId),
      kept: await decisionsOf(trx, householdId),
      purchases: await purchasesOf(trx, householdId, weekOf(addDays(asOf, -7))),
      fetched: await fetchedProduceOf(trx, householdId, asOf),
      preparations: await preparationsOf(trx, householdId),
    };
  });
