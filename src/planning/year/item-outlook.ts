import type { HouseholdId, ItemId } from '../../../shared/ids.ts';
import { remembering } from '../../../shared/remembering.ts';
import { addDays, type CalendarDate, mondayOf, weeksBetween } from '../../../shared/week.ts';
import type { UseForecast } from '../../consumption/use-forecast.ts';
import { type Item, keptForEmergency } from '../../household/item.ts';
import { type LotOnShelf, usualUnits } from '../../household/lot.ts';
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
import { horizonWeeks, type ItemSupply } from './year-supply.ts';

/** A plan's path of one item, and the week its first entry stands for. */
export interface PathFrom {
  readonly path: PlanPath;
  readonly weeks: readonly HouseholdYear['year']['weeks'][number][];
}

/** What the outlook of one item is worked out from. */
export interface OutlookAsked {
  readonly item: Item;
  readonly forecast: UseForecast;
  readonly supply: ItemSupply | null;
  /** The item's lots, in any order; those with nothing left are passed over. */
  readonly lots: readonly LotOnShelf[];
  readonly household: HouseholdYear['facts']['household'];
  readonly asOf: CalendarDate;
  readonly weeks: HouseholdYear['year']['weeks'];
  /** A plan's path, and the weeks its entries stand for; null for the shelf as it stands. */
  readonly path: PlanPath | null;
  readonly pathWeeks: PathFrom['weeks'] | null;
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
  const asked = outlookAsked(loaded, item, plan);
  return asked === null ? null : outlookOf(asked, project);
}

/** What is asked for an item's outlook; null for what nobody says they eat. */
export function outlookAsked(
  { facts, year, useByItem, supplyByItem }: HouseholdYear,
  item: Item,
  plan: PathFrom | null,
): OutlookAsked | null {
  const forecast = useByItem.get(item.id)?.forecast;
  if (!forecast) return null;
  return {
    item,
    forecast,
    supply: supplyByItem.get(item.id) ?? null,
    lots: facts.lots.filter((lot) => lot.itemId === item.id),
    household: facts.household,
    asOf: year.asOf,
    weeks: year.weeks,
    path: plan?.path ?? null,
    pathWeeks: plan?.weeks ?? null,
  };
}

/** The outlook from what it is worked out from, and from nothing else. */
export function outlookOf(asked: OutlookAsked, project: ProjectItem): ShelfProjection {
  const { item, forecast, household, path } = asked;
  const next = nextSupply(asked, path === null ? 'nextSupplyWeek' : 'nextSeasonWeek');
  const standing = asked.lots
    .filter((lot) => lot.unitsLeft > 0 && lot.setAside === null)
    .map((lot) => ({
      lotId: lot.id,
      units: usualUnits(item, lot.jarKind, lot.unitsLeft),
      readyFrom: lot.readyFrom,
      bestQualityUntil: lot.bestQualityUntil,
      discardOn: ceilingOf(asked, lot.madeOn),
    }));
  const { above, missing } = setAsideLongest(standing, keptForEmergency(item));
  const projection = project({ household: household.id, item: item.id, isPlanned: path !== null }, forecast, {
    asOf: asked.asOf,
    weeks: next.weeksLookedAt,
    lots: above,
    incoming: path === null ? [] : afterFilling(incomingUnits(asked, path, asked.pathWeeks ?? []), missing),
    nextSupplyWeek: next.week,
    ...(next.times === undefined ? {} : { supplyTimes: next.times }),
  });
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
function ceilingOf({ item, household }: OutlookAsked, madeOn: CalendarDate): CalendarDate | null {
  if (item.kind !== 'preserve') return null;
  return item.keeping === 'refrigerated'
    ? addDays(madeOn, item.bestQualityDays)
    : discardOn(madeOn, household.discardCeilingMonths);
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
  { supply, forecast, weeks }: OutlookAsked,
  until: 'nextSupplyWeek' | 'nextSeasonWeek',
): NextSupply {
  const week = supply?.[until] ?? null;
  const [first] = weeks;
  if (supply === null || week === null || first === undefined)
    return { week: null, weeksLookedAt: horizonWeeks };
  const mostLookedAt = forecast.weeks.length;
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
  asked: OutlookAsked,
  path: PlanPath,
  weeks: PathFrom['weeks'],
): readonly (IncomingUnits & { readonly discardOn: CalendarDate | null })[] {
  return weeks.flatMap((week, at) => {
    const units = noneBeyond(path.readyByWeek, at) + noneBeyond(path.boughtByWeek, at);
    if (!(units > 1e-9) || !asked.weeks.includes(week)) return [];
    const comesOn = mondayOf(week);
    return [
      {
        week,
        units,
        readyFrom: comesOn,
        bestQualityUntil: addDays(comesOn, asked.item.bestQualityDays),
        discardOn: ceilingOf(asked, comesOn),
      },
    ];
  });
}
