import { counted } from '../../../shared/counting.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { remembering } from '../../../shared/remembering.ts';
import { type WeekKey, weekKey } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Item } from '../../../src/household/item.ts';
import type { GaveWay, GaveWayRung } from '../../../src/planning/plan.ts';
import { gaveWayUnits, type YearWalk } from '../../../src/planning/year/year-walk.ts';
import { formatDate, formatMoney, formatQuantity, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { amountOf } from '../shelf-units.ts';

export const rungWords: Readonly<Record<GaveWayRung, string>> = {
  'cash and hours': 'More money or hours than there are',
  'garden crop': 'Left of the own crop',
  'family minimum': 'Below the family minimum',
  group: 'Short in a group',
  use: 'Short of what you eat',
  reserve: 'Short of the reserve',
  variety: 'Less variety than wished',
  freshness: 'Eaten past best quality',
};

/** The names behind the ids of what gave way; of each item the walk from what a year needs to what is missing, and when there is none (`bareWords`). */
export interface WishNames {
  readonly facts: Pick<HouseholdFacts, 'items' | 'sources' | 'groups' | 'recipes'>;
  readonly walkOf: (item: ItemId) => YearWalk | null;
  readonly bareOf: (item: ItemId) => string | null;
  readonly reading: Reading;
}

/** What gave way on one rung, one part a wish; weeks that cost too much are one part: how many, and the worst of them. */
export const givenWords = (given: readonly GaveWay[], names: WishNames): readonly string[] => {
  const weeks = given.filter(({ what }) => weekNamed(what) !== null);
  const others = given.filter((gaveWay) => !weeks.includes(gaveWay));
  return [...overdrawnWords(weeks, names), ...others.map((gaveWay) => shortWords(gaveWay, names))];
};

/** The week that a wish is about; null where it is about something else. */
const weekNamed = remembering(
  (what: string): WeekKey | null => {
    const week = weekKey.safeParse(what);
    return week.success ? week.data : null;
  },
  { most: 2000 },
);

/** The item, source, group or week of a wish, as the household calls it. */
export const wishName = (what: string, { facts, reading }: WishNames): string => {
  const week = weekNamed(what);
  if (week !== null) return sentenceCase(formatWeek(week, reading));
  const { items, sources, groups } = facts;
  return [...items, ...sources, ...groups].find(({ id }) => id === what)?.name ?? what.replaceAll('-', ' ');
};

const overdrawnWords = (weeks: readonly GaveWay[], { reading }: WishNames): readonly string[] => {
  const [first] = weeks;
  if (first === undefined) return [];
  const worst = weeks.reduce((most, week) => (week.amount > most.amount ? week : most), first);
  const most = `${amountWords(worst, reading)} too much in the ${formatWeek(weekKey.parse(worst.what), reading)}`;
  return weeks.length === 1 ? [most] : [`${counted(weeks.length, 'week')}, up to ${most}`];
};

const shortWords = (gaveWay: GaveWay, names: WishNames): string => {
  const name = batchesName(gaveWay, names) ?? wishName(gaveWay.what, names);
  const item = names.facts.items.find(({ id }) => id === gaveWay.what);
  return item === undefined
    ? `${name} ${amountWords(gaveWay, names.reading)}`
    : `${name}${shortOf(item, gaveWay, names)}`;
};

/** `Peach jam, week of Feb 8:`; batches of no plan that says which are named by what they are. */
const batchesName = ({ batches }: GaveWay, { facts, reading }: WishNames): string | null => {
  if (batches === undefined) return null;
  const name = facts.recipes.find(({ id }) => id === batches.recipe)?.name ?? batches.recipe;
  if (batches.begunOn !== null) return `${name} begun on ${formatDate(batches.begunOn, reading)}:`;
  return batches.pinnedIn === null ? name : `${name}, ${formatWeek(batches.pinnedIn, reading)}:`;
};

/**
 * ` 4 pints`: what a plan leaves missing of an item on one rung. Where the year as a whole has enough: `, none for 9 weeks from mid
 * April` of what is to be eaten, else ` until more comes`.
 */
function shortOf(
  item: Item,
  gaveWay: Pick<GaveWay, 'rung' | 'amount'>,
  { walkOf, bareOf, reading }: WishNames,
): string {
  const walk = walkOf(item.id);
  const units =
    walk === null
      ? gaveWay.amount
      : gaveWay.rung === 'reserve' && walk.letGo > 0
        ? walk.letGo
        : gaveWayUnits(walk, gaveWay);
  if (units > 0) return ` ${amountOf(item, units, reading)}`;
  const bare = gaveWay.rung === 'use' ? bareOf(item.id) : null;
  return bare === null ? ' until more comes' : `, ${bare}`;
}

/** `4 batches`, `$12.50`: what gave way of anything but an item. */
const amountWords = ({ amount, unit }: GaveWay, reading: Reading): string =>
  unit === 'cents'
    ? formatMoney(asCents(amount), reading)
    : formatQuantity(Math.round(amount * 10) / 10, singular[unit] ?? unit, reading);

const singular: Readonly<Record<string, string>> = { batches: 'batch', kinds: 'kind', units: 'unit' };
