import type { Family } from '../../shared/family.ts';
import { families } from '../../shared/family.ts';
import type { BoardWeek, YearBoardProps } from '../../views/charts/year-board.tsx';
import type { BoardFamily, YearChartProps, YearMonth } from '../../views/charts/year-picture.tsx';
import type { Frame } from '../../views/layout/frame.ts';
import type { FormKeys } from '../../views/parts/form.tsx';
import { usReading } from '../../views/words/reading.ts';

// Literal props of an invented pantry, as a presenter would fill them.

export const aFrame: Frame = {
  reading: usReading,
  assets: {
    css: '/a.css',
    canningCss: '/assets/canning.css',
    htmx: '/h.js',
    clock: '/c.js',
    link: '/l.js',
    icon: '/i.svg',
    textFont: '/t.woff2',
    titleFont: '/s.woff2',
  },
  householdName: 'Quince Lane',
  householdId: 'quince-lane',
  personId: '',
  isDemo: true,
  signedInAs: null,
  openNotices: 3,
  clocks: [],
  message: null,
};

export const someKeys: FormKeys = { csrf: 'token', key: 'key-0001' };

export const yearMonths: readonly YearMonth[] = [
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
].map((label, place) => ({ label, at: Math.max(0, place * 4.345 - 2) }));

/** Stock that falls by `perWeek` from `start`, with `batches` added in their weeks; unsure by a tenth more each month. */
export const fallingStock = (
  start: number,
  perWeek: number,
  batches: Readonly<Record<number, number>> = {},
  weekCount = 52,
): BoardWeek[] => {
  let likely = start;
  return Array.from({ length: weekCount }, (_, week) => {
    likely = Math.max(0, likely + (batches[week] ?? 0) - perWeek);
    const spread = 0.4 * Math.sqrt(week + 1) * Math.sqrt(perWeek);
    return { low: Math.max(0, likely - spread), likely, high: likely + spread };
  });
};

export const aBoard = (over: Partial<YearBoardProps> = {}): YearBoardProps => ({
  key: 'peach-halves',
  name: 'Peach halves',
  href: '/year/peach-halves',
  now: '12',
  sentence: 'Peach halves: 12 left. Lasts to early March. Next peaches in August. Make 20.',
  opening: 12,
  weeks: fallingStock(12, 0.45, { 50: 20 }),
  harvests: [{ from: 49, until: 52, words: 'Peaches, late July to mid August' }],
  putUp: [{ week: 50, count: 20, words: 'Put up 20 in the week of Aug 3' }],
  bought: [],
  bare: [{ from: 27, until: 50, words: 'Likely bare for 23 weeks' }],
  bestQuality: [{ week: 20, count: 4, words: '4 jars pass best quality in the week of Jan 4' }],
  ...over,
});

export const aPicture = (over: Partial<YearChartProps> = {}): YearChartProps => ({
  id: 'year',
  title: 'The year on the shelf',
  weekCount: 52,
  months: yearMonths,
  families: [{ family: 'stone-fruit', boards: [aBoard()] }],
  form: 'wide',
  ...over,
});

/** `count` boards spread over the nine families, each different, none random. */
export const manyBoards = (count: number): BoardFamily[] => {
  const names: Readonly<Record<Family, readonly string[]>> = {
    'stone-fruit': [
      'Peach halves',
      'Apricot jam',
      'Plum butter',
      'Cherries in syrup',
      'Peach chutney',
      'Prune plums',
      'Nectarine slices',
    ],
    berries: [
      'Strawberry jam',
      'Raspberry jelly',
      'Currant syrup',
      'Bramble jam',
      'Gooseberry fool base',
      'Elder jelly',
      'Mixed berry sauce',
    ],
    'apples-pears': [
      'Applesauce',
      'Pear halves',
      'Apple butter',
      'Apple pie filling',
      'Quince jelly',
      'Pear relish',
      'Cider jelly',
    ],
    tomatoes: [
      'Whole tomatoes',
      'Tomato sauce',
      'Salsa',
      'Tomato juice',
      'Ketchup',
      'Tomatillo salsa',
      'Stewed tomatoes',
    ],
    'greens-beans': [
      'Green beans',
      'Peas',
      'Spinach',
      'Wax beans',
      'Mustard greens',
      'Lima beans',
      'Corn kernels',
    ],
    roots: ['Carrots', 'Beets', 'Potatoes', 'Parsnips', 'Turnips', 'Sweet potato', 'Rutabaga'],
    pickles: [
      'Dill pickles',
      'Bread and butter pickles',
      'Sauerkraut',
      'Dilly beans',
      'Pickled beets',
      'Corn relish',
      'Hot peppers',
    ],
    'dry-goods': ['Flour', 'Rice', 'Rolled oats', 'Dry beans', 'Sugar', 'Lentils', 'Salt'],
    'meat-stock': [
      'Chicken stock',
      'Beef in broth',
      'Vegetable soup',
      'Chili',
      'Turkey',
      'Venison',
      'Fish stock',
    ],
  };
  return families.map((family, familyPlace) => ({
    family,
    boards: names[family]
      .map((name, place): YearBoardProps | null => {
        const index = place * families.length + familyPlace;
        if (index >= count) return null;
        const at = (index * 7) % 48;
        const start = 4 + ((index * 5) % 23);
        const batch = 7 + ((index * 3) % 15);
        const weeks = fallingStock(start, 0.25 + ((index * 11) % 9) / 10, { [at]: batch });
        const from = weeks.findIndex((week) => week.likely === 0);
        const until = from === -1 || at <= from ? 52 : at;
        return aBoard({
          key: `board-${index}`,
          name,
          href: `/year/board-${index}`,
          now: String(start),
          sentence: `${name}: ${start} left. Next in the week numbered ${at}. Make ${batch}.`,
          opening: start,
          weeks,
          harvests: [
            { from: Math.max(0, at - 2), until: Math.min(52, at + 3), words: `Harvest for ${name}` },
          ],
          putUp: family === 'dry-goods' ? [] : [{ week: at, count: batch, words: `Put up ${batch}` }],
          bought: family === 'dry-goods' ? [{ week: at, count: batch, words: `Buy ${batch}` }] : [],
          bare: from === -1 ? [] : [{ from, until, words: 'Likely bare' }],
          bestQuality:
            index % 3 === 0 ? [{ week: (index * 5) % 40, count: 3, words: '3 pass best quality' }] : [],
        });
      })
      .filter((board) => board !== null),
  }));
};
