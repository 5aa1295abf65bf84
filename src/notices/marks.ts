import { counted } from '../../shared/counting.ts';
import { dateWords } from '../../shared/date-words.ts';
import type { CalendarDate } from '../../shared/week.ts';

// A notice's sentence holds its days and measured amounts as data between two signs that no name and no note may have, until its
// reader writes them out: `Buy ␂6 lb␃ of onions by ␂2026-08-12␃.` Nobody looks for figures in the words themselves.

const begins = '\u0002';
const ends = '\u0003';

/** What is measured in pounds or quarts, which some read as kilograms or liters. */
const measured = ['lb', 'qt'] as const;
export type MeasuredIn = (typeof measured)[number];

/** How the days and measured amounts of a sentence are written out. */
export interface NoticeReader {
  readonly day: (date: CalendarDate) => string;
  readonly amount: (amount: number, unit: MeasuredIn) => string;
}

/** In pounds and quarts, the month first. */
export const plainReader: NoticeReader = {
  day: dateWords,
  amount: (amount, unit) => counted(amount, unit, unit),
};

export const dayMark = (date: CalendarDate): string => `${begins}${date}${ends}`;

const amountMark = (amount: number, unit: MeasuredIn): string => `${begins}${amount} ${unit}${ends}`;

/** "2.5 lb" as data where its reader may measure otherwise; else the words for it. */
export function measuredMark(
  amount: number,
  { one, many }: { readonly one: string; readonly many: string },
): string {
  const unit = measured.find((known) => known === one);
  return unit === undefined ? counted(amount, one, many) : amountMark(amount, unit);
}

/** The sentence as its reader has it. */
export function readOut(sentence: string, reader: NoticeReader): string {
  const [first = '', ...marked] = sentence.split(begins);
  return [
    first,
    ...marked.map((part) => {
      const end = part.indexOf(ends);
      return `${writtenOut(part.slice(0, end), reader)}${part.slice(end + 1)}`;
    }),
  ].join('');
}

function writtenOut(data: string, { day, amount }: NoticeReader): string {
  const [figure = '', unitSaid] = data.split(' ');
  const unit = measured.find((known) => known === unitSaid);
  return unit === undefined ? day(figure as CalendarDate) : amount(Number(figure), unit);
}
