import { compare } from '../../shared/compare.ts';
import { addDays, type CalendarDate } from '../../shared/week.ts';
import { isKeptTooLong } from './best-quality.ts';

/** What of a lot says whether it is eaten first. */
export interface DatedLot {
  readonly id: string;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  /** Last day on which it is kept; null where there is no limit. */
  readonly keptUntil: CalendarDate | null;
  /** Null while it may be eaten. */
  readonly setAside: object | null;
}

/** Is a best-quality date at most `leadDays` away, or past? */
export const nearsItsDate = (
  { bestQualityUntil }: Pick<DatedLot, 'bestQualityUntil'>,
  asOf: CalendarDate,
  leadDays: number,
): boolean => asOf >= addDays(bestQualityUntil, -leadDays);

/**
 * What to eat first: of lots with something left, those that may be eaten today and whose best-quality date is at most
 * `leadDays` away or past, the earliest date first (first expired, first out). Lots not ready yet, set aside,
 * or kept longer than the household keeps them are left out: those are thrown away.
 */
export const eatFirst = <Lot extends DatedLot>(
  lots: readonly Lot[],
  asOf: CalendarDate,
  leadDays: number,
): readonly Lot[] =>
  lots
    .filter(
      (lot) =>
        lot.setAside === null &&
        lot.readyFrom <= asOf &&
        !isKeptTooLong(lot, asOf) &&
        nearsItsDate(lot, asOf, leadDays),
    )
    .toSorted(
      (one, other) => compare(one.bestQualityUntil, other.bestQualityUntil) || compare(one.id, other.id),
    );
