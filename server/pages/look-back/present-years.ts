import { compare } from '../../../shared/compare.ts';
import { counted } from '../../../shared/counting.ts';
import type { CropKey } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { type CalendarDate, daysBetween, yearOf } from '../../../shared/week.ts';
import { longestShiftDays } from '../../../src/harvest/season.ts';
import type { Item } from '../../../src/household/item.ts';
import type {
  FoodYear,
  FoodYears,
  GardenYears,
  SeasonBegun,
  SourceSeasons,
} from '../../../src/look-back/through-years.ts';
import type { ItemAccount } from '../../../src/shelf/account.ts';
import type {
  FoodYearsProps,
  GardenYearsProps,
  SeasonYearsProps,
} from '../../../views/pages/look-back/years-page.tsx';
import { formatNumber, formatQuantity, formatYearlyDay } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf, figureOf, wholeOf } from '../../words/shelf-units.ts';

/** Foods in the order of their names, with a line for each of their years. */
export const presentFoods = (foods: readonly FoodYears[], items: readonly Item[], reading: Reading) =>
  foodsOf({ foods, items, ...reading });

interface FoodsAsked extends Reading {
  readonly foods: readonly FoodYears[];
  readonly items: readonly Item[];
}

const foodsOf = whileTheSame('foods', ({ foods, items, ...reading }: FoodsAsked) => {
  const itemById = new Map(items.map((item) => [item.id, item]));
  const named = foods
    .flatMap((food) => {
      const item = itemById.get(food.itemId);
      return item === undefined ? [] : [{ item, props: foodProps(food, item, reading) }];
    })
    .toSorted((one, other) => compare(one.item.name, other.item.name));
  const ofKind = (kind: Item['kind']) =>
    named.filter(({ item }) => item.kind === kind).map(({ props }) => props);
  return { putUp: ofKind('preserve'), bought: ofKind('staple') };
});

function foodProps({ years, judged, lasted }: FoodYears, item: Item, reading: Reading): FoodYearsProps {
  const most = Math.max(0, ...years.flatMap(({ levels }) => levels.map(({ units }) => units)));
  const lastedWords =
    judged === 0
      ? ''
      : `lasted in ${formatNumber(lasted, reading)} of ${counted(formatNumber(judged, reading), 'year')}`;
  const whole = (units: number): string => (units === 0 ? '' : figureOf(item, wholeOf(item, units), reading));
  return {
    key: item.id,
    item: { name: item.name, family: item.family, href: `/shelf/${item.id}` },
    lasted: lastedWords,
    most: `The most at once was ${amountOf(item, most, reading)}`,
    picture: {
      curves: years.map(({ year, levels }) => ({
        year,
        points: levels.map(({ on, units }) => ({
          at: placeInYear(on),
          share: most === 0 ? 0 : Math.max(0, units) / most,
        })),
      })),
      words: `${item.name}: ${years.map((one) => curveWords(one, item, reading)).join('; ')}`,
    },
    rows: years
      .toSorted((one, other) => other.year - one.year)
      .map(({ year, account, lasting }) => ({
        year: String(year),
        came: whole(account.putUp + account.bought + account.received),
        eaten: whole(account.eaten),
        given: whole(account.given),
        thrown: whole(account.thrownAway.reduce((sum, { units }) => sum + units, 0)),
        lasting:
          lasting === 'ran out' ? `none on ${counted(account.daysWithout, 'day')}` : lastingWords[lasting],
      })),
  };
}

const lastingWords: Readonly<Record<Exclude<FoodYear['lasting'], 'ran out'>, string>> = {
  lasted: 'lasted',
  'lasts so far': 'lasts so far',
  'not known': 'not known all year',
};

const daysOfYear = 366;
const placeInYear = (on: CalendarDate): number =>
  daysBetween(`${yearOf(on)}-01-01` as CalendarDate, on) / daysOfYear;

/** `2025 from 4 to 12 pints, none on 30 days` */
const curveWords = ({ year, levels, account }: FoodYear, item: Item, reading: Reading): string =>
  `${year} from ${figureOf(item, wholeOf(item, levels[0]?.units ?? 0), reading)} to ${amountOf(item, levels.at(-1)?.units ?? 0, reading)}${noneWords(account)}`;

const noneWords = ({ daysWithout }: ItemAccount): string =>
  daysWithout === 0 ? '' : `, none on ${counted(daysWithout, 'day')}`;

/** Every source with a first picking, in the order of the names. */
export const presentSeasons = (
  sources: readonly SourceSeasons[],
  reading: Reading,
): readonly SeasonYearsProps[] =>
  sources.map(({ source, seasons, usuallyLateDays }) => ({
    key: source.id,
    source: source.name,
    usually:
      seasons.length < 2 || usuallyLateDays === null
        ? ''
        : `${lateWords(Math.round(usuallyLateDays))} on average`,
    years: seasons.map((season) => ({
      year: season.year,
      at: Math.max(0, Math.min(1, 0.5 + season.lateDays / (2 * longestShiftDays))),
      words: seasonWords(season, reading),
    })),
  }));

const seasonWords = ({ year, firstPickedOn, lateDays }: SeasonBegun, reading: Reading): string =>
  `${year}: ${formatYearlyDay(firstPickedOn, reading)}, ${lateWords(lateDays)}`;

const lateWords = (days: number): string =>
  days === 0 ? 'on the day' : `${counted(Math.abs(days), 'day')} ${days > 0 ? 'late' : 'early'}`;

/** What each garden source gave, and beside it what the batches of the running year took of its crop. */
export const presentGarden = (
  gardens: readonly GardenYears[],
  took: { readonly year: number; readonly lbByCrop: ReadonlyMap<CropKey, number> },
  reading: Reading,
): readonly GardenYearsProps[] =>
  gardens.map(({ source, years, lbPerPlant }) => {
    const lbTaken = took.lbByCrop.get(source.crop) ?? 0;
    return {
      key: source.id,
      source: source.name,
      perPlant: perPlantWords(source.lbPerPlant, lbPerPlant, reading),
      years: years.map(({ year, lb, plants, lbPerPlant: each }) => ({
        year,
        words:
          plants === null || each === null
            ? `${year}: ${formatQuantity(lb, 'lb', reading)}`
            : `${year}: ${formatQuantity(lb, 'lb', reading)} from ${counted(formatNumber(plants, reading), 'plant')}, ${formatQuantity(each, 'lb', reading)} a plant`,
      })),
      took:
        lbTaken === 0
          ? ''
          : `What you put up in ${took.year} took about ${formatQuantity(Math.round(lbTaken), 'lb', reading)}, from wherever it came.`,
    };
  });

const perPlantWords = (said: number | null, counts: number | null, reading: Reading): string => {
  const each = (lb: number): string => `${formatQuantity(lb, 'lb', reading)} a plant`;
  if (counts === null) return 'Nobody said what a plant gives';
  return said === null || Math.abs(said - counts) < 0.05
    ? `${each(counts)}${said === null ? '' : ', as you said'}`
    : `${each(counts)}; you said ${formatQuantity(said, 'lb', reading)}`;
};

/** The years that pictures show, the earliest first. */
export const yearsShown = (foods: readonly FoodYears[]): readonly number[] =>
  [...new Set(foods.flatMap(({ years }) => years.map(({ year }) => year)))].toSorted(
    (one, other) => one - other,
  );
