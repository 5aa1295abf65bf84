import { keepPlan } from '../../server/jobs/keep-plan.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { planYear } from '../../server/solver/plan-year.ts';
import { planHousehold } from '../../server/year/plan-household.ts';
import { curedPickles, greenBeans, oats, plumJam, quinceYard, shelve, today } from './quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from './quince-yard-pages.ts';

const reference = loadReferenceTables();

/** Quince Yard says what it eats, has a little of everything on the shelf, kitchen time on Saturdays and a season fund. */
export async function settledQuinceYard(file = ':memory:'): Promise<QuinceYardPages> {
  const pages = await quinceYardPages(file);
  const { db } = pages;
  const own = { household_id: quinceYard };
  await db
    .insertInto('declared_use')
    .values(
      [
        { item_id: plumJam, amount: 0.5 },
        { item_id: greenBeans, amount: 0.4 },
        { item_id: oats, amount: 1 },
      ].map((use) => ({
        ...own,
        ...use,
        since_on: '2026-08-10',
        per: 'week' as const,
        counted_in: 'units' as const,
        recorded_at: 0,
      })),
    )
    .execute();
  await db
    .insertInto('shop_pack')
    .values({ ...own, item_id: oats, id: 'two-pounds', units: 2, price_cents: 349 })
    .execute();
  await db.insertInto('kitchen_time').values(own).execute();
  await db
    .insertInto('season_fund')
    .values({ ...own, balance_cents: 40_000, balance_on: today, weekly_cents: 1_500 })
    .execute();
  await db
    .insertInto('lid_price')
    .values({ ...own, mouth: 'regular', box: 12, box_price_cents: 399 })
    .execute();
  await shelve(db, {
    id: 'august-jam',
    itemId: plumJam,
    units: 2,
    madeOn: '2026-08-14',
    bestQualityUntil: '2026-08-30',
  });
  await shelve(db, {
    id: 'beans-2026',
    itemId: greenBeans,
    units: 6,
    madeOn: '2026-07-11',
    bestQualityUntil: '2027-07-11',
    jarKind: 'pint/regular',
  });
  await shelve(db, {
    id: 'pickles-2026',
    itemId: curedPickles,
    units: 3,
    madeOn: '2026-07-20',
    readyFrom: '2026-08-24',
    bestQualityUntil: '2027-07-20',
    jarKind: 'quart/wide',
  });
  return pages;
}

/** The same with its year planned, good enough to look at. */
export async function plannedQuinceYard(): Promise<QuinceYardPages> {
  const pages = await settledQuinceYard();
  await planAgain(pages);
  return pages;
}

/** Makes a plan from the facts as they stand and keeps it. */
export async function planAgain({ db }: Pick<QuinceYardPages, 'db'>): Promise<void> {
  plansMade += 1;
  const { loaded, answer } = await planHousehold(db, quinceYard, today, reference, planYear, { gap: 0.3 });
  await keepPlan(db, quinceYard, {
    year: loaded.year,
    factsVersion: loaded.facts.version,
    answer,
    at: noon + plansMade,
  });
}

/** Noon of 2026-08-17 where Quince Yard lies; every plan is made a moment after the one before. */
const noon = Date.UTC(2026, 7, 17, 18);
let plansMade = 0;
