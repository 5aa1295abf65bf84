import type { CropKey, RecipeId } from '../../shared/ids.ts';
import { type JarKind, mouthOf, sizeOf } from '../../shared/jar.ts';
import { asCents, type Cents } from '../../shared/money.ts';
import { addDays, type CalendarDate, dateInZone, type WeekKey, weekHolding } from '../../shared/week.ts';
import { suspectedHabit } from '../consumption/belief/suspected-habit.ts';
import type { ClockJump } from '../household/clock-jump.ts';
import type { Item } from '../household/item.ts';
import type { BatchDays } from '../planning/days/batch-days.ts';
import { neededFor } from '../planning/days/buy-by.ts';
import { type FetchAsked, fetchDays, freshToBuy } from '../planning/days/fetch-days.ts';
import { gaugeChecksAhead } from '../planning/days/gauge-checks.ts';
import { sessionDays } from '../planning/days/week-sessions.ts';
import type { PlannedPurchase, PlannedSession, PlannedWeek } from '../planning/plan.ts';
import type { StoredPlan } from '../planning/stored-plan.ts';
import type { HouseholdYear } from '../planning/year/household-year.ts';
import type { ItemYear } from '../planning/year/item-year.ts';
import { gaveWayUnits } from '../planning/year/year-walk.ts';
import type { UpkeepLine } from '../preserving/upkeep.ts';
import { dayMark, type NoticeReader } from './marks.ts';
import type {
  NoticeBatch,
  NoticeCanner,
  NoticeFresh,
  NoticeGaveWay,
  NoticeItem,
  NoticeLot,
  NoticePicture,
  NoticeSession,
  NoticeWindow,
  SessionNeed,
  UnitWord,
} from './notice-picture.ts';
import { amountWords, weekOfWords } from './notice-words.ts';

/** Words of the household's crops, units and money that notices use, kept outside of the core. */
export interface NoticeNames {
  readonly cropPlural: (crop: CropKey) => string;
  /** The word of a unit for several of it. */
  readonly unitPlural: (unit: string) => string;
  /** What one and several of a kind of jar are called: `pint`, `pints`. */
  readonly jarWord: (kind: JarKind) => UnitWord;
  /** An amount of the household's money: `$12.50`. */
  readonly money: (amount: Cents) => string;
  /** How days and amounts are written out. */
  readonly reader: NoticeReader;
}

/** What the notice rules look at, from the whole picture. */
export function noticePicture(
  loaded: HouseholdYear,
  items: readonly ItemYear[],
  {
    plan,
    jump = null,
    batches = [],
    upkeep = [],
    names,
  }: {
    readonly plan: StoredPlan | null;
    readonly jump?: ClockJump | null;
    readonly batches?: readonly BatchDays[];
    readonly upkeep?: readonly UpkeepLine[];
    readonly names: NoticeNames;
  },
): NoticePicture {
  const { facts, year } = loaded;
  const onRecord = new Set(facts.events.map(({ itemId }) => itemId));
  return {
    asOf: year.asOf,
    weekStartsOn: facts.household.weekStartsOn,
    reader: names.reader,
    lots: items.flatMap((itemYear) => noticeLots(loaded, itemYear)),
    items: items
      .filter(({ item }) => item.retiredOn === null)
      .map((itemYear) => noticeItem(itemYear, onRecord, names)),
    windows: noticeWindows(loaded, plan, names),
    sessions: plan === null ? [] : noticeSessions(loaded, plan, batches, names),
    fresh: plan === null ? [] : noticeFresh(loaded, plan, names),
    batches: batches.map(noticeBatch),
    onHand: onHandByName(loaded),
    gaveWay: plan === null ? [] : plan.plan.gaveWay.map((wish) => noticeWish(loaded, wish, items, names)),
    canners: noticeCanners(loaded, plan),
    upkeep,
    altitudeFt: facts.household.altitudeFt,
    clockJump:
      jump === null
        ? null
        : {
            jumpId: String(jump.seq),
            wentBackOn: dateInZone(jump.noticedAt, facts.household.timeZone),
            aheadUntil: dateInZone(jump.aheadUntil, facts.household.timeZone),
          },
  };
}

function noticeCanners(loaded: HouseholdYear, plan: StoredPlan | null): NoticeCanner[] {
  const { household, canners, hours } = loaded.facts;
  const kitchen = { canners, hours, weekStartsOn: household.weekStartsOn };
  const ahead = gaugeChecksAhead(kitchen, plan?.plan ?? null, loaded.year.asOf);
  return canners.map(({ id, name, gauge, gaugeCheckedOn }) => {
    const neededFor = ahead.find(({ canner }) => canner.id === id)?.neededFor ?? null;
    return {
      cannerId: id,
      name,
      gauge,
      gaugeCheckedOn,
      checkNeededFor: neededFor && {
        on: neededFor.on,
        makes: neededFor.recipes.map((recipe) => recipeName(loaded, recipe)),
      },
    };
  });
}

const unitWords: Readonly<Record<Item['unit'], UnitWord>> = {
  jar: { one: 'jar', many: 'jars' },
  bag: { one: 'bag', many: 'bags' },
  lb: { one: 'lb', many: 'lb' },
  bin: { one: 'bin', many: 'bins' },
  each: { one: 'piece', many: 'pieces' },
};

/** An amount of an item is in its own jar, whatever jars stand there; a lot is as many jars as it is. */
const ownUnit = ({ unit, usualJar }: Item, { jarWord }: NoticeNames): UnitWord =>
  unit === 'jar' && usualJar !== null ? jarWord(usualJar) : unitWords[unit];

const came = { 'put-up': 'put up', bought: 'bought', received: 'received' } as const;

const noticeLots = ({ facts }: HouseholdYear, { item, lots }: ItemYear): NoticeLot[] =>
  lots.map((lot) => ({
    lotId: lot.id,
    itemName: item.name,
    left: lot.unitsLeft,
    unit: unitWords[item.unit],
    came: came[lot.origin],
    madeOn: lot.madeOn,
    readyFrom: lot.readyFrom,
    bestQualityUntil: lot.bestQualityUntil,
    ...(item.keeping === 'refrigerated' ? { neverPastDays: true as const } : {}),
    keptUntil: item.keeping === 'refrigerated' ? null : lot.keptUntil,
    place: lot.place?.name ?? null,
    setAside:
      lot.setAside === null
        ? null
        : { reason: lot.setAside.reason, on: dateInZone(lot.setAside.at, facts.household.timeZone) },
  }));

const noticeItem = (
  { item, unitsToEat, forecast, projection, gaps, supply, missing }: ItemYear,
  onRecord: ReadonlySet<Item['id']>,
  names: NoticeNames,
): NoticeItem => ({
  itemId: item.id,
  itemName: item.name,
  unit: ownUnit(item, names),
  isOnRecord: onRecord.has(item.id),
  onShelf: unitsToEat,
  usePerWeek: forecast?.perWeek ?? 0,
  runsOutIn: projection?.weeks[gaps[0]?.from ?? projection.weeks.length]?.week ?? null,
  nextSupplyWeek: supply.nextSupplyWeek,
  nextSupplyBy: supply.by,
  missing: missing?.words ?? null,
  suspectedHabit: suspectedHabit(forecast?.belief.suspectedChange),
  suspectedOccasion: forecast?.suspectedOccasion ?? null,
  suspectedSeason: forecast?.suspectedSeason ?? null,
});

function noticeWindows(
  loaded: HouseholdYear,
  plan: StoredPlan | null,
  { cropPlural }: NoticeNames,
): NoticeWindow[] {
  const wanted = cropsWantedByWeek(loaded, plan);
  const startsOn = loaded.facts.household.weekStartsOn;
  return loaded.facts.sources.flatMap((source) =>
    (loaded.seasonsBySource.get(source.id) ?? []).map(
      ({ season, shiftDays }): NoticeWindow => ({
        sourceId: source.id,
        sourceName: source.name,
        cropName: cropPlural(source.crop),
        year: season.year,
        beginsOn: season.beginsOn,
        endsOn: addDays(season.endsOn, 1),
        shiftDays,
        wantedFor: [
          ...new Set(
            wanted
              .filter(
                ({ crop, week }) =>
                  crop === source.crop &&
                  week >= weekHolding(season.beginsOn, startsOn) &&
                  week <= weekHolding(season.endsOn, startsOn),
              )
              .map(({ recipeName }) => recipeName),
          ),
        ].sort(),
      }),
    ),
  );
}

function cropsWantedByWeek(loaded: HouseholdYear, plan: StoredPlan | null) {
  const thisWeek = weekHolding(loaded.year.asOf, loaded.facts.household.weekStartsOn);
  return (plan?.plan.weeks ?? [])
    .filter(({ week }) => week >= thisWeek)
    .flatMap(({ week, sessions }) =>
      sessions.flatMap((session) => {
        const recipe = loaded.facts.recipes.find(({ id }) => id === session.recipe);
        return (recipe?.produce ?? []).map(({ crop }) => ({ crop, week, recipeName: recipe?.name ?? '' }));
      }),
    );
}

function noticeSessions(
  loaded: HouseholdYear,
  { plan, year }: StoredPlan,
  batches: readonly BatchDays[],
  names: NoticeNames,
): NoticeSession[] {
  const { hours, household } = loaded.facts;
  const thisWeek = weekHolding(loaded.year.asOf, loaded.facts.household.weekStartsOn);
  const asked = { plan, year, hours, weekStartsOn: household.weekStartsOn };
  const done = new Set(
    loaded.facts.kept
      .filter(({ decision }) => decision === 'done')
      .map(({ recipeId, week }) => `${recipeId} ${week}`),
  );
  return plan.weeks
    .filter(({ week, sessions }) => week >= thisWeek && sessions.length > 0)
    .flatMap((planned): NoticeSession[] => {
      const { week, sessions } = planned;
      const days = sessionDays(planned, [], hours, household.weekStartsOn)
        .map(({ on }) => on)
        .filter((on) => on >= loaded.year.asOf);
      const needed = neededFor(days, batches, hours);
      const left = sessions.filter(({ recipe }) => !done.has(`${recipe} ${week}`));
      const skipped = skippedNames(loaded, week);
      const needs = left
        .flatMap((session) => needsOf(loaded, session, listedFor(planned, loaded, asked), names))
        .filter(({ name }) => !skipped.has(name));
      if (needed === null || needs.length === 0) return [];
      return [
        {
          week,
          ...needed,
          lastDay: days.at(-1) ?? needed.on,
          isBegunBefore: !days.includes(needed.on),
          makes: left.map(({ recipe }) => recipeName(loaded, recipe)),
          needs,
        },
      ];
    });
}

/** What spoils and is still on the shopping list, by the days on which it is bought. */
const noticeFresh = (
  { facts }: HouseholdYear,
  { plan, year }: StoredPlan,
  { unitPlural }: NoticeNames,
): NoticeFresh[] =>
  freshToBuy({ plan, year, hours: facts.hours, weekStartsOn: facts.household.weekStartsOn }).flatMap(
    ({ purchase, week, fetch: { quantity, notBefore, by, forDay }, keepsDays, makes }): NoticeFresh[] => {
      const supply = facts.supplies.find(({ id }) => id === purchase.what);
      if (supply === undefined || notBefore === null || forDay === null) return [];
      const names = makes.map((id) => facts.recipes.find((recipe) => recipe.id === id)?.name ?? id);
      const unit = { one: supply.unit, many: unitPlural(supply.unit) };
      const need = { name: supply.name.toLowerCase(), quantity, unit };
      return [{ week, need, notBefore, by, forDay, keepsDays, makes: names }];
    },
  );

/** Needs that somebody said are not to be bought for the sessions up to a week. */
const skippedNames = ({ facts }: HouseholdYear, until: WeekKey): ReadonlySet<string> =>
  new Set(
    facts.purchases
      .filter(({ decision, week }) => decision === 'skipped' && week <= until)
      .map(({ kind, what }) =>
        kind === 'jars'
          ? jarName(what as JarKind)
          : kind === 'lids'
            ? lidName(what)
            : (facts.supplies.find(({ id }) => id === what)?.name.toLowerCase() ?? what),
      ),
  );

const recipeName = ({ facts }: Pick<HouseholdYear, 'facts'>, id: RecipeId): string =>
  facts.recipes.find((recipe) => recipe.id === id)?.name ?? id;

const jarName = (kind: JarKind): string => `${sizeOf(kind)} jars, ${mouthOf(kind)} mouth`;
const lidName = (mouth: string): string => `new ${mouth} lids`;

const noticeBatch = ({
  key,
  recipe,
  plannedOn,
  begunId,
  calendar: { state, before, load, fill },
}: BatchDays): NoticeBatch => ({
  batchKey: key,
  name: recipe.name,
  isBegun: begunId !== null,
  state,
  plannedOn,
  loadOn: load?.on ?? null,
  fillFrom: fill?.from ?? null,
  fillUntil: fill?.until ?? null,
  days: before.map(({ stage, on, state: done }) => ({
    position: stage.position,
    what: stage.what,
    on,
    state: done,
    waits: stage.leastHours > 0,
  })),
});

/** Lines of the shopping list that are for the canning of one week, and by when those of a week before are fetched; null where none is. */
type ListedFor = (
  kind: PlannedPurchase['kind'],
  what: string,
) => { readonly lines: readonly PlannedPurchase[]; readonly by: CalendarDate | null };

/** A week's own lines, and those of the weeks before it, from this week on, of what no canning between takes. */
const listedFor =
  ({ week }: PlannedWeek, { facts, year: { asOf } }: HouseholdYear, asked: FetchAsked): ListedFor =>
  (kind, what) => {
    const takes = ({ recipe, jars }: PlannedSession): boolean =>
      jars.some((one) => (kind === 'jars' ? one.kind : mouthOf(one.kind)) === what) ||
      (kind === 'supply' &&
        facts.recipes.some(
          ({ id, supplies }) => id === recipe && supplies.some(({ supplyId }) => supplyId === what),
        ));
    const thisWeek = weekHolding(asOf, asked.weekStartsOn);
    const upTo = asked.plan.weeks.filter((one) => one.week >= thisWeek && one.week <= week);
    const taken = upTo.findLastIndex((one) => one.week < week && one.sessions.some(takes));
    const found = upTo.slice(taken + 1).flatMap((one) =>
      one.purchases
        .filter((line) => line.kind === kind && line.what === what)
        .filter(() => one.week === week || !isSettled(facts, { kind, what, week: one.week }))
        .map((line) => ({ line, by: one.week === week ? null : fetchDays(line, one, asked)[0].by })),
    );
    const [by] = found.flatMap((one) => (one.by !== null && one.by >= asOf ? [one.by] : [])).toSorted();
    return { lines: found.map(({ line }) => line), by: by ?? null };
  };

/** Said to be bought, or not to be. */
const isSettled = (
  { purchases }: HouseholdYear['facts'],
  line: { readonly kind: PlannedPurchase['kind']; readonly what: string; readonly week: WeekKey },
): boolean =>
  purchases.some(({ kind, what, week }) => kind === line.kind && what === line.what && week === line.week);

function needsOf(
  { facts, year }: HouseholdYear,
  { recipe, batches, jars }: PlannedSession,
  listed: ListedFor,
  { unitPlural }: NoticeNames,
): SessionNeed[] {
  const onList = (kind: PlannedPurchase['kind'], what: string): Pick<SessionNeed, 'onList'> => {
    const { lines, by } = listed(kind, what);
    const packs = lines.some((one) => one.packs !== null)
      ? lines.reduce((sum, one) => sum + (one.packs?.count ?? 0), 0)
      : null;
    return lines.length === 0
      ? {}
      : {
          onList: {
            quantity: lines.reduce((sum, { quantity }) => sum + quantity, 0),
            packs,
            ...(by === null ? {} : { by }),
          },
        };
  };
  const packOf = (size: number | undefined): Pick<SessionNeed, 'pack'> =>
    size === undefined || size <= 0 ? {} : { pack: size };
  const supplied = facts.recipes.find(({ id }) => id === recipe)?.supplies ?? [];
  const takenBy = [recipeName({ facts }, recipe)];
  const needs = [
    ...jars.flatMap(({ kind, count }): SessionNeed[] => [
      {
        name: jarName(kind),
        quantity: count,
        unit: null,
        ...packOf(facts.jars.find((one) => one.kind === kind)?.pack),
        ...onList('jars', kind),
      },
      {
        name: lidName(mouthOf(kind)),
        quantity: count,
        unit: null,
        ...packOf(facts.lids.find(({ mouth }) => mouth === mouthOf(kind))?.box),
        ...onList('lids', mouthOf(kind)),
      },
    ]),
    ...supplied.flatMap(({ supplyId, quantity }): SessionNeed[] => {
      const supply = facts.supplies.find(({ id }) => id === supplyId);
      const isFresh = year.supplies.find(({ id }) => id === supplyId)?.freshDays !== undefined;
      return supply && !isFresh
        ? [
            {
              name: supply.name.toLowerCase(),
              quantity: quantity * batches,
              unit: { one: supply.unit, many: unitPlural(supply.unit) },
              ...packOf(supply.packQuantity),
              ...onList('supply', supply.id),
            },
          ]
        : [];
    }),
  ];
  return needs.map((need) => ({ ...need, takenBy }));
}

const onHandByName = ({ facts }: HouseholdYear): Readonly<Record<string, number>> => ({
  ...Object.fromEntries(facts.jars.map(({ kind, empty }) => [jarName(kind), empty])),
  ...Object.fromEntries(facts.lids.map(({ mouth, onHand }) => [lidName(mouth), onHand])),
  ...Object.fromEntries(facts.supplies.map(({ name, onHand }) => [name.toLowerCase(), onHand])),
});

/** Units in which a plan counts what gave way, where it is of no item. */
const wishUnits: Readonly<Record<string, UnitWord>> = {
  batches: { one: 'batch', many: 'batches' },
  kinds: { one: 'kind', many: 'kinds' },
  units: { one: 'unit', many: 'units' },
  lb: { one: 'lb', many: 'lb' },
};

/** `Peach jam in the week of Feb 8, 2027`; `Dill pickles begun on Jun 3, 2026`. */
function batchesName(
  { recipes, household }: HouseholdYear['facts'],
  batches: StoredPlan['plan']['gaveWay'][number]['batches'],
): string | undefined {
  if (batches === undefined) return undefined;
  const name = recipes.find(({ id }) => id === batches.recipe)?.name ?? batches.recipe;
  if (batches.begunOn !== null) return `${name} begun on ${dayMark(batches.begunOn)}`;
  return batches.pinnedIn === null
    ? name
    : `${name} in ${weekOfWords(batches.pinnedIn, household.weekStartsOn)}`;
}

function noticeWish(
  { facts }: HouseholdYear,
  wish: StoredPlan['plan']['gaveWay'][number],
  items: readonly ItemYear[],
  names: NoticeNames,
): NoticeGaveWay {
  const itemYear = items.find((one) => one.item.id === wish.what);
  const walk = itemYear?.walk ?? null;
  const isBare = wish.rung === 'use' && itemYear !== undefined && itemYear.gaps.length > 0;
  const item = facts.items.find(({ id }) => id === wish.what);
  const group = facts.groups.find(({ id }) => id === wish.what);
  const source = facts.sources.find(({ id }) => id === wish.what);
  const isMoney = wish.unit === 'cents';
  const amount = walk === null ? wish.amount : gaveWayUnits(walk, wish);
  const unit = item ? ownUnit(item, names) : (wishUnits[wish.unit] ?? { one: wish.unit, many: wish.unit });
  const isWeek = /^\d{4}-W\d{2}$/.test(wish.what);
  return {
    rung: wish.rung,
    key: wish.what,
    ...(item === undefined ? {} : { isPreserve: item.kind === 'preserve' }),
    name:
      item?.name ??
      group?.name ??
      source?.name ??
      batchesName(facts, wish.batches) ??
      (isWeek ? weekOfWords(wish.what as WeekKey, facts.household.weekStartsOn) : wish.what),
    amount,
    ...(isBare ? { isBare } : {}),
    ...(isMoney ? { isMoney } : {}),
    words: isMoney ? names.money(asCents(amount)) : amountWords(amount, unit),
  };
}
