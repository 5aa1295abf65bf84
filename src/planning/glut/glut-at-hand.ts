import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, daysBetween } from '../../../shared/week.ts';
import type { FetchedProduce } from '../../household/purchase.ts';
import { nextSessionDates } from '../days/session-dates.ts';
import { orNone } from '../lookup.ts';
import { type HouseholdYear, planningYearOf } from '../year/household-year.ts';
import type { VesselGuesses } from '../year/vessels.ts';
import type { Glut } from './glut.ts';

/** Days a glut keeps when no source of the crop says so. */
const daysWhenNotKnown = 3;

/** A glut as produce that lies at hand, and the year with it. */
export interface GlutAtHand {
  /** The household's year with the glut at hand in its first week. */
  readonly loaded: HouseholdYear;
  /** Last day on which it may be used. */
  readonly useBy: CalendarDate;
  /** The day until which such produce usually keeps, where the canning day it is meant for comes later. */
  readonly usuallyKeepsUntil: CalendarDate | null;
  /** In how many weeks, the first included, a batch of it may be begun. */
  readonly weeks: number;
}

/**
 * A glut that came today, free: it waits as long as produce of its sources does, and in any case for the canning day of
 * its own week, which the household may hold earlier.
 */
export function glutAtHand(
  { facts, year }: HouseholdYear,
  { crop, lb }: Glut,
  reference: ReferenceTables,
  vesselGuesses: VesselGuesses,
): GlutAtHand {
  const { asOf } = year;
  const ofCrop = facts.sources.filter((source) => source.crop === crop);
  const keeps = ofCrop.length > 0 ? Math.min(...ofCrop.map(({ useByDays }) => useByDays)) : daysWhenNotKnown;
  const usually = addDays(asOf, keeps);
  const [next] = nextSessionDates(
    { ...facts.hours, away: facts.daysOff.away },
    year.weeks.slice(0, 1),
    asOf,
    facts.household.weekStartsOn,
    1,
  );
  const waits = next !== undefined && next.on > usually;
  const useBy = waits ? next.on : usually;
  const fetched: FetchedProduce = {
    sourceId: '' as FetchedProduce['sourceId'],
    crop,
    on: asOf,
    useBy,
    lb,
    lbLeft: lb,
  };
  const loaded = planningYearOf(
    { ...facts, fetched: [...facts.fetched, fetched] },
    asOf,
    reference,
    vesselGuesses,
  );
  // What was fetched before and keeps longer says nothing of it.
  const ownWeeks = loaded.year.sources
    .filter(
      (source) =>
        source.isAtHand === true && source.crop === crop && source.useByDays === daysBetween(asOf, useBy),
    )
    .map(({ lastUseWeekByWeek }) => orNone(lastUseWeekByWeek?.[0]));
  return {
    loaded,
    useBy,
    usuallyKeepsUntil: waits ? usually : null,
    weeks: Math.max(0, ...ownWeeks) + 1,
  };
}
