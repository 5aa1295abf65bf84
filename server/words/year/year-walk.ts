import { isOrAre, wordFor } from '../../../shared/counting.ts';
import type { Item } from '../../../src/household/item.ts';
import type { NeedPart, YearWalk } from '../../../src/planning/year/year-walk.ts';
import { chanceWords } from '../../../src/shelf/run-out-words.ts';
import { formatJars, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { amountOf, figureOf } from '../shelf-units.ts';

/** One line of the walk from what a year needs to what is still missing. */
export interface WalkLine {
  readonly what: string;
  readonly why: string;
  readonly units: string;
  /** A sum of what stands above it. */
  readonly isSum: boolean;
}

interface WalkSetting {
  readonly hasPlan: boolean;
  readonly isBought: boolean;
}

/** `32 quarts`; null where the year needs none. */
export const needWords = (item: Item, walk: YearWalk | null, reading: Reading): string | null =>
  walk === null || walk.need <= 0 ? null : amountOf(item, walk.need, reading);

/** `A year needs 32 quarts. On the shelf: 13 quarts. The plan makes 15 more; 4 are still missing.` */
export function walkSentence(
  item: Item,
  walk: YearWalk | null,
  reading: Reading,
  { hasPlan, isBought, isUnsaid }: WalkSetting & { readonly isUnsaid: boolean },
): string {
  const stands = walk?.standing ?? 0;
  const has = stands === 0 ? 'None is on the shelf.' : `On the shelf: ${standingWords(item, walk, reading)}.`;
  const need = needWords(item, walk, reading);
  if (walk === null || need === null)
    return `Nothing is planned, because nobody has said how much you eat. ${has}`;
  const bySight = isUnsaid ? ', going by what you took alone: nobody has said how much you eat' : '';
  const beyond =
    walk.carryOver > 0
      ? ` ${figureOf(item, walk.carryOver, reading)} more ${carryOverWords(walk.carryOver, isBought)}.`
      : '';
  return `A year needs ${need}${bySight}.${beyond} ${has} ${toComeWords(item, walk, reading, { hasPlan, isBought })}`;
}

const carryOverWords = (units: number, isBought: boolean): string =>
  isBought
    ? 'should be there when the year ends'
    : `${wordFor(units, 'has', 'have')} to last from then until you can make more`;

/** `The plan makes 15 more, and 4 are still missing.`; without a plan what is missing alone. */
function toComeWords(
  item: Item,
  walk: YearWalk,
  reading: Reading,
  { hasPlan, isBought }: WalkSetting,
): string {
  const missing = `${figureOf(item, walk.missing, reading)} ${isOrAre(walk.missing)} still missing`;
  const enough =
    walk.letGo > 0 ? `enough but for ${letGoWords(figureOf(item, walk.letGo, reading))}` : 'enough';
  if (!hasPlan || walk.planned === 0) return walk.missing > 0 ? `${missing}.` : `That is ${enough}.`;
  const plan = `The plan ${isBought ? 'buys' : 'makes'} ${figureOf(item, walk.planned, reading)} more`;
  return walk.missing > 0 ? `${plan}, and ${missing}.` : `${plan}: ${enough}.`;
}

/** `3 of the reserve, for which one more batch would mostly be left over` */
const letGoWords = (figure: string): string => `${figure} of the reserve, for which ${batchTooMany}`;
const batchTooMany = 'one more batch would mostly be left over';

/** `14 pints (3 quarts among them)`: jars of other sizes are converted, and said. */
function standingWords(item: Item, walk: YearWalk | null, reading: Reading): string {
  const amount = amountOf(item, walk?.standing ?? 0, reading);
  const others = otherJarsWords(walk, reading);
  return others === null ? amount : `${amount}, ${others}`;
}

/** `counting 3 quarts`; null where all jars are the item's own. */
const otherJarsWords = (walk: YearWalk | null, reading: Reading): string | null =>
  walk === null || walk.otherJars.length === 0
    ? null
    : `counting ${listed(walk.otherJars.map(({ kind, jars }) => formatJars(jars, kind, reading)))} by what they hold`;

const partWords: Readonly<Record<NeedPart, { readonly what: string; readonly why: string }>> = {
  use: { what: 'everyday use', why: '' },
  occasions: { what: 'occasions', why: 'on their days, at our table' },
  gifts: { what: 'gifts', why: 'on their days, given away' },
  promised: { what: 'promised', why: 'kept back until their day' },
  hungryYear: { what: 'reserve for a hungry year', why: '' },
  failedCrop: { what: 'reserve for a failed crop', why: 'as often as its source fails' },
  byHand: { what: 'set by hand', why: 'in place of use and reserve' },
  emergency: { what: 'emergency shelf', why: 'always there, the oldest eaten first' },
};

/** The walk line by line: what the year needs and its sum, what stands, what is planned, what is still missing. */
export function walkLines(
  item: Item,
  walk: YearWalk,
  reading: Reading,
  {
    hasPlan,
    isBought,
    perWeek,
    useWeeks,
  }: WalkSetting & { readonly perWeek: number; readonly useWeeks: number },
): readonly WalkLine[] {
  const figure = (units: number) => figureOf(item, units, reading);
  const line = (what: string, why: string, units: string, isSum = false): WalkLine => ({
    what,
    why,
    units,
    isSum,
  });
  const whyOf = (part: NeedPart): string => {
    if (part === 'use' && perWeek > 0)
      return `${formatNumber(useWeeks, reading, 0)} ordinary weeks at ${figureOf(item, perWeek, reading, perWeek < 0.1 ? 2 : 1)} a week`;
    return part === 'hungryYear' ? `so that it lasts ${chanceWords(item.chanceWanted)}` : partWords[part].why;
  };
  return [
    ...walk.parts.map(({ part, units }) => line(partWords[part].what, whyOf(part), figure(units))),
    line('a year needs', 'together', figure(walk.need), true),
    ...(walk.carryOver > 0
      ? [
          line(
            'for after the year',
            isBought ? 'some on the day it ends' : 'until more can be made',
            figure(walk.carryOver),
          ),
        ]
      : []),
    line('on the shelf', otherJarsWords(walk, reading) ?? '', lessWords(figure(walk.standing))),
    ...(hasPlan
      ? [
          line(
            isBought ? 'the plan buys' : 'the plan makes',
            'from this week on',
            lessWords(figure(walk.planned)),
          ),
        ]
      : []),
    ...(walk.letGo > 0 ? [line('let go', batchTooMany, lessWords(figure(walk.letGo)))] : []),
    walk.over > 0
      ? line(
          'more than that',
          hasPlan
            ? `whole ${isBought ? 'packs' : 'batches'}, or on the shelf already`
            : 'on the shelf already',
          figure(walk.over),
          true,
        )
      : line('still missing', '', figure(walk.missing), true),
  ];
}

/** `−13`: taken off what is needed. */
const lessWords = (figure: string): string => (figure === '0' ? '0' : `−${figure}`);
