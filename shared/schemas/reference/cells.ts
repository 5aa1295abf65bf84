import { z } from 'zod';

/** Whether a figure was seen in the named text or only remembered. A remembered figure is never a schedule. */
export const basis = z.enum(['read', 'memory']);
export type Basis = z.output<typeof basis>;

/** Ids such as `USDA-G3`; each has a line in the table of sources. */
export const sourceKey = z.string().regex(/^[A-Z][A-Z0-9.-]*$/, 'Expected a source id like USDA-G3');

/** Keys such as `tomatoes-whole-water` or `hc_salsa`. */
export const tableKey = z
  .string()
  .regex(/^[a-z0-9][a-z0-9._-]*$/, 'Expected a key of small letters, digits, hyphens, dots or underscores');

const plainNumber = /^-?\d+(\.\d+)?$/;

/** A number written plainly: 0.25, 1001. */
export const numberCell = z
  .string()
  .regex(plainNumber, 'Expected a plain number such as 0.25 or 1001')
  .transform(Number);

/** A number, or nothing. An empty cell becomes `null`. */
export const optionalNumberCell = z
  .string()
  .refine((text) => text === '' || plainNumber.test(text), 'Expected a plain number or an empty cell')
  .transform((text) => (text === '' ? null : Number(text)));

export interface PrintedRange {
  readonly low: number;
  readonly high: number;
}

const rangeText = /^(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?$/;

const asRange = (text: string): PrintedRange => {
  const [, low, high] = rangeText.exec(text) ?? [];
  return { low: Number(low), high: Number(high ?? low) };
};

/** One number or a printed range: `9` or `8-9`. A single number has equal ends. */
export const rangeCell = z
  .string()
  .regex(rangeText, 'Expected a number or a range like 8-9')
  .transform(asRange)
  .refine((range) => range.low <= range.high, 'Expected the low end of the range first');

/** As rangeCell; an empty cell becomes `null`. */
export const optionalRangeCell = z
  .string()
  .refine(
    (text) => text === '' || rangeText.test(text),
    'Expected a number, a range like 8-9, or an empty cell',
  )
  .transform((text) => (text === '' ? null : asRange(text)));

/** Month and day without a year, `08-17`. */
export const monthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'Expected month and day like 08-17');

export const optionalMonthDay = z
  .string()
  .transform((text) => (text === '' ? null : text))
  .pipe(monthDay.nullable());
