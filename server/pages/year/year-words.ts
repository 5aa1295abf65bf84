import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addWeeks, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import { chanceWords, weekWords } from '../../../src/shelf/run-out-words.ts';
import { formatMonth, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { amountOf, figureAndUnit } from '../../words/shelf-units.ts';
import type { ItemYear } from '../../year/item-year.ts';
import type { YearPicture } from '../../year/year-picture.ts';

/** One item's year in words: `12 left. Lasts to early March. Next peaches in August. Make 20.` */
export interface YearWords {
  readonly left: string;
  readonly unit: string;
  readonly lasts: string;
  /** `bare for 9 weeks`, when the plan does not keep it from going bare; null otherwise. */
  readonly bare: string | null;
  /** `9 years in 10`; empty for what nobody says they eat. */
  readonly sure: string;
  readonly next: string;
  readonly make: string | null;
  readonly makeVerb: 'Make' | 'Buy';
  readonly sentence: string;
}

export interface YearReader {
  readonly picture: YearPicture;
  readonly reading: Reading;
  /** Published crops, for their names. */
  readonly crops: ReferenceTables['harvestWindows'];
}

export const yearWords = (itemYear: ItemYear, reader: YearReader): YearWords => {
  const { reading, picture } = reader;
  const amount = amountOf(itemYear.item, roundUnits(itemYear.unitsOnShelf), reading);
  const { figure, unit } = figureAndUnit(amount);
  const lasts = lastsWords(itemYear, picture);
  const next = nextWords(itemYear, reader);
  const toCome = unitsToCome(itemYear, picture);
  const make = toCome < 0.5 ? null : formatNumber(toCome, reading, 0);
  const makeVerb = itemYear.supply.by === 'bought' ? 'Buy' : 'Make';
  const bareWeeks = weeksBare(itemYear);
  const isGone = itemYear.unitsOnShelf <= 0;
  const bare = bareWeeks === 0 ? null : `bare for ${bareWeeks} ${bareWeeks === 1 ? 'week' : 'weeks'}`;
  const sentences = [
    isGone ? 'None left.' : `${amount} left.`,
    itemYear.forecast === null || isGone ? '' : `Lasts ${lasts}.`,
    bare === null ? '' : `Then likely ${bare}.`,
    `Next ${next}.`,
    make === null ? '' : `${makeVerb} ${make}.`,
  ];
  return {
    left: figure,
    unit,
    lasts,
    bare: bare === null ? null : isGone ? bare : `then ${bare}`,
    sure:
      itemYear.projection === null
        ? ''
        : chanceWords(Math.min(1, Math.max(0, itemYear.projection.chanceOfLasting))),
    next,
    make,
    makeVerb,
    sentence: sentences.filter((words) => words !== '').join(' '),
  };
};

const roundUnits = (units: number): number => Math.round(units * 10) / 10;

/** How long what stands today lasts, nothing made or bought. */
const lastsWords = ({ withoutPlan, unitsOnShelf }: ItemYear, { asOf }: YearPicture): string => {
  if (withoutPlan === null) return 'as long as nobody eats it';
  if (unitsOnShelf <= 0) return 'no longer';
  const likely = withoutPlan.runOut.p50;
  if (likely === null) return 'all year';
  const { to } = weekWords(asOf, likely);
  return to === 'this week' || to === 'next week' ? `until ${to}` : `to ${to}`;
};

/** When it can be had again: `peaches in August`, `cucumbers now, ready in September`, `any week in the shop`. */
const nextWords = ({ supply, item }: ItemYear, reader: YearReader): string => {
  const { picture, reading } = reader;
  if (supply.by === 'bought') return 'any week in the shop';
  if (supply.nextSupplyWeek === null) return 'supply not known';
  const crops = cropsOf(item.id, reader);
  const what = crops.length === 0 ? 'a batch' : listed(crops);
  const monthOf = (week: WeekKey) => `in ${formatMonth(mondayOf(week), reading)}`;
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

/** Units the plan still makes or buys; without a plan what the target lacks. */
const unitsToCome = ({ path, target, unitsOnShelf }: ItemYear, { plan, loaded }: YearPicture): number => {
  if (path === null || plan === null) return Math.max(0, (target?.units ?? 0) - unitsOnShelf);
  const [thisWeek] = loaded.year.weeks;
  return plan.year.weeks.reduce(
    (sum, week, at) =>
      thisWeek !== undefined && week < thisWeek
        ? sum
        : sum + (path.madeByWeek[at] ?? 0) + (path.boughtByWeek[at] ?? 0),
    0,
  );
};

/** Weeks from the likely run-out under the plan until something comes again; 0 when it does not run out. */
export const weeksBare = ({ projection }: ItemYear): number => {
  const likely = projection?.runOut.p50 ?? null;
  if (projection === null || likely === null) return 0;
  const from = projection.weeks.findIndex(({ week }) => week === likely);
  const until = projection.weeks.findIndex((week, at) => at > from && week.in > 0);
  return (until === -1 ? projection.weeks.length : until) - from;
};
