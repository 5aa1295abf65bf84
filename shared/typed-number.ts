import { numberFormatter } from './formatters.ts';

// The one reader of numbers that people type: forms, command options and lists. It reads what is plain and asks about
// what is not; it never guesses.

/** Which sign stands before the decimals where the household writes: `1,240.5` or `1.240,5`. */
export type DecimalSign = '.' | ',';

/** What was typed: a number; two numbers it may be, the larger first; or none. */
export type TypedNumber =
  | { readonly kind: 'number'; readonly value: number; readonly isPlain: boolean }
  | { readonly kind: 'unclear'; readonly larger: number; readonly smaller: number }
  | { readonly kind: 'none' };

export const decimalSignOf = (locale: string): DecimalSign =>
  numberFormatter(locale, {})
    .formatToParts(1.5)
    .some(({ type, value }) => type === 'decimal' && value === ',')
    ? ','
    : '.';

const none: TypedNumber = { kind: 'none' };

const digitsOfAllScripts = (text: string): string =>
  text.normalize('NFKC').replace(/\p{Nd}/gu, (digit) => {
    let zero = digit.codePointAt(0) ?? 0;
    while (/\p{Nd}/u.test(String.fromCodePoint(zero - 1)) && (digit.codePointAt(0) ?? 0) - zero < 9)
      zero -= 1;
    return String((digit.codePointAt(0) ?? 0) - zero);
  });

/** Marks people put between thousands that are never a decimal sign: spaces, apostrophes, the Arabic thousands mark. */
const groupMarks = /[\s'’ʼ´`\u066c]/g;

const number = (value: number, isPlain: boolean): TypedNumber =>
  Number.isFinite(value) ? { kind: 'number', value, isPlain } : none;

/**
 * Reads a number as typed. Digits of any script; thousands in groups of three by space, apostrophe, point or comma;
 * decimals after point or comma. `1.240` where the point stands before decimals, and `1,240` where the comma does, may be
 * either and is unclear. Hex, exponents, infinity and loose groups (`12 40`) are no numbers. Kitchen fractions (`1/2`,
 * `1 1/2`, `½`) are read where asked for. `isPlain` is false where another country would write it so.
 *
 * Examples, with a point before decimals: `1,240` is 1240; `1.5` and `1,5` are 1.5; `1.240` is 1240 or 1.24.
 */
export function readTypedNumber(
  typed: string,
  {
    decimalSign = '.',
    fractions = false,
  }: { readonly decimalSign?: DecimalSign; readonly fractions?: boolean } = {},
): TypedNumber {
  if (fractions) {
    const fraction = kitchenFraction(typed.trim());
    if (fraction !== null) return number(fraction, true);
  }
  if (/[\p{No}\p{Nl}]/u.test(typed)) return none;
  const text = digitsOfAllScripts(typed).trim().replaceAll('\u066b', decimalSign);
  const [, sign = '', body = ''] = /^([+\-\u2212]?)\s*(.*)$/s.exec(text) ?? [];
  const read = unsigned(body, decimalSign);
  if (sign === '' || sign === '+') return read;
  if (read.kind === 'number') return { ...read, value: -read.value };
  return read.kind === 'unclear' ? { kind: 'unclear', larger: -read.larger, smaller: -read.smaller } : none;
}

function unsigned(body: string, decimalSign: DecimalSign): TypedNumber {
  if (/[\s'’ʼ´`\u066c]/.test(body)) {
    if (!/^\d{1,3}(?:[\s'’ʼ´`\u066c]\d{3})+(?:[.,]\d+)?$/.test(body)) return none;
    return number(Number(body.replace(groupMarks, '').replace(',', '.')), true);
  }
  if (/^\d+$/.test(body)) return number(Number(body), true);
  const signs = body.replace(/\d/g, '');
  if (/^[.,]$/.test(signs)) return withOneSign(body, signs as DecimalSign, decimalSign);
  // Several of one kind group thousands; of two kinds the last one, standing once, comes before the decimals.
  if (/^\d{1,3}(?:,\d{3}){2,}$/.test(body) || /^\d{1,3}(?:\.\d{3}){2,}$/.test(body))
    return number(Number(body.replace(/[.,]/g, '')), !body.includes(decimalSign));
  if (/^\d{1,3}(?:,\d{3})+\.\d+$/.test(body))
    return number(Number(body.replaceAll(',', '')), decimalSign === '.');
  if (/^\d{1,3}(?:\.\d{3})+,\d+$/.test(body))
    return number(Number(body.replaceAll('.', '').replace(',', '.')), decimalSign === ',');
  return none;
}

function withOneSign(body: string, sign: DecimalSign, decimalSign: DecimalSign): TypedNumber {
  const [before = '', after = ''] = body.split(sign);
  if (after === '') return none;
  const asDecimal = Number(`${before || '0'}.${after}`);
  const mayGroup = after.length === 3 && /^[1-9]\d{0,2}$/.test(before);
  if (!mayGroup) return number(asDecimal, sign === decimalSign);
  if (sign !== decimalSign) return number(Number(before + after), true);
  return { kind: 'unclear', larger: Number(before + after), smaller: asDecimal };
}

/** The number where it is clear, `null` where it is none or may be two. */
export const clearNumberFrom = (text: string): number | null => {
  const read = readTypedNumber(text);
  return read.kind === 'number' ? read.value : null;
};

const vulgar: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅕': 1 / 5,
  '⅖': 2 / 5,
  '⅗': 3 / 5,
  '⅘': 4 / 5,
  '⅙': 1 / 6,
  '⅚': 5 / 6,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};

/** `1/2`, `1 1/2`, `1½` or `½`; `null` for anything else, a fraction over 0 included. */
function kitchenFraction(text: string): number | null {
  const sign = /^(\d{0,4})\s?([½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])$/.exec(text);
  if (sign) return Number(sign[1] || '0') + (vulgar[sign[2] ?? ''] ?? 0);
  const written = /^(?:(\d{1,4})[\s-])?(\d{1,2})[/\u2044](\d{1,2})$/.exec(text);
  if (!written || Number(written[3]) === 0) return null;
  return Number(written[1] ?? '0') + Number(written[2]) / Number(written[3]);
}
