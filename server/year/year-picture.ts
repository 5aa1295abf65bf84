import { setImmediate } from 'node:timers/promises';
import { LRUCache } from 'lru-cache';
import type { HouseholdId, ItemId } from '../../shared/ids.ts';
import { whileTheSame } from '../../shared/remembering.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { type CalendarDate, weekOf } from '../../shared/week.ts';
import type { ClockJump } from '../../src/household/clock-jump.ts';
import type { BatchDecision } from '../../src/household/decision.ts';
import { type Item, keptForEmergency } from '../../src/household/item.ts';
import { unitsStanding } from '../../src/household/lot.ts';
import { eatSoonDaysOf, type Notice, type NoticeSettings } from '../../src/notices/notice.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { type NoticeNames, noticePicture } from '../../src/notices/picture-of-year.ts';
import {
  type PlanContent,
  planAtTheStove,
  standingPlan,
  withFundNow,
} from '../../src/planning/answer/standing-plan.ts';
import { type BatchDays, batchDays } from '../../src/planning/days/batch-days.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { itemGaps } from '../../src/planning/year/item-gaps.ts';
import {
  type OutlookAsked,
  outlookAsked,
  outlookOf,
  type PathFrom,
} from '../../src/planning/year/item-outlook.ts';
import type { ItemYear } from '../../src/planning/year/item-year.ts';
import { walkOfItem } from '../../src/planning/year/year-walk.ts';
import { storedWater, type UpkeepLine, upkeepLines } from '../../src/preserving/upkeep.ts';
import { goneBy } from '../../src/shelf/likely-gaps.ts';
import type { ShelfProjection } from '../../src/shelf/shelf-projection.ts';
import { formatDate, formatMoney, formatQuantity, jarWord, unitFor } from '../../views/words/format.ts';
import { type Reading, readingOf } from '../../views/words/reading.ts';
import type { Database } from '../database/database.ts';
import { latestClockJump } from '../queries/household/clock-jumps.ts';
import { upkeepOf } from '../queries/household/upkeep.ts';
import { noticeSettingsOf } from '../queries/notices/notice-settings.ts';
import { newestPlan } from '../queries/year/plans.ts';
import { cropGuessFor } from '../reference/first-year.ts';
import { withEqualParts } from './equal-parts.ts';
import { loadPlanningYear } from './load-year.ts';
import { mostHouseholdsRemembered, rememberedProjection } from './remembered-outlooks.ts';
import { type SessionFacts, sessionFacts } from './stove-facts.ts';
import { whatIsMissing } from './what-is-missing.ts';
import { yearMark } from './year-mark.ts';

const noticeNames = (reading: Reading): NoticeNames => ({
  cropPlural: (crop) => cropGuessFor(crop).plural,
  unitPlural: (unit) => unitFor(2, unit),
  jarWord,
  money: (amount) => formatMoney(amount, reading),
  reader: {
    day: (date) => formatDate(date, reading),
    amount: (amount, unit) => formatQuantity(amount, unit, reading),
  },
});

/** The whole picture of a household on a date. */
export interface YearPicture {
  readonly asOf: CalendarDate;
  readonly loaded: HouseholdYear;
  readonly items: readonly ItemYear[];
  readonly itemYearById: ReadonlyMap<ItemId, ItemYear>;
  readonly plan: StoredPlan | null;
  /** The days before and after every canner load ahead, and of what is begun. */
  readonly batches: readonly BatchDays[];
  /** Canning days begun, and what came of their loads. */
  readonly stove: SessionFacts;
  /** What is done to canners, other devices and stored water, and when it is due. */
  readonly upkeep: readonly UpkeepLine[];
  /** Days before its date from which a jar is to be eaten soon, as the household has it; whether it is told of them or not. */
  readonly eatSoonDays: number;
  /** What needs attention, in the order it should be read. */
  readonly notices: readonly Notice[];
}

interface KeptPicture {
  readonly key: string;
  readonly picture: Promise<YearPicture>;
}

// A picture takes a good part of a second; most pages ask for the same one again, some of them at the same time. It holds
// some megabytes: those of households that nobody has looked at for longest are made anew when somebody does.
const lastPictures = new WeakMap<Database, LRUCache<HouseholdId, KeptPicture>>();

/** The picture of a household's year on a date; made anew only when a fact, the plan or the date has changed. */
export async function yearPicture(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
): Promise<YearPicture> {
  const keyOf = async () => `${asOf} ${await yearMark(db, householdId)}`;
  const key = await keyOf();
  const pictures =
    lastPictures.get(db) ?? new LRUCache<HouseholdId, KeptPicture>({ max: mostHouseholdsRemembered });
  lastPictures.set(db, pictures);
  const last = pictures.get(householdId);
  if (last?.key === key) return last.picture;
  const before = last?.picture.catch(() => undefined);
  const picture = pictureAnew(db, householdId, asOf, reference, before);
  pictures.set(householdId, { key, picture });
  const forget = () => {
    if (pictures.peek(householdId)?.picture === picture) pictures.delete(householdId);
  };
  picture
    .then(async () => {
      // What was written while it was loaded may be in it, or not.
      if (key !== (await keyOf())) forget();
    })
    .catch(forget);
  return picture;
}

async function pictureAnew(
  db: Database,
  householdId: HouseholdId,
  asOf: CalendarDate,
  reference: ReferenceTables,
  last: Promise<YearPicture | undefined> | undefined,
): Promise<YearPicture> {
  const before = await last;
  const [loaded, plan, settings, jump, upkeep, stoveNow] = await Promise.all([
    loadPlanningYear(db, householdId, asOf, reference, before?.loaded),
    newestPlan(db, householdId),
    noticeSettingsOf(db, householdId),
    latestClockJump(db),
    upkeepOf(db, householdId),
    sessionFacts(db, householdId),
  ]);
  const stove = withEqualParts(before?.stove, stoveNow);
  return pictureOf(loaded, {
    stove,
    plan:
      plan === null
        ? null
        : withFundNow(
            {
              ...plan,
              ...standsOf({
                plan: plan.plan,
                paths: plan.paths,
                year: plan.year,
                kept: loaded.facts.kept,
                purchases: loaded.facts.purchases,
              }),
            },
            loaded.year,
          ),
    settings,
    jump,
    upkeep: upkeepLines(
      upkeep,
      loaded.facts.canners,
      storedWater(loaded.facts.household, reference.emergencyAdvice),
    ),
    batches: daysOfBatches({
      plan:
        plan === null
          ? null
          : leftAtTheStove({
              plan: plan.plan,
              paths: plan.paths,
              year: plan.year,
              kept: loaded.facts.kept,
            }),
      recipes: loaded.facts.recipes,
      items: loaded.facts.items,
      canners: loaded.facts.canners,
      hours: loaded.facts.hours,
      household: loaded.facts.household,
      sessions: stove.sessions,
      results: stove.results,
      preparations: loaded.facts.preparations,
      asOf,
      reference,
    }),
  });
}

// What is eaten changes none of them.
const standsOf = whileTheSame(
  'plan',
  ({
    kept,
    purchases,
    ...plan
  }: PlanContent & Pick<HouseholdYear['facts'], 'kept' | 'purchases'>): PlanContent =>
    standingPlan(plan, kept, purchases),
);
const leftAtTheStove = whileTheSame(
  'plan',
  ({ kept, ...plan }: PlanContent & { readonly kept: readonly BatchDecision[] }) =>
    planAtTheStove(plan, kept),
);
const daysOfBatches = whileTheSame('recipes', batchDays);

async function pictureOf(
  loaded: HouseholdYear,
  {
    stove,
    plan,
    settings,
    jump,
    batches,
    upkeep,
  }: {
    readonly stove: SessionFacts;
    readonly plan: StoredPlan | null;
    readonly settings: NoticeSettings;
    readonly jump: ClockJump | null;
    readonly batches: readonly BatchDays[];
    readonly upkeep: readonly UpkeepLine[];
  },
): Promise<YearPicture> {
  const items: ItemYear[] = [];
  for (const item of loaded.facts.items) {
    items.push(...itemYear(loaded, item, plan));
    // Others are served between two items.
    await setImmediate();
  }
  return {
    asOf: loaded.year.asOf,
    loaded,
    items: items.filter(({ item }) => item.retiredOn === null),
    itemYearById: new Map(items.map((year) => [year.item.id, year])),
    plan,
    batches,
    stove,
    upkeep,
    eatSoonDays: eatSoonDaysOf(settings),
    notices: noticesFor(
      noticePicture(loaded, items, {
        plan,
        jump,
        batches,
        upkeep,
        names: noticeNames(readingOf(loaded.facts.household, loaded.year.asOf)),
      }),
      settings,
    ),
  };
}

// One item is asked for twice: as its shelf stands, and under the plan.
const asItStands = whileTheSame('forecast', (asked: OutlookAsked) => outlookOf(asked, rememberedProjection));
const underThePlan = whileTheSame('forecast', (asked: OutlookAsked) =>
  outlookOf(asked, rememberedProjection),
);

const outlook = (
  remembered: typeof asItStands,
  loaded: HouseholdYear,
  item: Item,
  plan: PathFrom | null,
): ShelfProjection | null => {
  const asked = outlookAsked(loaded, item, plan);
  return asked === null ? null : remembered(asked);
};

function itemYear(loaded: HouseholdYear, item: Item, plan: StoredPlan | null): ItemYear[] {
  const use = loaded.useByItem.get(item.id);
  const supply = loaded.supplyByItem.get(item.id);
  if (!use || !supply) return [];
  const lots = loaded.facts.lots.filter((lot) => lot.itemId === item.id && lot.unitsLeft > 0);
  const standing = unitsStanding(item, lots);
  const path = plan?.paths.find((candidate) => candidate.item === item.id) ?? null;
  const withoutPlan = outlook(asItStands, loaded, item, null);
  const planned =
    path === null || plan === null || weekOf(plan.asOf) > weekOf(loaded.year.asOf)
      ? null
      : { path, weeks: plan.year.weeks };
  const projection = planned === null ? withoutPlan : outlook(underThePlan, loaded, item, planned);
  const gaps = item.retiredOn === null ? itemGaps(projection, planned !== null, supply.nextSupplyWeek) : [];
  return [
    {
      item,
      lots,
      unitsOnShelf: standing,
      unitsToEat: Math.max(0, standing - keptForEmergency(item)),
      use,
      forecast: use.forecast,
      target: loaded.targetByItem.get(item.id) ?? null,
      supply,
      missing: whatIsMissing(loaded, { item, supply, forecast: use.forecast }),
      withoutPlan,
      projection,
      gaps,
      runOut: withoutPlan === null ? null : goneBy(withoutPlan.runOut, projection?.weeks ?? [], gaps),
      path,
      walk: walkOfItem(loaded, item.id, plan),
    },
  ];
}
