import { type CalendarDate, dateInZone } from '../shared/week.ts';

/** Milliseconds since 1970, UTC. Passed in everywhere, so that a test or a replay can say what time it is. */
export type Clock = () => number;

export const wallClock: Clock = () => Date.now();

/** An instant, and the calendar date it falls on where the household lives. */
export interface Moment {
  readonly at: number;
  readonly today: CalendarDate;
}

export const momentIn = (timeZone: string, clock: Clock): Moment => {
  const at = clock();
  return { at, today: dateInZone(at, timeZone) };
};
