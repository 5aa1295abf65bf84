import { isOrAre } from '../../../shared/counting.ts';
import { addWeeks, type WeekKey } from '../../../shared/week.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import { chanceWords, weekWords } from '../../../src/shelf/run-out-words.ts';
import type { YearRow } from '../../../views/pages/year/year-boards.tsx';
import { formatMonthOfWeek, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed, sentenceCase } from '../../../views/words/sentences.ts';
import { amountOf, figureAndUnit } from '../../words/shelf-units.ts';
import { gapWords, runsOut } from '../../words/year/run-out.ts';
import { leastUnit } from '../../year/what-is-missing.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import type { YearReader } from '../shared/present-board.ts';

/** One item's year in words, and the same as one sentence: `12 left. Lasts to early March. Next peaches in August. Make 20.` */
export interface YearWords extends Omit<YearRow, 'key' | 'item' | 'href' | 'board'> {
  readonly sentence: string;
  /** What of it is still to come: `Next peaches in August. Make 20.` */
  readonly ahead: string;
}

export const yearWords = (itemYear: ItemYear, reader: YearReader): YearWords => {
  const { reading, picture } = reader;
  const amount = amountOf(itemYear.item, itemYear.unitsOnShelf, reading);
  const { figure, unit } = figureAndUnit(amount);
  const lasts = lastsWords(itemYear, picture);
  const next = nextWords(itemYear, reader);
  const toCome = unitsToCome(itemYear, picture);
  const make = toCome <= 0 || itemYear.missing !== null ? null : formatNumber(toCome, reading);
  const missing = itemYear.walk?.missing ?? 0;
  const short =
    make === null || picture.plan === null || missing <= 0
      ? null
      : `${formatNumber(missing, reading)} ${isOrAre(missing)} still missing`;
  const makeVerb = itemYear.supply.by === 'bought' ? 'Buy' : 'Make';
  const isGone = itemYear.unitsToEat <= 0;
  const bare = gapWords(itemYear, picture.asOf);
  const instead = insteadWords(itemYear, reader);
  const now = [
    itemYear.unitsOnShelf <= 0 ? 'None left.' : `${amount} left${emergencyWords(itemYear, reading)}.`,
    itemYear.forecast === null || isGone ? '' : `Lasts ${lasts}.`,
    bare === null ? '' : `${sentenceCase(bare)}.`,
  ];
  const ahead = [
    `Next ${next}.`,
    make !== null
      ? `${makeVerb} ${make}${short === null ? '' : `; ${short}`}.`
      : instead.step === null
        ? ''
        : `${sentenceCase(instead.words)}.`,
  ];
  return {
    left: figure,
    unit,
    lasts,
    isGone,
    bare,
    sure:
      // Where nothing can come there is no “till then”; nor where the shop has it any week, and none is bought for some.
      itemYear.projection === null ||
      itemYear.missing !== null ||
      (itemYear.supply.by === 'bought' && bare !== null)
        ? ''
        : chanceWords(Math.min(1, Math.max(0, itemYear.projection.chanceOfLasting))),
    next,
    make,
    short,
    makeVerb,
    instead,
    ahead: said(ahead),
    sentence: said([...now, ...ahead]),
  };
};

/** `, 6 of them kept for an emergency`. */
const emergencyWords = ({ unitsOnShelf, unitsToEat }: ItemYear, reading: Reading): string => {
  const kept = unitsOnShelf - unitsToEat;
  if (kept <= 0) return '';
  return unitsToEat <= 0
    ? ', all kept for an emergency'
    : `, ${formatNumber(kept, reading)} of them kept for an emergency`;
};

const said = (sentences: readonly string[]): string => sentences.filter((words) => words !== '').join(' ');

/** What stands in place of a number to make: nothing is called enough that is bare, or that the plan serves too little. */
const insteadWords = (itemYear: ItemYear, { picture }: YearReader): YearRow['instead'] => {
  const { item, missing, forecast, unitsOnShelf } = itemYear;
  if (missing !== null) return { words: missing.words, step: missing.step };
  if (forecast === null)
    return unitsOnShelf >= leastUnit
      ? { words: 'nothing planned', step: null }
      : {
          words: 'you have not said how much you eat',
          step: { words: 'Say how much you eat', href: `/targets/${item.id}` },
        };
  if (isShort(itemYear, picture))
    return {
      words: 'the plan has no room for more',
      step: picture.plan?.plan.gaveWay.some(({ what }) => what === item.id)
        ? { words: 'See what doesn’t fit', href: '/year#gave-way' }
        : { words: 'Plan again', href: '/year#plan-status' },
    };
  return { words: unitsOnShelf >= leastUnit ? 'enough' : 'none wanted', step: null };
};

/** It runs out under the plan, or something is missing of what the year needs or the family at least wants. */
const isShort = (itemYear: ItemYear, { plan }: YearPicture): boolean =>
  runsOut(itemYear) ||
  (itemYear.walk?.missing ?? 0) > 0 ||
  (plan?.plan.gaveWay ?? []).some(
    ({ rung, what, amount }) => what === itemYear.item.id && amount >= 1 && rung === 'family minimum',
  );

/** How long what stands today lasts, nothing made or bought. */
const lastsWords = ({ runOut, unitsOnShelf, unitsToEat }: ItemYear, { asOf }: YearPicture): string => {
  if (runOut === null) return 'as long as nobody eats it';
  if (unitsOnShelf <= 0) return 'none now';
  if (unitsToEat <= 0) return 'kept for an emergency';
  const likely = runOut.p50;
  if (likely === null) return 'all year';
  return weekWords(asOf, likely).until;
};

/** When it can be had again: `peaches in August`, `cucumbers now, ready in September`, `any week in the shop`. */
const nextWords = ({ supply, item, missing }: ItemYear, reader: YearReader): string => {
  const { picture, reading } = reader;
  if (supply.by === 'bought') return 'any week in the shop';
  if (missing !== null) return 'nothing yet';
  if (supply.nextSupplyWeek === null) return 'none planned';
  const crops = cropsOf(item.id, reader);
  const what = crops.length === 0 ? 'a batch' : listed(crops);
  const monthOf = (week: WeekKey) => `in ${formatMonthOfWeek(week, reading)}`;
  const made = addWeeks(supply.nextSupplyWeek, -curingWeeks(item.id, picture));
  const when = made <= (picture.loaded.year.weeks[1] ?? '') ? 'now' : monthOf(made);
  const ready = monthOf(supply.nextSupplyWeek);
  return made === supply.nextSupplyWeek || ready === when
    ? `${what} ${when}`
    : `${what} ${when}, ready ${ready}`;
};

/** Weeks between beginning an item and eating it, by the quickest of its recipes. */
const curingWeeks = (itemId: string, { loaded }: YearPicture): number => {
  const ways = loaded.recipes.planned.filter((recipe) => recipe.itemId === itemId);
  return ways.length === 0
    ? 0
    : Math.min(...ways.map(({ readyAfterWeeks, stages }) => readyAfterWeeks + (stages?.weeks ?? 0)));
};

const cropsOf = (itemId: string, { picture, crops: known }: YearReader): readonly string[] => {
  const crops = picture.loaded.recipes.planned
    .filter((recipe) => recipe.itemId === itemId)
    .flatMap((recipe) => recipe.produce.map((part) => part.crop));
  return [...new Set(crops.map((crop) => plainName(cropName(known, crop))))];
};

/** A published name without what it says in brackets: `Peppers (types not separated)` is peppers to a person. */
const plainName = (name: string): string => name.replace(/\s*\([^)]*\)/g, '').toLowerCase();

/** What the plan still makes or buys; without a plan what is missing. */
const unitsToCome = ({ walk }: ItemYear, { plan }: YearPicture): number =>
  walk === null ? 0 : plan === null ? walk.missing : walk.planned;
