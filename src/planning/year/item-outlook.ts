import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { remembering } from '../../../shared/remembering.ts';
import { addDays, type CalendarDate, mondayOf, weeksBetween } from '../../../shared/week.ts';
import type { UseForecast } from '../../consumption/use-forecast.ts';
import { type Item, keptForEmergency } from '../../household/item.ts';
import { usualUnits } from '../../household/lot.ts';
import { discardOn } from '../../shelf/best-quality.ts';
import { runOutOf } from '../../shelf/likely-gaps.ts';
import { predictedUse } from '../../shelf/predicted-use.ts';
import { projectShelf } from '../../shelf/projection.ts';
import type { IncomingUnits, ShelfAhead, ShelfProjection } from '../../shelf/shelf-projection.ts';
import { neverRunsOut } from '../answer/assemble-plan.ts';
import type { PlanPath } from '../answer/plan-path.ts';
import { noneBeyond } from '../lookup.ts';
import type { AskOutlook } from '../make-plan.ts';
import { afterFilling, setAsideLongest } from '../model/emergency-shelf.ts';
import { type SupplyTime, supplyTimes } from './after-year.ts';
import type { HouseholdYear } from './household-year.ts';
import { horizonWeeks } from './year-supply.ts';

/** A plan's path of one item, and the week its first entry stands for. */
export interface PathFrom {
  readonly path: PlanPath;
  readonly weeks: readonly HouseholdYear['year']['weeks'][number][];
}

/**
 * The shelf of one item over the coming year; with a plan's path, what it makes and buys comes too. Null for what nobody
 * says they eat. What is kept for an emergency is not in it: nobody is to eat that, and what comes fills it first.
 */
export function itemOutlook(
  loaded: HouseholdYear,
  item: Item,
  plan: PathFrom | null,
  project: ProjectItem = projectAnew,
): ShelfProjection | null {
  const { facts, year } = loaded;
  const forecast = loaded.useByItem.get(item.id)?.forecast;
  if (!forecast) return null;
  const next = nextSupply(loaded, item, plan === null ? 'nextSupplyWeek' : 'nextSeasonWeek');
  const standing = facts.lots
    .filter((lot) => lot.itemId === item.id && lot.unitsLeft > 0 && lot.setAside === null)
    .map((lot) => ({
      lotId: lot.id,
      units: usualUnits(item, lot.jarKind, lot.unitsLeft),
      readyFrom: lot.readyFrom,
      bestQualityUntil: lot.bestQualityUntil,
      discardOn: ceilingOf(loaded, item, lot.madeOn),
    }));
  const { above, missing } = setAsideLongest(standing, keptForEmergency(item));
  const projection = project(
    { household: facts.household.id, item: item.id, isPlanned: plan !== null },
    forecast,
    {
      asOf: year.asOf,
      weeks: next.weeksLookedAt,
      lots: above,
      incoming: plan === null ? [] : afterFilling(incomingUnits(loaded, item, plan), missing),
      nextSupplyWeek: next.week,
      ...(next.times === undefined ? {} : { supplyTimes: next.times }),
    },
  );
  return withinYear(projection);
}

/** What is shown is the planned year; what lies beyond it was looked at for the chance alone. */
function withinYear({ weeks, ...projection }: ShelfProjection): ShelfProjection {
  const shown = weeks.slice(0, horizonWeeks);
  return { ...projection, weeks: shown, runOut: runOutOf(shown) };
}

/** What comes and stands of an item, its use apart. */
export type ItemAhead = Omit<ShelfAhead, 'use'>;

/** Whose shelf of which item is projected, as it stands or under a plan. */
export interface OutlookPlace {
  readonly household: HouseholdId;
  readonly item: ItemId;
  readonly isPlanned: boolean;
}

/** Projects the shelf of an item; `place` is for who remembers answers. */
export type ProjectItem = (place: OutlookPlace, forecast: UseForecast, ahead: ItemAhead) => ShelfProjection;

// An item is asked for twice in a row, as it stands and under a plan: its use is the same use.
const useOfLast = remembering(predictedUse, { most: 1 });

/** The projection worked out from its figures. */
export const projectAnew: ProjectItem = (_place, forecast, ahead) =>
  projectShelf({ ...ahead, use: useOfLast(forecast) });

/** How long each item lasts when a plan's path is carried out; `pause` lets others go on between two items. */
export const outlookUnder =
  (loaded: HouseholdYear, project: ProjectItem, pause: () => Promise<unknown>): AskOutlook =>
  async (path) => {
    await pause();
    const item = loaded.facts.items.find((candidate) => candidate.id === path.item);
    const projection = item && itemOutlook(loaded, item, { path, weeks: loaded.year.weeks }, project);
    return projection
      ? { runOutWeek: projection.runOut, chanceOfLasting: projection.chanceOfLasting }
      : neverRunsOut;
  };

/** Only what the household put up is thrown away at its own ceiling, or past its days in the refrigerator; a bag of salt has none. */
function ceilingOf({ facts }: HouseholdYear, item: Item, madeOn: CalendarDate): CalendarDate | null {
  if (item.kind !== 'preserve') return null;
  return item.keeping === 'refrigerated'
    ? addDays(madeOn, item.bestQualityDays)
    : discardOn(madeOn, facts.household.discardCeilingMonths);
}

interface NextSupply {
  readonly week: ShelfProjection['nextSupplyWeek'];
  /** When it really comes; undefined where that is sure. */
  readonly times?: readonly SupplyTime[];
  /** Weeks to look ahead: the planned year, and where the next supply lies beyond it as far as that. */
  readonly weeksLookedAt: number;
}

/** As it stands, the shelf must last to the next supply; under a plan it must last to the next season. */
function nextSupply(
  { supplyByItem, useByItem, year }: HouseholdYear,
  item: Item,
  until: 'nextSupplyWeek' | 'nextSeasonWeek',
): NextSupply {
  const supply = supplyByItem.get(item.id);
  const week = supply?.[until] ?? null;
  const [first] = year.weeks;
  if (supply === undefined || week === null || first === undefined)
    return { week: null, weeksLookedAt: horizonWeeks };
  const mostLookedAt = useByItem.get(item.id)?.forecast?.weeks.length ?? horizonWeeks;
  const ahead = weeksBetween(first, week);
  const lookedAt = (weeks: number) => Math.min(mostLookedAt, Math.max(horizonWeeks, weeks));
  // A season that runs already, and what is bought, come when they are planned.
  if (supply.by === 'bought' || week !== supply.nextSeasonWeek)
    return { week, weeksLookedAt: lookedAt(ahead) };
  const toSeasonAfter =
    supply.seasonAfterWeek === null ? mostLookedAt - ahead : weeksBetween(week, supply.seasonAfterWeek);
  const times = supplyTimes(supply.failsChance, toSeasonAfter);
  const latest = ahead + Math.max(...times.map(({ weeksLater }) => weeksLater));
  return { week, times, weeksLookedAt: lookedAt(latest) };
}

function incomingUnits(
  loaded: HouseholdYear,
  item: Item,
  { path, weeks }: PathFrom,
): readonly (IncomingUnits & { readonly discardOn: CalendarDate | null })[] {
  return weeks.flatMap((week, at) => {
    const units = noneBeyond(path.readyByWeek, at) + noneBeyond(path.boughtByWeek, at);
    if (!(units > 1e-9) || !loaded.year.weeks.includes(week)) return [];
    const comesOn = mondayOf(week);
    return [
      {
        week,
        units,
        readyFrom: comesOn,
        bestQualityUntil: addDays(comesOn, item.bestQualityDays),
        discardOn: ceilingOf(loaded, item, comesOn),
      },
    ];
  });
}
