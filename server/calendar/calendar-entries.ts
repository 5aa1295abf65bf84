import { compare } from '../../shared/compare.ts';
import { counted } from '../../shared/counting.ts';
import { groupedBy } from '../../shared/grouped-by.ts';
import { asCents } from '../../shared/money.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, type WeekKey, weekHolding } from '../../shared/week.ts';
import type { CanningSession } from '../../src/household/session.ts';
import { dayLines } from '../../src/planning/days/day-lines.ts';
import { type Fetch, fetchDays } from '../../src/planning/days/fetch-days.ts';
import { checkDay, gaugeChecksAhead } from '../../src/planning/days/gauge-checks.ts';
import { whoIsThere } from '../../src/planning/days/session-dates.ts';
import { type SessionDay, sessionDays } from '../../src/planning/days/week-sessions.ts';
import type { PlannedPurchase, PlannedWeek } from '../../src/planning/plan.ts';
import { headlineOf } from '../../src/preserving/foods/headline.ts';
import { formatDate, formatMoney, formatQuantity } from '../../views/words/format.ts';
import { insideSentence, listed } from '../../views/words/sentences.ts';
import type { CalendarKind } from '../queries/notices/calendar-feed.ts';
import { lineWords } from '../words/batch-days.ts';
import { fetchWords, partOf } from '../words/buying/fetch-words.ts';
import { taskName } from '../words/canning/upkeep-tasks.ts';
import { type PlannedNames, purchaseWords } from '../words/planned-words.ts';
import { amountOf } from '../words/shelf-units.ts';
import type { YearPicture } from '../year/year-picture.ts';

/** Whole days of a calendar, floating: Saturday is Saturday wherever the phone is. */
export interface CalendarEntry {
  readonly kind: CalendarKind | 'before and after';
  /** The same for the same matter, however often the plan is made anew. */
  readonly uid: string;
  readonly title: string;
  readonly from: CalendarDate;
  /** The day after the last. */
  readonly until: CalendarDate;
  readonly words: string;
  /** The page about it. */
  readonly path: string;
}

/** Canning days already behind stay in the calendar for this long. */
const pastDaysShown = 60;

/** Everything of a household's year that has a day, in the order of the days. */
export function calendarEntries(
  picture: YearPicture,
  begun: readonly CanningSession[],
  names: PlannedNames,
  reference: ReferenceTables,
): readonly CalendarEntry[] {
  const weeks =
    picture.plan?.plan.weeks.filter(
      ({ week }) => week >= weekHolding(picture.asOf, names.reading.weekStartsOn),
    ) ?? [];
  const planned = new Map(weeks.map((week) => [week.week, week]));
  const recent = begun.filter(({ on }) => on >= addDays(picture.asOf, -pastDaysShown));
  const keys = [
    ...new Set([...planned.keys(), ...recent.map(({ on }) => weekHolding(on, names.reading.weekStartsOn))]),
  ];
  const ofWeeks = keys.flatMap((week) => {
    const own = planned.get(week) ?? null;
    const days = sessionDays(
      own,
      recent.filter(({ on }) => weekHolding(on, names.reading.weekStartsOn) === week),
      picture.loaded.facts.hours,
      names.reading.weekStartsOn,
    );
    return [
      ...days.map((day, place) => canningEntry(picture, week, day, place, reference)),
      ...(own === null ? [] : shoppingEntries(picture, own, names)),
    ];
  });
  return [
    ...ofWeeks,
    ...dayEntries(picture, names, reference),
    ...gaugeEntries(picture, names),
    ...upkeepEntries(picture, names),
    ...bestQualityEntries(picture, names),
    ...harvestEntries(picture, names),
  ].sort((one, other) => compare(one.from, other.from) || compare(one.uid, other.uid));
}

const uidOf = ({ loaded }: YearPicture, ...words: readonly (string | number)[]): string =>
  `${words.join('-').toLowerCase()}.${loaded.facts.household.id}@shelfward`;

function canningEntry(
  picture: YearPicture,
  week: WeekKey,
  day: SessionDay,
  place: number,
  reference: ReferenceTables,
): CalendarEntry {
  const { recipes, hours } = picture.loaded.facts;
  const who = day.session === null ? whoIsThere(hours, day.on) : (day.session.setting.who ?? []);
  const work = day.work.map(({ recipeId, batches }) => {
    const recipe = recipes.find(({ id }) => id === recipeId);
    const name = recipe?.name ?? recipeId.replaceAll('-', ' ');
    return { name, headline: recipe ? headlineOf(recipe, recipe, reference) : name, batches };
  });
  return {
    kind: 'canning',
    uid: uidOf(picture, 'canning', week, place + 1),
    title: `Can: ${listed(work.map(({ name }) => name))}`,
    from: day.on,
    until: addDays(day.on, 1),
    words: [
      ...work.map(({ headline, batches }) => `${headline}: ${counted(batches, 'batch')}`),
      ...(who.length === 0 ? [] : [`Who is there: ${listed(who)}`]),
    ].join('\n'),
    path: '/',
  };
}

/** The days before and after the canner: a stage, the seals, the day from which cured jars may be eaten. */
const dayEntries = (
  picture: YearPicture,
  { reading }: PlannedNames,
  reference: ReferenceTables,
): readonly CalendarEntry[] =>
  dayLines(picture.batches).flatMap((line): CalendarEntry[] => {
    if (line.kind === 'load') return [];
    const { what, when, more } = lineWords(line, reference, reading);
    return [
      {
        kind: 'before and after',
        uid: uidOf(picture, 'day', line.key),
        title: what,
        from: line.on,
        until: addDays(line.on, 1),
        words: [...(when === '' ? [] : [when]), ...more].join('\n'),
        path: line.kind === 'stage' ? '/stages' : '/canning-day',
      },
    ];
  });

/** The yearly check of a dial gauge, in good time before the canning day that needs it. */
function gaugeEntries(picture: YearPicture, { reading }: PlannedNames): readonly CalendarEntry[] {
  const { household, canners, hours, recipes } = picture.loaded.facts;
  const kitchen = { canners, hours, weekStartsOn: household.weekStartsOn };
  return gaugeChecksAhead(kitchen, picture.plan?.plan ?? null, picture.asOf).flatMap((check) => {
    const on = checkDay(check, picture.asOf);
    if (on < picture.asOf) return [];
    const { canner, neededFor, countsUntil } = check;
    const makes = (neededFor?.recipes ?? []).map((id) => recipes.find((one) => one.id === id)?.name ?? id);
    return [
      {
        kind: 'before and after',
        uid: uidOf(picture, 'gauge-check', canner.id, countsUntil),
        title: `Have the dial gauge of ${canner.name} checked`,
        from: on,
        until: addDays(on, 1),
        words:
          neededFor === null
            ? `The last check counts until ${formatDate(countsUntil, reading)}.`
            : `Needed before ${formatDate(neededFor.on, reading)}: ${listed(makes)}. Until the check is recorded, that canning day gives no time.`,
        path: '/kitchen#canners',
      },
    ];
  });
}

/** Upkeep on the day it is due; a check of a gauge has a day of its own. */
const upkeepEntries = (picture: YearPicture, { reading }: PlannedNames): readonly CalendarEntry[] =>
  picture.upkeep.flatMap((line) =>
    line.kind === 'gauge' || line.dueOn === null || line.dueOn < picture.asOf
      ? []
      : [
          {
            kind: 'before and after',
            uid: uidOf(picture, 'upkeep', line.key, line.dueOn),
            title: `${line.device}: ${insideSentence(taskName(line))}`,
            from: line.dueOn,
            until: addDays(line.dueOn, 1),
            words: line.last === null ? '' : `Last done ${formatDate(line.last, reading)}.`,
            path: '/upkeep',
          },
        ],
  );

/** What is fetched by which day: for canning by the day its batches allow, the rest by the end of the person's week. */
function shoppingEntries(picture: YearPicture, week: PlannedWeek, names: PlannedNames): CalendarEntry[] {
  if (picture.plan === null) return [];
  const asked = {
    plan: picture.plan.plan,
    year: picture.plan.year,
    hours: picture.loaded.facts.hours,
    weekStartsOn: names.reading.weekStartsOn,
  };
  const parts = week.purchases.flatMap((purchase) =>
    fetchDays(purchase, week, asked).map((fetch, at, { length }) => ({
      key:
        purchase.kind === 'item'
          ? 'pantry'
          : fetch.notBefore !== null && fetch.forDay !== null
            ? 'fresh'
            : 'canning',
      fetch,
      purchase:
        length === 1
          ? purchase
          : { ...partOf(purchase, fetch.quantity), cost: at === 0 ? purchase.cost : asCents(0) },
    })),
  );
  const trips = [
    ...groupedBy(parts, ({ key, fetch }) => `${key === 'pantry' ? key : 'canning'} ${fetch.by}`),
  ];
  let canning = 0;
  return trips
    .toSorted(([, [one]], [, [other]]) => compare(one?.fetch.by ?? '', other?.fetch.by ?? ''))
    .flatMap(([, due]) => {
      const [first] = due;
      if (first === undefined) return [];
      const isPantry = first.key === 'pantry';
      if (!isPantry) canning += 1;
      const key = isPantry ? 'pantry' : canning === 1 ? 'canning' : `canning-${canning}`;
      return [tripEntry(picture, key, first.fetch.by, week, due, names)];
    });
}

function tripEntry(
  picture: YearPicture,
  key: string,
  on: CalendarDate,
  { week }: PlannedWeek,
  due: readonly { readonly purchase: PlannedPurchase; readonly fetch: Fetch }[],
  names: PlannedNames,
): CalendarEntry {
  const spend = due.reduce((sum, { purchase: { cost } }) => sum + cost, 0) as PlannedPurchase['cost'];
  return {
    kind: 'shopping',
    uid: uidOf(picture, 'shopping', key, week),
    title: key === 'pantry' ? 'Buy for the pantry' : 'Pick and buy for canning',
    from: on,
    until: addDays(on, 1),
    words: [
      ...due.map(({ purchase, fetch }) => {
        const { what, quantity } = purchaseWords(names, purchase);
        const days = fetchWords([fetch], () => quantity, null, names.reading);
        return `${what}: ${quantity}${days === null ? '' : `, ${days}`}`;
      }),
      `${formatMoney(spend, names.reading)} in all.`,
    ].join('\n'),
    path: '/buying',
  };
}

function bestQualityEntries(picture: YearPicture, { reading }: PlannedNames): CalendarEntry[] {
  return picture.items.flatMap(({ item, lots }) =>
    lots
      .filter((lot) => lot.setAside === null)
      .map((lot) => ({
        kind: 'best_quality' as const,
        uid: uidOf(picture, 'best-quality', lot.id),
        title: `Best eaten by today: ${item.name}`,
        from: lot.bestQualityUntil,
        until: addDays(lot.bestQualityUntil, 1),
        words: `${amountOf(item, lot.unitsLeft, reading, lot.jarKind)} left of batch ${lot.batchCode}${lot.place === null ? '' : `, ${lot.place.name}`}. Best quality until ${formatDate(lot.bestQualityUntil, reading)}.`,
        path: `/shelf/lots/${lot.id}`,
      })),
  );
}

function harvestEntries(picture: YearPicture, { reading }: PlannedNames): CalendarEntry[] {
  const { facts, seasonsBySource } = picture.loaded;
  return facts.sources
    .filter(({ kind }) => kind !== 'market')
    .flatMap((source) =>
      (seasonsBySource.get(source.id) ?? [])
        .filter(({ season }) => season.endsOn >= picture.asOf)
        .map(({ season, lbPerWeek }) => ({
          kind: 'harvest' as const,
          uid: uidOf(picture, 'harvest', source.id, season.year),
          title: `Harvest: ${source.name}`,
          from: season.beginsOn,
          until: addDays(season.endsOn, 1),
          words: `${source.crop.replaceAll('-', ' ')}, about ${formatQuantity(lbPerWeek, 'lb', reading)} a week.`,
          path: '/harvest',
        })),
    );
}
