import type { WeekKey } from '../../shared/week.ts';

/** One week of an item's history, as `useHistory` makes it from the ledger. */
export interface WeekOfUse {
  readonly week: WeekKey;
  /** Units eaten: tapped, plus this week's part of what counts of the shelf revealed. May be fractional. */
  readonly taken: number;
  /** Share of the week, 0..1, in which a unit could have been taken and would have been noticed. */
  readonly exposure: number;
  /** Of `taken`, the part seen only at a count. */
  readonly foundAtCount?: number;
  /** Weeks with the same number were read off one shelf count, so only their sum was really observed. */
  readonly countInterval?: number;
  /** Somebody said that nothing special made this week as full as it was. */
  readonly isOrdinary?: true;
}
