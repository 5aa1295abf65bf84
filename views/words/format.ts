import { counted, pluralOf, wordFor } from '../../shared/counting.ts';
import { currencySign, firstCurrency } from '../../shared/currency.ts';
import type { Family } from '../../shared/family.ts';
import { dateFormatter, numberFormatter } from '../../shared/formatters.ts';
import type { JarKind, JarSize } from '../../shared/jar.ts';
import { mouthOf, sizeOf } from '../../shared/jar.ts';
import {
  celsiusFrom,
  feetPerMetre,
  litresPerQuart,
  millimetresPerInch,
  poundsPerKilogram,
} from '../../shared/measures.ts';
import type { Cents } from '../../shared/money.ts';
import { remembering } from '../../shared/remembering.ts';
import type { CalendarDate, WeekKey } from '../../shared/week.ts';
import { addDays, mondayOf } from '../../shared/week.ts';
import type { Reading } from './reading.ts';

// Every number, unit, date and amount of money a person reads is written here.

const noon = (date: CalendarDate): Date => new Date(`${date}T12:00:00Z`);

const dayStyle = { month: 'short', day: 'numeric' } as const;
const withYear = { year: 'numeric' } as const;
const dateStyles = {
  day: dayStyle,
  date: { ...dayStyle, ...withYear },
  weekday: { weekday: 'short', ...dayStyle },
  weekdayOfYear: { weekday: 'short', ...dayStyle, ...withYear },
  longDay: { weekday: 'long', month: 'long', day: 'numeric' },
  longDate: { weekday: 'long', month: 'long', day: 'numeric', ...withYear },
  weekdayName: { weekday: 'long' },
  month: { month: 'long' },
  shortMonth: { month: 'short' },
  monthOfYear: { month: 'short', ...withYear },
} as const satisfies Readonly<Record<string, Intl.DateTimeFormatOptions>>;

/** A page writes the same few days again and again. */
const dateText = remembering(
  (date: CalendarDate, locale: string, style: keyof typeof dateStyles): string =>
    dateFormatter(locale, { timeZone: 'UTC', ...dateStyles[style] }).format(noon(date)),
  { keyOf: (date, locale, style) => `${date} ${style} ${locale}`, most: 5000 },
);

/** A date of another year than the one it is read in carries its year. */
const isOfThisYear = (date: CalendarDate, { today }: Reading): boolean =>
  today === undefined || date.slice(0, 4) === today.slice(0, 4);

/** `Aug 17`; `Aug 17, 2027` where it is read in another year. */
export const formatDay = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, isOfThisYear(date, reading) ? 'day' : 'date');

/** `Dec 24`: a day that comes every year. */
export const formatYearlyDay = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'day');

/** `Sat, Aug 22`; with its year where it is read in another. */
export const formatWeekday = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, isOfThisYear(date, reading) ? 'weekday' : 'weekdayOfYear');

/** `Saturday, August 22`; with its year where it is read in another. */
export const formatLongDay = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, isOfThisYear(date, reading) ? 'longDay' : 'longDate');

/** `Saturday, August 22, 2026`: what is printed is read in any year. */
export const formatLongDate = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'longDate');

/** `Saturday` */
export const formatWeekdayName = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'weekdayName');

/** `Aug 17, 2026` */
export const formatDate = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'date');

/** `August` */
const formatMonth = (date: CalendarDate, reading: Reading): string => dateText(date, reading.locale, 'month');

/** `September`: the month that most of a week lies in. */
export const formatMonthOfWeek = (week: WeekKey, reading: Reading): string =>
  formatMonth(addDays(mondayOf(week), 3), reading);

/** `Aug` */
export const formatShortMonth = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'shortMonth');

/** `Aug 2026` */
export const formatMonthOfYear = (date: CalendarDate, reading: Reading): string =>
  dateText(date, reading.locale, 'monthOfYear');

/** The day a person says the week begins on: its Monday, or the Sunday before it. */
export const firstDayOf = (week: WeekKey, reading: Reading): CalendarDate =>
  reading.weekStartsOn === 'sunday' ? addDays(mondayOf(week), -1) : mondayOf(week);

/** `week of Aug 17`; `week of Jan 10, 2027` where it is read in another year. */
export const formatWeek = (week: WeekKey, reading: Reading): string =>
  `week of ${formatDay(firstDayOf(week, reading), reading)}`;

/** `1,234` or `1.5`: at most one decimal, none when whole. */
export const formatNumber = (value: number, reading: Reading, decimals = 1): string =>
  numbersWith(reading.locale, decimals).format(value);

const numbersWith = remembering(
  (locale: string, decimals: number) => numberFormatter(locale, { maximumFractionDigits: decimals }),
  { keyOf: (locale, decimals) => `${locale} ${decimals}`, most: 500 },
);

/** A sum in the household's money, `$12.50` or `€12.50`; without hundredths when asked. */
export const formatMoney = (amount: Cents, reading: Reading, whole = false): string =>
  sumsIn(reading.locale, reading.currency ?? firstCurrency, whole).format(amount / 100);

const sumsIn = remembering(
  (locale: string, currency: string, whole: boolean) =>
    numberFormatter(locale, { style: 'currency', currency, ...(whole ? { maximumFractionDigits: 0 } : {}) }),
  { keyOf: (locale, currency, whole) => `${locale} ${currency} ${whole}`, most: 500 },
);

/** The sign of the household's money, as its readers write it. */
export const moneySign = (reading: Reading): string =>
  currencySign(reading.currency ?? firstCurrency, reading.locale);

/** `2 h 15 min`, `45 min`, `3 h` */
export const formatMinutes = (minutes: number): string => {
  const rounded = Math.round(minutes);
  const hours = Math.floor(rounded / 60);
  const rest = rounded % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
};

const clockOptions = { hour: 'numeric', minute: '2-digit' } as const;

/** `9:05 AM`: minutes from midnight, of whichever day. */
export const formatTimeOfDay = (minutes: number, reading: Reading): string =>
  timeText(Math.round(minutes), reading.locale);

const timeText = remembering(
  (minutes: number, locale: string): string =>
    dateFormatter(locale, { timeZone: 'UTC', ...clockOptions }).format(new Date(minutes * 60_000)),
  { keyOf: (minutes, locale) => `${minutes} ${locale}`, most: 5000 },
);

/** `9:05 AM`: an instant, where the household lives. */
export const formatClock = (instantMs: number, timeZone: string, reading: Reading): string =>
  dateFormatter(reading.locale, { timeZone, ...clockOptions }).format(new Date(instantMs));

/** Units that are counted; what is measured keeps its word. */
const countedUnits: ReadonlySet<string> = new Set(
  'jar bag bin batch load lid pack box day week month plant serving cup session notice package pouch kind unit row label piece'.split(
    ' ',
  ),
);

/** Several of a thing, where no list names its plural: `peach` is `peaches`, `cherry` is `cherries`, `garlic` stays. */
export const severalOf = (word: string): string =>
  /(s|sh|fall|corn|garlic|lettuce|spinach|rhubarb|asparagus|okra|celery|kale)$/.test(word)
    ? word
    : pluralOf(word).replace(/os$/, 'oes');

/** The word of a unit for an amount of it: `cup`, `cups`, `lb`. */
export const unitFor = (amount: number, unit: string): string =>
  countedUnits.has(unit) ? wordFor(amount, unit) : unit;

/** What is weighed or measured, as metric readers weigh and measure it; how much of their unit one of ours is. */
const metricOf: Readonly<Record<string, readonly [unit: string, inOne: number]>> = {
  lb: ['kg', 1 / poundsPerKilogram],
  qt: ['L', litresPerQuart],
};

/** The unit its readers count in: pounds are kilograms and quarts liters for metric readers. */
export const readersUnit = (unit: string, { units }: Pick<Reading, 'units'>): string =>
  (units === 'metric' ? metricOf[unit]?.[0] : undefined) ?? unit;

/** An amount in the unit its readers count in, not rounded. */
export const inReadersUnit = (amount: number, unit: string, { units }: Pick<Reading, 'units'>): number =>
  amount * ((units === 'metric' ? metricOf[unit]?.[1] : undefined) ?? 1);

/** An amount that was said in the unit its readers count in, in ours. */
export const fromReadersUnit = (said: number, unit: string, reading: Pick<Reading, 'units'>): number =>
  said / inReadersUnit(1, unit, reading);

/** An amount with its unit, small and close: `12 jars`, `21 lb`, `8 qt`; pounds and quarts become kilograms and litres for metric readers. */
export const formatQuantity = (amount: number, unit: string, reading: Reading): string => {
  const shown = formatNumber(inReadersUnit(amount, unit, reading), reading);
  if (readersUnit(unit, reading) !== unit) return `${shown} ${readersUnit(unit, reading)}`;
  if (unit === 'each' || unit === 'unit') return shown;
  return countedUnits.has(unit) ? counted(shown, unit) : `${shown} ${unit}`;
};

/** `1,240 ft`; for metric readers the metres first, `378 m (1,240 ft)`: the tables are printed in feet. */
export const formatAltitude = (feet: number, reading: Reading): string => {
  const printed = `${formatNumber(feet, reading, 0)} ft`;
  return reading.units === 'metric'
    ? `${formatNumber(feet / feetPerMetre, reading, 0)} m (${printed})`
    : printed;
};

/** Inches as printed, `½ inch`; for metric readers with millimetres beside, `½ inch (13 mm)`. */
export const formatInches = (inches: number, printed: string, reading: Reading): string =>
  reading.units === 'metric'
    ? `${printed} ${inchWord(inches)} (${formatNumber(inches * millimetresPerInch, reading, 0)} mm)`
    : `${printed} ${inchWord(inches)}`;

const inchWord = (inches: number): string => wordFor(inches > 1 ? 2 : 1, 'inch');

/** A sentence in °F as printed; for metric readers each temperature, or span of them, with °C beside. */
export const withCelsius = (sentence: string, reading: Reading): string => {
  if (reading.units !== 'metric') return sentence;
  const celsius = (fahrenheit: string) => formatNumber(celsiusFrom(Number(fahrenheit)), reading, 0);
  return sentence.replaceAll(
    /(?:(\d+(?:\.\d+)?)( to | and |–))?(\d+(?:\.\d+)?) °F(?! \()/g,
    (printed, from: string | undefined, joint: string | undefined, to: string) =>
      from === undefined
        ? `${printed} (${celsius(to)} °C)`
        : `${printed} (${celsius(from)}${joint}${celsius(to)} °C)`,
  );
};

const fractionSigns: Readonly<Record<string, number>> = {
  '⅛': 1 / 8,
  '¼': 1 / 4,
  '⅓': 1 / 3,
  '⅜': 3 / 8,
  '½': 1 / 2,
  '⅝': 5 / 8,
  '⅔': 2 / 3,
  '¾': 3 / 4,
  '⅞': 7 / 8,
};

/** `1½` */
const inchesIn = (printed: string): number => {
  const sign = printed.at(-1) ?? '';
  const part = fractionSigns[sign];
  return part === undefined ? Number(printed) : Number(printed.slice(0, -1) || '0') + part;
};

/**
 * A sentence of a guide as printed; for metric readers °C, millimeters and meters stand beside, never in place of the printed
 * figure: `Leave ½ inch (13 mm) free below the rim.`
 */
export const withMetric = (sentence: string, reading: Reading): string => {
  if (reading.units !== 'metric') return sentence;
  const millimetres = (inches: number) => formatNumber(inches * millimetresPerInch, reading, 0);
  return withCelsius(sentence, reading)
    .replaceAll(
      /(?:(\d*[\d⅛¼⅓⅜½⅝⅔¾⅞])( to ))?(\d*[\d⅛¼⅓⅜½⅝⅔¾⅞]) inch(?:es)?\b(?! \()/g,
      (printed, from: string | undefined, joint: string | undefined, to: string) =>
        `${printed} (${from === undefined ? '' : `${millimetres(inchesIn(from))}${joint}`}${millimetres(inchesIn(to))} mm)`,
    )
    .replaceAll(/\ban inch\b/g, (printed) => `${printed} (${millimetres(1)} mm)`)
    .replaceAll(
      /(\d[\d,]*) ft\b(?!\))/g,
      (printed, feet: string) =>
        `${printed} (${formatNumber(Number(feet.replaceAll(',', '')) / feetPerMetre, reading, 0)} m)`,
    )
    .replaceAll(
      /\(at (\d[\d,]*) ft\)/g,
      (_, feet: string) =>
        `(at ${feet} ft, ${formatNumber(Number(feet.replaceAll(',', '')) / feetPerMetre, reading, 0)} m)`,
    );
};

/** `10 to 14 jars`; one figure when both ends read the same. */
export const formatRange = (low: number, high: number, unit: string, reading: Reading): string => {
  const from = formatNumber(low, reading, 0);
  const until = formatNumber(high, reading, 0);
  return from === until
    ? formatQuantity(Number(low.toFixed(0)), unit, reading)
    : `${from} to ${formatQuantity(Math.round(high), unit, reading)}`;
};

/** `5 %` */
export const formatPercent = (share: number, reading: Reading, decimals = 1): string =>
  `${formatNumber(share * 100, reading, decimals)}%`;

export const jarSizeWords: Readonly<Record<JarSize, string>> = {
  'quarter-pint': 'quarter-pint',
  'half-pint': 'half-pint',
  '12-oz': '12 oz',
  pint: 'pint',
  '24-oz': '24 oz',
  '28-oz': '28 oz',
  quart: 'quart',
  'half-gallon': 'half-gallon',
  '250-ml': '250 mL',
  '500-ml': '500 mL',
  '1-l': '1 L',
};

/** `pint, wide mouth` */
export const formatJarKind = (kind: JarKind): string =>
  `${jarSizeWords[sizeOf(kind)]}, ${mouthOf(kind)} mouth`;

/** What one and several jars of a kind are called: `pint` and `pints`, `jar of 500 mL` and `jars of 500 mL`. */
export const jarWord = (kind: JarKind): { readonly one: string; readonly many: string } => {
  const words = jarSizeWords[sizeOf(kind)];
  return /\d/.test(words)
    ? { one: `jar of ${words}`, many: `jars of ${words}` }
    : { one: words, many: pluralOf(words) };
};

/** `14 pints`, `1 quart`, `6 half-pints`, `4 jars of 500 mL` */
export const formatJars = (count: number, kind: JarKind, reading: Reading): string => {
  const { one, many } = jarWord(kind);
  return counted(formatNumber(count, reading), one, many);
};

export const familyWords: Readonly<Record<Family, string>> = {
  'stone-fruit': 'Stone fruit',
  berries: 'Berries',
  'apples-pears': 'Apples and pears',
  tomatoes: 'Tomatoes',
  'greens-beans': 'Greens and beans',
  roots: 'Roots',
  pickles: 'Pickles',
  'dry-goods': 'Dry goods',
  'meat-stock': 'Meat and stock',
};
