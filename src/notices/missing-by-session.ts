import { mondayOf, type WeekKey } from '../../shared/week.ts';
import type { NoticeSession, SessionNeed } from './notice-picture.ts';

export interface SessionShortfall {
  readonly week: WeekKey;
  /** What takes something that is missing, by name; where nothing is, all that is made. */
  readonly makes: readonly string[];
  readonly on: NoticeSession['on'];
  /** The earliest day by which the list or the sessions ask for something that is missing. */
  readonly buyBy: NoticeSession['buyBy'];
  readonly lastDay: NoticeSession['lastDay'];
  readonly isBegunBefore: boolean;
  /** What is to be bought for the week, by name in alphabetical order; empty when all is on hand. */
  readonly missing: readonly SessionNeed[];
}

/** What is bought for a need: as the shopping list has it, else in the whole packs it takes. */
export const boughtOf = ({ quantity, pack, onList }: SessionNeed): number =>
  onList?.quantity ?? (pack === undefined || pack <= 0 ? quantity : Math.ceil(quantity / pack - 1e-9) * pack);

/**
 * What each planned week lacks once earlier weeks have taken what is on hand, oldest week first; sessions of one week are
 * one entry. quantity missing = max(0, quantity needed - what earlier weeks left of what is on hand), never below 0; what is over in the packs bought
 * for a week serves the weeks after it.
 */
export function missingBySession(
  sessions: readonly NoticeSession[],
  onHand: Readonly<Record<string, number>>,
): readonly SessionShortfall[] {
  const left = new Map(Object.entries(onHand));
  const weeks = [...new Set(sessions.map((session) => session.week))].sort();
  return weeks.map((week) => {
    const ofWeek = sessions.filter((session) => session.week === week);
    const needed = new Map<string, SessionNeed>();
    for (const { makes, needs } of ofWeek)
      for (const need of needs) {
        const before = needed.get(need.name);
        needed.set(need.name, {
          ...need,
          quantity: need.quantity + (before?.quantity ?? 0),
          takenBy: [...(before?.takenBy ?? []), ...(need.takenBy ?? makes)],
        });
      }
    const missing = [...needed.values()]
      .map((need) => {
        const there = left.get(need.name) ?? 0;
        const quantity = Math.max(0, need.quantity - there);
        const over = quantity > 1e-9 ? Math.max(0, boughtOf({ ...need, quantity }) - quantity) : 0;
        left.set(need.name, Math.max(0, there - need.quantity) + over);
        return { ...need, quantity };
      })
      .filter((need) => need.quantity > 1e-9)
      .sort((one, other) => (one.name < other.name ? -1 : 1));
    const all = ofWeek.flatMap((session) => session.makes);
    return {
      week,
      makes: named(missing.length > 0 ? missing.flatMap(({ takenBy = [] }) => takenBy) : all),
      on: ofWeek.map(({ on }) => on).toSorted()[0] ?? mondayOf(week),
      buyBy:
        [
          ...ofWeek.map(({ buyBy }) => buyBy),
          ...missing.flatMap(({ onList }) => (onList?.by === undefined ? [] : [onList.by])),
        ].toSorted()[0] ?? mondayOf(week),
      lastDay:
        ofWeek
          .map(({ lastDay }) => lastDay)
          .toSorted()
          .at(-1) ?? mondayOf(week),
      isBegunBefore: ofWeek.some(({ isBegunBefore }) => isBegunBefore),
      missing,
    };
  });
}

const named = (makes: readonly string[]): readonly string[] => [...new Set(makes)].sort();
