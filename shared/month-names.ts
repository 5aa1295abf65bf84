/** The months in American English, January first: the one table that all words, forms and readers of dates go by. */
export const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** "Jan", "Feb" … */
export const shortMonthNames: readonly string[] = monthNames.map((name) => name.slice(0, 3));
