import { compare } from '../../../shared/compare.ts';
import type { SourceId } from '../../../shared/ids.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import { type CalendarDate, mondayOf, sundayOf, type WeekKey } from '../../../shared/week.ts';
import type { Season } from '../../harvest/season.ts';
import type { SourceYear } from '../../harvest/source-years.ts';
import type { Item } from '../../household/item.ts';
import type { PlanPath } from '../answer/plan-path.ts';
import { entry } from '../lookup.ts';
import type { Plan } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { HouseholdYear } from '../year/household-year.ts';
import { itemGaps } from '../year/item-gaps.ts';
import { itemOutlook } from '../year/item-outlook.ts';

/** The season of a source that is open or next to come; null where none is known. */
export const seasonAhead = (seasons: readonly SourceYear[], today: CalendarDate): Season | null =>
  seasons.find(({ season }) => season.endsOn >= today)?.season ?? null;

/**
 * A planning year as it would be if a source gave nothing in a season (first and last day included); all else, what was aimed
 * for too, as it is.
 */
export const withoutHarvest = (
  year: PlanningYear,
  of: SourceId,
  { beginsOn, endsOn }: Pick<Season, 'beginsOn' | 'endsOn'>,
): PlanningYear => ({
  ...year,
  sources: year.sources.map((source) =>
    source.id !== of
      ? source
      : {
          ...source,
          lbByWeek: source.lbByWeek.map((lb, at) => {
            const week = entry(year.weeks, at, 'weeks');
            return sundayOf(week) >= beginsOn && mondayOf(week) <= endsOn ? 0 : lb;
          }),
        },
  ),
});

/** A plan as it is carried out. */
export interface PlannedUnder {
  readonly plan: Plan;
  readonly paths: readonly PlanPath[];
}

/** What the weeks ahead bring of one item, units, and in how many of them it likely has none. */
export interface ItemAhead {
  readonly putUp: number;
  readonly bought: number;
  readonly weeksWithout: number;
}

export interface ItemWithout {
  readonly item: Item;
  readonly now: ItemAhead;
  readonly instead: ItemAhead;
}

export interface YearWithout {
  /** Items of which something differs by half a unit or a week; those that lose most weeks first. */
  readonly items: readonly ItemWithout[];
  /** Money of the weeks ahead. */
  readonly spend: { readonly now: Cents; readonly instead: Cents };
}

/** The year as it is planned beside the year as it would be planned without a harvest, both from the first of these weeks on. */
export function yearWithout(
  loaded: HouseholdYear,
  weeks: readonly WeekKey[],
  { now, instead }: { readonly now: PlannedUnder; readonly instead: PlannedUnder },
): YearWithout {
  const items = loaded.facts.items
    .filter(({ retiredOn }) => retiredOn === null)
    .map((item) => ({
      item,
      now: aheadOf(loaded, item, weeks, now.paths),
      instead: aheadOf(loaded, item, weeks, instead.paths),
    }))
    .filter(
      (one) =>
        Math.abs(one.now.putUp - one.instead.putUp) >= 0.5 ||
        Math.abs(one.now.bought - one.instead.bought) >= 0.5 ||
        one.now.weeksWithout !== one.instead.weeksWithout,
    )
    .toSorted(
      (one, other) =>
        moreWithout(other) - moreWithout(one) ||
        lessPutUp(other) - lessPutUp(one) ||
        compare(one.item.name, other.item.name),
    );
  return { items, spend: { now: spendOf(now.plan), instead: spendOf(instead.plan) } };
}

const moreWithout = ({ now, instead }: ItemWithout): number => instead.weeksWithout - now.weeksWithout;
const lessPutUp = ({ now, instead }: ItemWithout): number => now.putUp - instead.putUp;

const spendOf = ({ weeks }: Plan): Cents => asCents(weeks.reduce((sum, { spend }) => sum + spend, 0));

function aheadOf(
  loaded: HouseholdYear,
  item: Item,
  weeks: readonly WeekKey[],
  paths: readonly PlanPath[],
): ItemAhead {
  const path = paths.find((one) => one.item === item.id);
  if (path === undefined) return { putUp: 0, bought: 0, weeksWithout: 0 };
  const sum = (byWeek: readonly number[]): number => byWeek.reduce((units, one) => units + one, 0);
  return {
    putUp: sum(path.madeByWeek),
    bought: sum(path.boughtByWeek),
    weeksWithout: sum(
      itemGaps(itemOutlook(loaded, item, { path, weeks }), true, null).map(({ from, until }) => until - from),
    ),
  };
}
