import { counted } from '../../shared/counting.ts';
import { monthNames } from '../../shared/month-names.ts';
import { addDays, mondayOf, type WeekKey } from '../../shared/week.ts';
import { dayMark, measuredMark } from './marks.ts';
import type { NoticePicture, UnitWord } from './notice-picture.ts';

/** "the week of Aug 17, 2026", or of Aug 16 for a household whose weeks begin on Sunday. */
export const weekOfWords = (week: WeekKey, startsOn: NoticePicture['weekStartsOn']): string =>
  `the week of ${dayMark(addDays(mondayOf(week), startsOn === 'sunday' ? -1 : 0))}`;

/** What is whole or not there; anything else has a measure, a bag of flour too. */
const isCounted = ({ one }: UnitWord): boolean =>
  /^(jar|bin|piece|pack|(quarter-|half-)?pint|quart|half-gallon)$|^jar of |\b(jars|lids)\b/.test(one);

/**
 * "3 jars", "1 jar", "2.5 lb": what is counted is a whole number, what is measured has at most one decimal. Something is never
 * said to be 0: "less than 0.1 lb".
 */
export function amountWords(amount: number, unit: UnitWord): string {
  if (!isCounted(unit))
    return amount > 0 && rounded(amount) === 0
      ? `less than ${measuredMark(0.1, unit)}`
      : decimalWords(amount, unit);
  const whole = Math.round(amount);
  return amount > 0 && whole === 0 ? `less than 1 ${unit.one}` : counted(whole, unit.one, unit.many);
}

const rounded = (amount: number): number => Math.round(amount * 10) / 10;

const decimalWords = (amount: number, unit: UnitWord): string => measuredMark(rounded(amount), unit);

/** ` (2 packs)`; nothing for what is bought singly. */
export const packsWords = (packs: number | null): string =>
  packs === null ? '' : ` (${amountWords(packs, { one: 'pack', many: 'packs' })})`;

/** "in December", "from June to August"; neighboring months in order, 1 is January. */
export function monthsWords(months: readonly number[]): string {
  const name = (month: number | undefined): string => monthNames[(month ?? 1) - 1] ?? '';
  return months.length === 1 ? `in ${name(months[0])}` : `from ${name(months[0])} to ${name(months.at(-1))}`;
}

/** "2 jars a week", "3 jars every 2 weeks", "0.5 lb a week"; less than one a week is said as one every so many weeks. */
export function paceWords(perWeek: number, unit: UnitWord): string {
  if (perWeek >= 0.75) return perWeekWords(perWeek, unit);
  const weeks = Math.round(1 / perWeek);
  return weeks > 26 ? 'one or two a year' : `one every ${counted(Math.max(2, weeks), 'week')}`;
}

/** What is counted is said in whole ones, of two weeks where one week has a half. */
function perWeekWords(perWeek: number, unit: UnitWord): string {
  if (!isCounted(unit)) return `${decimalWords(perWeek, unit)} a week`;
  const inTwo = Math.round(2 * perWeek);
  return inTwo % 2 === 0 || perWeek >= 5
    ? `${amountWords(perWeek, unit)} a week`
    : `${amountWords(inTwo, unit)} every 2 weeks`;
}

/** "a, b and c"; "a, b or c" of what there is none. */
export function listWords(parts: readonly string[], joined: 'and' | 'or' = 'and'): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} ${joined} ${parts.at(-1)}`;
}

/** The same words with a capital, to begin a sentence. */
export const atStart = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
