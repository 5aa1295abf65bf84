import { z } from 'zod';
import { weekKey } from '../week.ts';

/** What a household answers of a week that took more than any before. */
export const fullWeekForm = z.object({
  week: weekKey,
  answer: z.enum(['once', 'every-year', 'ordinary']),
});

const monthsOf = { winter: [12, 1, 2], spring: [3, 4, 5], summer: [6, 7, 8], fall: [9, 10, 11] } as const;
/** What "mostly" leaves to the other months, in percent. Judged, no source. */
const elsewherePercent = { some: 25, none: 0 } as const;

/** "We eat it mostly in winter", said before anything was seen; the months are those of the meteorological seasons. */
export const mostlyForm = z
  .object({
    mostly: z.enum(['winter', 'spring', 'summer', 'fall', 'all-year']),
    elsewhere: z.enum(['some', 'none']),
  })
  .transform(({ mostly, elsewhere }) =>
    Array.from({ length: 12 }, (_, at) =>
      mostly === 'all-year' || (monthsOf[mostly] as readonly number[]).includes(at + 1)
        ? 100
        : elsewherePercent[elsewhere],
    ),
  );
