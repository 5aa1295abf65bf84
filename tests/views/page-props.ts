import { families } from '../../shared/family.ts';
import type { BoardWeek, YearBoardProps } from '../../views/charts/year-board.tsx';
import type { YearAxis, YearMonth } from '../../views/charts/year-picture.tsx';
import type { Frame } from '../../views/layout/frame.ts';
import type { YearRow } from '../../views/pages/year/year-boards.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import { usReading } from '../../views/words/reading.ts';

// Literal props of an invented pantry, as a presenter would fill them.

export const aFrame: Frame = {
  reading: usReading,
  assets: {
    css: '/a.css',
    canningCss: '/assets/canning.css',
    comparedCss: '/assets/compared.css',
    paperCss: '/assets/paper.css',
    startCss: '/assets/start.css',
    yearCss: '/y.css',
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
  opening: 12,
  weeks: fallingStock(12, 0.45, { 50: 20 }),
  harvests: [{ from: 49, until: 52, words: 'Peaches, late July to mid August' }],
  putUp: [{ week: 50, count: 20, words: 'Put up 20 in the week of Aug 3' }],
  bought: [],
  bare: [
    {
      from: 27,
      until: 50,
      words: 'Likely none from the week of Feb 22, for 23 weeks',
      label: 'none 23 weeks',
    },
  ],
  bestQuality: [{ week: 20, count: 4, words: '4 jars pass best quality in the week of Jan 4' }],
  ...over,
});

export const anAxis: YearAxis = { weekCount: 52, months: yearMonths };

export const aRow = (over: Partial<YearRow> = {}): YearRow => ({
  key: 'peach-halves',
  item: { name: 'Peach halves', family: 'stone-fruit' },
  href: '/year/peach-halves',
  left: '12',
  unit: 'quarts',
  lasts: 'to late February',
  isGone: false,
  bare: 'then none for 23 weeks',
  sure: 'less than 1 year in 10',
  next: 'peaches in August',
  make: '20',
  short: '4 are still missing',
  makeVerb: 'Make',
  instead: { words: '', step: null },
  board: aBoard(),
  ...over,
});

/** `count` rows over the nine families, each different, none random. */
export const manyRows = (count: number): YearRow[] =>
  Array.from({ length: count }, (_, index) => {
    const at = (index * 7) % 48;
    const start = 4 + ((index * 5) % 23);
    const weeks = fallingStock(start, 0.25 + ((index * 11) % 9) / 10, { [at]: 7 + ((index * 3) % 15) });
    return aRow({
      key: `board-${index}`,
      item: {
        name: `Bread-and-butter pickles ${index}`,
        family: families[index % families.length] ?? 'roots',
      },
      href: `/year/board-${index}`,
      left: String(start),
      board: aBoard({ opening: start, weeks }),
    });
  });
