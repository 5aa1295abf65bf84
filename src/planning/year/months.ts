import { monthOf, type WeekKey } from '../../../shared/week.ts';

/** Months of the year from one to another, the last included; may run over the year's end. */
export interface MonthSpan {
  readonly fromMonth: number;
  readonly untilMonth: number;
}

/** Whether the week lies in the months; no months means any week. */
export function isInMonths(week: WeekKey, months: MonthSpan | null): boolean {
  if (months === null) return true;
  const month = monthOf(week);
  return months.fromMonth <= months.untilMonth
    ? months.fromMonth <= month && month <= months.untilMonth
    : month >= months.fromMonth || month <= months.untilMonth;
}
