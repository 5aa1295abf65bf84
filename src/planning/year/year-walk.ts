import type { ItemId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import { sizeOf } from '../../../shared/jar.ts';
import type { WeekKey } from '../../../shared/week.ts';
import type { TargetParts, YearlyTarget } from '../../consumption/yearly-target.ts';
import type { Item } from '../../household/item.ts';
import { type LotOnShelf, unitsStanding } from '../../household/lot.ts';
import { orNone } from '../lookup.ts';
import type { GaveWay } from '../plan.ts';
import type { PlannedItem } from '../planning-year.ts';
import type { StoredPlan } from '../stored-plan.ts';
import type { HouseholdYear } from './household-year.ts';

/** What a year's need is made of: the parts of the target, or the one number set by hand; and what is kept for an emergency. */
export type NeedPart = keyof TargetParts | 'byHand' | 'emergency';

/**
 * The one walk from what a year needs of an item to what is still missing, in whole units of its own jar (tenths of a pound
 * for what is weighed): `need + carryOver = standing + planned + letGo + missing - over`.
 */
export interface YearWalk {
  /** Sum to `need`, none of them 0. */
  readonly parts: readonly { readonly part: NeedPart; readonly units: number }[];
  /** What the year needs: by hand where that was set, else the sum of its parts, rounded up; and what is kept for an emergency. */
  readonly need: number;
  /** What the year needs by use and reserve alone; other than `need` only where that was set by hand. */
  readonly needByUse: number;
  /** Of `needByUse`, what is kept as a reserve. */
  readonly reserveByUse: number;
  /** Of the need what is kept as a reserve, not to be eaten in an ordinary year. */
  readonly reserve: number;
  /** Of the need, what an ordinary year would find too old to eat; not taken off. */
  readonly waste: number;
  /** Wanted beyond the year, to last until it can be made again. */
  readonly carryOver: number;
  /** On the shelf, in the item's own jar; what is set aside does not count. */
  readonly standing: number;
  /** Jars of other sizes among what stands, as they are. */
  readonly otherJars: readonly { readonly kind: JarKind; readonly jars: number }[];
  /** What the shelf lacks of need and carry-over, before anything is planned. */
  readonly toCome: number;
  /** What the plan still makes or buys, from this week on; 0 without a plan. */
  readonly planned: number;
  /** Of the reserve what neither stands nor is planned, since one more batch for it would mostly be left over. */
  readonly letGo: number;
  /** What else neither stands nor is planned. */
  readonly missing: number;
  /** What stands or is planned beyond need and carry-over: whole batches and packs. */
  readonly over: number;
}

/** Reference figures of a walk, unrounded units. */
interface Figures {
  readonly target: YearlyTarget | null;
  readonly standing: number;
  readonly otherJars?: YearWalk['otherJars'];
  readonly planned: number;
  /** The smallest amount that is said: 1 of what is counted, 0.1 of what is weighed. */
  readonly step?: number;
}

/** Less than this part of a step is rounding of jars of several sizes, not something missing. */
const worthMissing = 0.5;

/**
 * Walks from need to missing. Need and carry-over together are rounded up, so what a plan serves exactly leaves nothing missing.
 * What is missing is let go where it is no more than `reserveNotWorthABatch`.
 * Example: 21.3 wanted for the year and 9.4 until the next supply, 13 standing, 18 planned: need 22, carry-over 9, missing 0.
 */
export function yearWalk(
  item: PlannedItem,
  { target, standing, otherJars = [], planned, step = 1 }: Figures,
): YearWalk {
  const up = (units: number) => Math.ceil(units / step - 1e-6) * step;
  const near = (units: number) => Math.round(units / step) * step;
  const isByHand = target !== null && target.byHand !== null;
  const emergency = orNone(item.emergencyUnits);
  const need = clean((isByHand ? up(item.yearlyTarget) : whole(item.yearlyTarget)) + emergency);
  const wantedRaw =
    item.useByWeek.reduce((sum, units) => sum + units, 0) + item.reserveUnits + item.yearEndUnits + emergency;
  const wanted = Math.max(need, up(wantedRaw));
  const lacking = wantedRaw - standing - planned;
  const isUpTo = (units: number) => lacking <= units + worthMissing * step + 1e-6;
  const isEnough = isUpTo(0);
  const isLetGo = !isEnough && isUpTo(orNone(item.reserveNotWorthABatch));
  // Rounded together, so that two halves are one.
  const nearPlanned = near(standing + planned) - near(standing);
  const gap = wanted - near(standing) - nearPlanned;
  // Half jars that fill the last gap are said as the whole jar they fill.
  const filled = isEnough ? Math.max(0, Math.min(gap, step)) : 0;
  const shownPlanned = planned > 0 ? nearPlanned + filled : 0;
  const shownStanding = near(standing) + (planned > 0 ? 0 : filled);
  const left = wanted - shownStanding - shownPlanned;
  const ofUse = target === null ? need - emergency : whole(target.fromForecast);
  const needByUse = clean(ofUse + emergency);
  const kept = [{ part: 'emergency' as const, units: emergency }].filter(({ units }) => units > 0);
  const byUse = [...wholeParts(target, ofUse), ...kept];
  const reserveByUse = clean(
    byUse.reduce((sum, { part, units }) => (reserves.includes(part) ? sum + units : sum), 0),
  );
  return {
    parts: isByHand
      ? [
          ...[{ part: 'byHand' as const, units: clean(need - emergency) }].filter(({ units }) => units > 0),
          ...kept,
        ]
      : byUse,
    need,
    needByUse,
    reserveByUse,
    reserve: Math.min(need, reserveByUse),
    waste: target === null || isByHand ? 0 : clean(near(target.expectedWaste)),
    carryOver: clean(wanted - need),
    standing: clean(shownStanding),
    otherJars,
    toCome: clean(Math.max(0, wanted - shownStanding)),
    planned: clean(shownPlanned),
    letGo: isLetGo ? clean(Math.max(0, left)) : 0,
    missing: isEnough || isLetGo ? 0 : clean(Math.max(0, left)),
    over: clean(Math.max(0, -left)),
  };
}

const whole = (units: number): number => Math.max(0, Math.ceil(units - 1e-6));

/** Sums of tenths as a person writes them. */
const clean = (units: number): number => Math.max(0, Math.round(units * 10) / 10);

const reserves: readonly NeedPart[] = ['hungryYear', 'failedCrop', 'emergency'];
const partNames = ['use', 'occasions', 'gifts', 'promised', 'hungryYear', 'failedCrop'] as const;

/** Parts in whole units that sum to the need: each down, and what is left over to those cut the most. */
function wholeParts(target: YearlyTarget | null, need: number): YearWalk['parts'] {
  if (target === null) return need > 0 ? [{ part: 'use', units: need }] : [];
  const cut = partNames.map((part) => {
    const down = Math.floor(target.parts[part] + 1e-6);
    return { part, down, rest: target.parts[part] - down };
  });
  const left = need - cut.reduce((sum, { down }) => sum + down, 0);
  const raised = new Set(
    cut
      .toSorted((one, other) => other.rest - one.rest)
      .slice(0, Math.max(0, left))
      .map(({ part }) => part),
  );
  return cut.flatMap(({ part, down }) => {
    const units = down + (raised.has(part) ? 1 : 0);
    return units > 0 ? [{ part, units }] : [];
  });
}

/**
 * Units of an item that a plan leaves missing on one rung of its wishes: of what the walk misses the reserve gives way first. 0
 * where the year as a whole has enough and it is only missing until more comes. Other rungs are no part of the walk.
 */
export function gaveWayUnits(
  { missing, reserve }: YearWalk,
  { rung, amount }: Pick<GaveWay, 'rung' | 'amount'>,
): number {
  if (rung === 'reserve') return Math.min(missing, reserve);
  return rung === 'use' ? clean(Math.max(0, missing - reserve)) : amount;
}

type PathsOfPlan = Pick<StoredPlan, 'paths'> & { readonly year: Pick<StoredPlan['year'], 'weeks'> };

/** The walk of one item of a household; null for what is no longer kept. */
export function walkOfItem(
  { facts, year, targetByItem }: Pick<HouseholdYear, 'facts' | 'year' | 'targetByItem'>,
  itemId: ItemId,
  plan: PathsOfPlan | null,
): YearWalk | null {
  const item = facts.items.find(({ id }) => id === itemId);
  const planned = year.items.find(({ id }) => id === itemId);
  if (item === undefined || planned === undefined) return null;
  const lots = facts.lots.filter((lot) => lot.itemId === itemId);
  return yearWalk(planned, {
    target: targetByItem.get(itemId) ?? null,
    standing: unitsStanding(item, lots),
    otherJars: otherJarsOf(item, lots),
    planned: stillPlanned(itemId, plan, year.weeks[0]),
    step: item.unit === 'lb' ? 0.1 : 1,
  });
}

/** Jars of another size than the item's own that stand and may be eaten. */
function otherJarsOf(item: Item, lots: readonly LotOnShelf[]): YearWalk['otherJars'] {
  const jarsByKind = new Map<JarKind, number>();
  for (const { jarKind, setAside, unitsLeft } of lots)
    if (jarKind !== null && item.usualJar !== null && setAside === null && unitsLeft > 0)
      if (sizeOf(jarKind) !== sizeOf(item.usualJar))
        jarsByKind.set(jarKind, orNone(jarsByKind.get(jarKind)) + unitsLeft);
  return [...jarsByKind].map(([kind, jars]) => ({ kind, jars }));
}

/** Units a plan still makes or buys of an item from a week on; 0 without a plan. What was done or bought since is on the shelf. */
function stillPlanned(itemId: ItemId, plan: PathsOfPlan | null, from: WeekKey | undefined): number {
  const path = plan?.paths.find(({ item }) => item === itemId);
  if (plan === null || path === undefined) return 0;
  return plan.year.weeks.reduce(
    (sum, week, at) =>
      from !== undefined && week < from
        ? sum
        : sum + orNone(path.madeByWeek[at]) + orNone(path.boughtByWeek[at]),
    0,
  );
}
