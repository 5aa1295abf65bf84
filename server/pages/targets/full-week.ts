import { addDays, type CalendarDate, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { usualUnits } from '../../../src/household/lot.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

/** Days of takings that an occasion takes with it: its own and two before. */
const daysOfOccasion = 3;

/** A week that was fuller than any before, as it is asked about: its fullest day, and the units more than usual. */
export interface AskedWeek {
  readonly week: WeekKey;
  readonly taken: number;
  readonly units: number;
  readonly on: CalendarDate;
}

/** The full week to ask about; null when there is none. */
export function askedWeek(picture: TargetPicture): AskedWeek | null {
  const asked = useOf(picture)?.forecast?.suspectedOccasion ?? null;
  if (asked === null) return null;
  const { item, loaded } = picture;
  const takenOn = new Map<CalendarDate, number>();
  for (const event of loaded.facts.events) {
    if (event.itemId !== item.id || event.kind !== 'taken' || event.isReversed) continue;
    const units = -usualUnits(item, event.jarKind, event.units);
    takenOn.set(event.occurredOn, (takenOn.get(event.occurredOn) ?? 0) + units);
  }
  const days = Array.from({ length: 7 }, (_, day) => addDays(mondayOf(asked.week), day));
  const untilDay = (day: CalendarDate): number =>
    Array.from({ length: daysOfOccasion }, (_, back) => takenOn.get(addDays(day, -back)) ?? 0).reduce(
      (sum, units) => sum + units,
      0,
    );
  const on = days.reduce((best, day) => (untilDay(day) > untilDay(best) ? day : best));
  return { week: asked.week, taken: asked.taken, units: asked.extra, on };
}
