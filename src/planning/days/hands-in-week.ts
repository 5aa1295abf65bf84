import { entry } from '../lookup.ts';
import type { KitchenTime } from '../planning-year.ts';

/** Pairs of hands that a minute of a week's sessions counts for; one where nobody was named. */
export const handsIn = ({ handsByWeek }: Pick<KitchenTime, 'handsByWeek'>, week: number): number =>
  handsByWeek === undefined ? 1 : entry(handsByWeek, week, 'handsByWeek');

/** Minutes of work that a session of so many minutes holds: its set-up once, and the rest for each pair of hands. */
export const workHeld = (sessionMinutes: number, setUpMinutes: number, hands: number): number =>
  Math.min(sessionMinutes, setUpMinutes) + Math.max(0, sessionMinutes - setUpMinutes) * hands;

/** Minutes of work, set-ups with it, that all sessions of a week hold. */
export const kitchenRoom = (time: KitchenTime, week: number): number =>
  entry(time.maxSessionsByWeek, week, 'maxSessionsByWeek') *
  workHeld(
    entry(time.hoursPerSessionByWeek, week, 'hoursPerSessionByWeek') * 60,
    time.setUpMinutes,
    handsIn(time, week),
  );
