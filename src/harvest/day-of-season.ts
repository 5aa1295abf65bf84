// Days of a year that is not a leap year, 1 to 365: what a table of many years means by month and day.

const monthStarts = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;
export const daysInYear = 365;

/** The number of a day like `08-17`, 1 to 365; February 29 counts as March 1. */
export const dayNumber = (monthDay: string): number => {
  const [month = '1', day = '1'] = monthDay.split('-');
  return (monthStarts[Number(month) - 1] ?? 0) + Number(day);
};

/** The day like `08-17` of a number; numbers beyond the year go on in the next one. Example: 366 is `01-01`. */
export const monthDayOf = (number: number): string => {
  const day = ((((Math.round(number) - 1) % daysInYear) + daysInYear) % daysInYear) + 1;
  const month = monthStarts.findLastIndex((start) => start < day);
  return `${String(month + 1).padStart(2, '0')}-${String(day - (monthStarts[month] ?? 0)).padStart(2, '0')}`;
};

/** The middle of a month, and no day before it: `05-01` and `05-15` are `05-15`, `05-21` stays. */
export const notBeforeMidMonth = (monthDay: string): string =>
  monthDay.slice(3) < '15' ? `${monthDay.slice(0, 3)}15` : monthDay;
