import { z } from 'zod';
import { type Bound, boundInWords, bounds } from '../../shared/bounds.ts';
import { cropKey, itemId } from '../../shared/ids.ts';
import { jarKind, jarSize } from '../../shared/jar.ts';
import { isOneLine } from '../../shared/schemas/one-line.ts';
import { addDays, calendarDate, firstYear, isDay, lastYear, weekKey } from '../../shared/week.ts';

export type Cell = string | number | null;

/** What a column of a household file may hold: the same as the form that fills it, as a saved value instead of a typed one. */
export interface ColumnKind {
  /** After “Expected”. */
  readonly expected: string;
  readonly schema: z.ZodType;
  /** The column may be left out: it may be empty, or the schema of the database has a value for it. */
  readonly mayBeMissing: boolean;
  readonly mayBeEmpty: boolean;
  /** Of a number a household says; of a text, how many letters at most. */
  readonly bound?: Bound;
  readonly longest?: number;
}

const kind = (expected: string, schema: z.ZodType): ColumnKind => ({
  expected,
  schema,
  mayBeMissing: false,
  mayBeEmpty: false,
});

/** Nothing said is a value as well. */
export const orNone = (one: ColumnKind): ColumnKind => ({
  ...one,
  expected: `${one.expected}, or nothing`,
  schema: one.schema.nullable(),
  mayBeMissing: true,
  mayBeEmpty: true,
});

/** Files of earlier versions lack the column; the database then fills in what was true before it was there. */
export const withDefault = (one: ColumnKind): ColumnKind => ({ ...one, mayBeMissing: true });

/** A text of one line; `least` is 0 for a note that may be left empty. */
export const line = (longest: number, least: 0 | 1 = 1): ColumnKind => ({
  ...kind(
    `${least === 0 ? 'a text' : 'a text that is not empty,'} of one line of at most ${longest} letters without hidden signs`,
    z.string().min(least).max(longest).refine(isOneLine),
  ),
  longest,
});

/** A number a household says, within the bound that its form has as well. */
export const within = (bound: Bound): ColumnKind => ({
  ...kind(
    boundInWords(bound),
    bound.whole ? z.number().int().min(bound.from).max(bound.to) : z.number().min(bound.from).max(bound.to),
  ),
  bound,
});

/** A sum of money, kept in cents; `sum` as its form says it. */
export const centsOf = (sum: Bound): ColumnKind => {
  const bound: Bound = { from: sum.from * 100, to: sum.to * 100, whole: true };
  return {
    ...kind(
      `whole cents from ${bound.from.toLocaleString('en-US')} to ${bound.to.toLocaleString('en-US')}`,
      within(bound).schema,
    ),
    bound,
  };
};

export const flag: ColumnKind = kind('0 or 1', z.union([z.literal(0), z.literal(1)]));

export const oneOf = (choices: readonly string[]): ColumnKind =>
  kind(`one of ${choices.map((choice) => `“${choice}”`).join(', ')}`, z.enum(choices));

export const slug: ColumnKind = kind('an id of small letters, digits and hyphens', itemId);
export const crop: ColumnKind = kind('a crop, in small letters and hyphens', cropKey);
export const jar: ColumnKind = kind('a jar like “pint/regular”', jarKind);
export const size: ColumnKind = kind('a size of jar like “pint”', jarSize);
export const week: ColumnKind = kind(
  `a week like “2026-W34” of the years ${firstYear} to ${lastYear}`,
  weekKey,
);

const dayWords = `a day like “2026-08-17” of the years ${firstYear} to ${lastYear}`;
export const day: ColumnKind = kind(dayWords, calendarDate);

/** A day of any year. */
export const monthDay: ColumnKind = kind(
  'a day of any year like “05-12”',
  z.string().refine((text) => /^\d{2}-\d{2}$/.test(text) && isDay(`2001-${text}`)),
);

/** A minute on the kitchen's clock, without a zone. */
export const minuteOfClock: ColumnKind = kind(
  `a day and time like “2026-08-12T21:00” of the years ${firstYear} to ${lastYear}`,
  z.string().refine((text) => /^.{10}T([01]\d|2[0-3]):[0-5]\d$/.test(text) && isDay(text.slice(0, 10))),
);

const farthest = addDays(calendarDate.parse(`${lastYear}-12-31`), 4000);
/** A day that follows from another one: the end of a span that is not part of it, a best-by date years after. */
export const dayAfter: ColumnKind = kind(
  dayWords,
  z.string().refine((text) => isDay(text) && text >= `${firstYear}` && text <= farthest),
);

/** An instant, milliseconds since 1970, before the last year's end. */
const lastInstant = Date.UTC(lastYear + 1, 0, 1);
export const instant: ColumnKind = kind(
  'an instant, milliseconds since 1970',
  z.number().int().min(0).max(lastInstant),
);

/** Text that is JSON of that shape. */
export const json = (expected: string, shape: z.ZodType, longest = 200_000): ColumnKind =>
  kind(
    expected,
    z
      .string()
      .max(longest)
      .refine((text) => {
        try {
          return shape.safeParse(JSON.parse(text)).success;
        } catch {
          return false;
        }
      }),
  );

/** An id or a key of the program's own making. */
export const key: ColumnKind = line(300);
export const month: ColumnKind = within(bounds.month);
/** What is numbered in the order of writing. */
export const sequence: ColumnKind = within({ from: 1, to: 10_000_000, whole: true });
