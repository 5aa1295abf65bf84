import type { CalendarDate } from '../../../shared/week.ts';
import { mondayOf } from '../../../shared/week.ts';
import { poundsByWeek, sourceYears } from '../../../src/harvest/source-years.ts';
import type { Source } from '../../../src/household/source.ts';
import { entry } from '../../../src/planning/lookup.ts';
import { writtenYears } from '../../../src/planning/year/year-supply.ts';
import { drawNormal } from '../../../src/shelf/draws.ts';
import { type LivedHousehold, shiftedDates, useSpan } from './household.ts';
import { factorAround, luckOf, wholeBetween } from './luck.ts';
import { drawUse } from './use-process.ts';
import { livedWeeks, type Path, type World, weeksInAll } from './world.ts';

/** How a source's year turns out: on which days, and how much of its usual crop. */
export interface TrueSeason {
  readonly year: number;
  readonly daysLate: number;
  /** 0 where nothing grows. */
  readonly share: number;
  readonly beginsOn: CalendarDate;
  readonly picksFrom: CalendarDate;
}

export interface LivedPath extends Path {
  /** [source]: seasons by calendar year. */
  readonly seasons: readonly (readonly TrueSeason[])[];
}

/** Days by which most crops run early or late. */
const lateDaysDeviation = 8;
const cropDeviation = { garden: 0.3, 'pick-your-own': 0.2, market: 0.1 } as const;
/** Of the years a source calls poor, so many give nothing at all; of a garden alone. */
const failedOfPoor = 1 / 3;

/** One way the year may go for a household. */
export function drawPath(household: LivedHousehold, seed: number): LivedPath {
  const { facts, world, processes, startsOn } = household;
  const span = useSpan(facts, startsOn);
  const use = facts.items.map((item, at) =>
    drawUse(
      entry(processes, at, 'processes'),
      { ...span, firstWeek: 0, weeks: weeksInAll },
      luckOf(seed, `use ${item.id}`),
    ),
  );
  const seasons = facts.sources.map((source) => seasonsOf(source, seed));
  const harvest = facts.sources.map((source, at) =>
    poundsByWeek(
      sourceYears(writtenYears(asItTurnsOut(source, entry(seasons, at, 'seasons'))), world.weeks),
      world.weeks,
      { startsOn: 'monday', away: facts.daysOff.away },
    ),
  );
  const yields = world.recipes.map((recipe) => {
    const random = luckOf(seed, `yield ${recipe.id}`);
    return world.weeks.map(() => wholeBetween(random, recipe.leastUnits, recipe.mostUnits));
  });
  return {
    use,
    harvest,
    yields,
    seasons,
    countedWeeks: world.items.map((_, item) => countedOf(world, harvest, item)),
  };
}

function seasonsOf(source: Source, seed: number): TrueSeason[] {
  return source.windows.map((window) => {
    const weather = luckOf(seed, `weather ${source.crop} ${window.year}`);
    const daysLate = Math.round(Math.max(-18, Math.min(18, lateDaysDeviation * drawNormal(weather))));
    const crop = luckOf(seed, `crop ${source.id} ${window.year}`);
    const isPoor = crop() < source.poorYearChance;
    const isFailed = isPoor && source.kind === 'garden' && crop() < failedOfPoor;
    const usual = factorAround(crop, cropDeviation[source.kind]);
    const dates = shiftedDates(window, daysLate);
    return {
      year: window.year,
      daysLate,
      share: isFailed ? 0 : isPoor ? source.poorYearShare : usual,
      beginsOn: dates.beginsOn,
      picksFrom: dates.mostActive?.fromOn ?? dates.beginsOn,
    };
  });
}

const asItTurnsOut = (source: Source, seasons: readonly TrueSeason[]): Source => ({
  ...source,
  windows: source.windows.map((window, at) => {
    const { daysLate, share } = entry(seasons, at, 'seasons');
    return { ...window, ...shiftedDates(window, daysLate), lbPerWeek: window.lbPerWeek * share };
  }),
});

/** Of what is made: the lived weeks and those until some of it can be ready again; of what is bought, the lived ones. */
function countedOf({ items, recipes, sources }: World, harvest: Path['harvest'], item: number): number {
  if (items[item]?.kind === 'staple') return livedWeeks;
  const ready = recipes
    .filter((recipe) => recipe.item === item)
    .map((recipe) => {
      for (let week = livedWeeks; week < weeksInAll - recipe.readyAfterWeeks; week += 1) {
        const isRipe = recipe.produce.every(
          ({ crop, lb }) =>
            sources.reduce(
              (sum, source, at) => (source.crop === crop ? sum + (harvest[at]?.[week] ?? 0) : sum),
              0,
            ) >= lb,
        );
        if (isRipe && recipe.allowedByWeek[week] === true) return week + recipe.readyAfterWeeks;
      }
      return weeksInAll;
    });
  return Math.min(weeksInAll, ...ready);
}

/** What the household has written of its sources on a Monday: first pickings, crops seen, years that run late or failed. */
export function sourcesSeen(
  household: LivedHousehold,
  { seasons }: LivedPath,
  week: number,
): Pick<LivedHousehold['facts'], 'sources' | 'lateness'> {
  const { facts, world } = household;
  const today = mondayOf(entry(world.weeks, week, 'weeks'));
  const lateness: LivedHousehold['facts']['lateness'][number][] = [];
  const sources = facts.sources.map((source, at) => ({
    ...source,
    windows: source.windows.map((window, one) => {
      const { share, beginsOn, picksFrom, year } = entry(entry(seasons, at, 'seasons'), one, 'seasons');
      const isGone = today > window.endsOn;
      const daysOver = daysFrom(window.beginsOn, today);
      if (share === 0) {
        if (daysOver < 0) return window;
        if (daysOver >= daysToSeeFailure && daysFrom(beginsOn, today) >= daysToSeeFailure)
          return { ...window, lbPerWeek: 0, usualLbPerWeek: window.lbPerWeek };
        lateness.push({ year, crop: source.crop, days: daysOver + 7 });
        return window;
      }
      const seen =
        today >= picksFrom && share !== 1
          ? { lbPerWeek: window.lbPerWeek * share, usualLbPerWeek: window.lbPerWeek }
          : {};
      if (today >= beginsOn) return { ...window, firstPickedOn: beginsOn, ...seen };
      if (daysOver > 7 && !isGone) lateness.push({ year, crop: source.crop, days: daysOver + 7 });
      return window;
    }),
  }));
  const latest = new Map<string, (typeof lateness)[number]>();
  for (const one of lateness) {
    const key = `${one.year} ${one.crop}`;
    if ((latest.get(key)?.days ?? -1) < one.days) latest.set(key, one);
  }
  return { sources, lateness: [...latest.values()] };
}

/** So long after it should have begun, a crop that does not come is given up. */
const daysToSeeFailure = 21;

const daysFrom = (from: CalendarDate, to: CalendarDate): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000);
