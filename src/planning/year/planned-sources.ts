import { groupedBy } from '../../../shared/grouped-by.ts';
import { asCents } from '../../../shared/money.ts';
import { daysBetween, type WeekKey, weekHolding } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Source } from '../../household/source.ts';
import type { PlannedSource } from '../planning-year.ts';
import { lastUseWeekAtHand, type WaitingDays } from './fruit-waits.ts';

/** A source as the planner takes it: what it gives in each week, and how long that waits. */
export function plannedSource(
  source: Source,
  lbByWeek: readonly number[],
  weeks: readonly WeekKey[],
  lastUseWeekByWeek: readonly number[],
): PlannedSource {
  return {
    id: source.id,
    name: source.name,
    crop: source.crop,
    kind: source.kind,
    lbByWeek,
    priceCentsPerLbByWeek: weeks.map(() => source.pricePerLb),
    useByDays: source.useByDays,
    lastUseWeekByWeek,
    poorYearChance: source.poorYearChance,
    poorYearShare: source.poorYearShare,
    fallBack: source.fallBack,
  };
}

/** What a source still gives in each week, without what was fetched from it in that week. */
export const leftToFetch = (
  { fetched, household: { weekStartsOn: startsOn } }: HouseholdFacts,
  source: Source,
  lbByWeek: readonly number[],
  weeks: readonly WeekKey[],
): readonly number[] =>
  lbByWeek.map((lb, at) =>
    Math.max(
      0,
      fetched
        .filter(({ sourceId, on }) => sourceId === source.id && weekHolding(on, startsOn) === weeks[at])
        .reduce((left, one) => left - one.lb, lb),
    ),
  );

/** Crops that were fetched and that no batch has taken, each with its last day as a source that gives them now and only now. */
export const producedAtHand = (
  { fetched }: HouseholdFacts,
  weeks: readonly WeekKey[],
  waiting: WaitingDays,
): readonly PlannedSource[] =>
  [
    ...groupedBy(
      fetched.filter(({ lbLeft, useBy }) => lbLeft > 0 && useBy >= waiting.asOf),
      ({ crop, useBy }) => `${crop}--at-hand-until-${useBy}`,
    ),
  ].flatMap(([id, [first, ...others]]) =>
    first === undefined
      ? []
      : [
          {
            id: id as Source['id'],
            name: `${first.crop} at hand`,
            crop: first.crop,
            kind: 'market',
            lbByWeek: weeks.map((_, at) =>
              at === 0 ? others.reduce((sum, { lbLeft }) => sum + lbLeft, first.lbLeft) : 0,
            ),
            priceCentsPerLbByWeek: weeks.map(() => asCents(0)),
            useByDays: daysBetween(waiting.asOf, first.useBy),
            lastUseWeekByWeek: weeks.map((_, at) =>
              at === 0 ? Math.min(weeks.length - 1, lastUseWeekAtHand(first.useBy, waiting)) : at,
            ),
            poorYearChance: 0,
            poorYearShare: 1,
            fallBack: 'do-without',
            isAtHand: true,
          } as const,
        ],
  );
