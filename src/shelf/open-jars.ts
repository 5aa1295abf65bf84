import { compare } from '../../shared/compare.ts';
import { addDays, type CalendarDate } from '../../shared/week.ts';

/** One line of an item's ledger, as far as opening and finishing jars goes; undone lines are left out beforehand. */
export interface JarHappening {
  readonly lotId: string;
  readonly kind: 'opened' | 'finished';
  /** The day the jar was opened, for both kinds: a finished jar says which opening it ends. */
  readonly openedOn: CalendarDate;
  /** Jars, above 0. */
  readonly jars: number;
}

/** Jars of one batch that were opened on one day and that nobody said are finished. */
export interface OpenJars {
  readonly lotId: string;
  readonly openedOn: CalendarDate;
  readonly jars: number;
  /** Last day on which what is left may be eaten, kept cold. */
  readonly eatBy: CalendarDate;
  readonly isPast: boolean;
}

/** After its limit an open jar is shown so long, to be thrown away; then it is taken as gone. Our own choice. */
const shownPastDays = 7;

/**
 * Jars that stand open in the refrigerator, the soonest limit first: opened, not said to be finished, and at most
 * `shownPastDays` past their limit. Saying that a jar is finished is a choice, so what nobody finishes fades by itself.
 *
 * eatBy = openedOn + keepColdDays. Throws RangeError for a limit below 0.
 */
export function openJars(
  happenings: readonly JarHappening[],
  keepColdDays: number,
  asOf: CalendarDate,
): readonly OpenJars[] {
  if (!(keepColdDays >= 0)) throw new RangeError(`openJars: expected 0 or more days, got ${keepColdDays}`);
  const openings = new Map<string, { lotId: string; openedOn: CalendarDate; jars: number }>();
  for (const { lotId, kind, openedOn, jars } of happenings) {
    const key = `${lotId} ${openedOn}`;
    const opening = openings.get(key) ?? { lotId, openedOn, jars: 0 };
    openings.set(key, { ...opening, jars: opening.jars + (kind === 'opened' ? jars : -jars) });
  }
  return [...openings.values()]
    .map((opening) => {
      const eatBy = addDays(opening.openedOn, keepColdDays);
      return { ...opening, eatBy, isPast: eatBy < asOf };
    })
    .filter(({ jars, eatBy }) => jars > 0 && asOf <= addDays(eatBy, shownPastDays))
    .sort((one, other) => compare(one.eatBy, other.eatBy) || compare(one.lotId, other.lotId));
}
