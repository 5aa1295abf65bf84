import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { YearBoard } from '../../../views/charts/year-board.tsx';
import { PictureKey, WeekCursor, YearMarks, YearMonths } from '../../../views/charts/year-picture.tsx';
import { aBoard, anAxis, fallingStock } from '../page-props.ts';

const drawn = (over: Parameters<typeof aBoard>[0] = {}, weekCount = 52): string =>
  renderToString(<YearBoard board={aBoard(over)} weekCount={weekCount} marks="year" />);

const pathOf = (svg: string, what: string): string =>
  new RegExp(`class="${what}" d="([^"]*)"`).exec(svg)?.[1] ?? '';

/** What stands in each week, read off the outline of an area anew. */
const heightsOf = (path: string, most: number, weekCount: number): number[] => {
  const heights = Array.from({ length: weekCount }, () => 0);
  let week = 0;
  let standing = 0;
  for (const [, command, value] of path.matchAll(/([HV])([\d.]+)/g)) {
    if (command === 'V') standing = most - Number(value);
    else {
      heights.fill(standing, week, Number(value));
      week = Number(value);
    }
  }
  return heights;
};

const mostOf = (svg: string): number => Number(/viewBox="0 0 52 (\d+)"/.exec(svg)?.[1]);

describe('one board of the year', () => {
  test('the same year is drawn in the same bytes, in few of them', () => {
    expect(drawn()).toBe(drawn());
    expect(drawn().length).toBeLessThan(4_000);
  });

  test('stands as high as its own likely stock, not as the most it might ever hold', () => {
    const weeks = fallingStock(12, 0.45).map((week) => ({ ...week, high: 60 }));

    expect(mostOf(drawn({ weeks, putUp: [], bare: [] }))).toBe(12);
  });

  test('in every week it is as high as what is likely left, in whole jars, and the last jar stands until it is gone', () => {
    const svg = drawn();
    const likely = aBoard().weeks.map((week) => week.likely);

    expect(heightsOf(pathOf(svg, 'stock stock-likely'), mostOf(svg), 52)).toEqual(
      likely.map((units) => (units <= 0 ? 0 : Math.max(1, Math.round(units)))),
    );
  });

  test('up to forty jars are a line each, more are one mass', () => {
    const linesOf = (start: number) =>
      pathOf(
        drawn({ opening: start, weeks: fallingStock(start, 0.4) }),
        start <= 14 ? 'jar-lines' : 'jar-lines many-jars',
      ).match(/M/g)?.length ?? 0;

    expect([12, 40, 41].map(linesOf)).toEqual([11, 39, 0]);
  });

  test('where none is left the board itself is gone, between two brackets, with how long', () => {
    const svg = drawn();
    const wood = [...svg.matchAll(/class="board-wood" x="([\d.]+)%" width="([\d.]+)%"/g)].map(
      ([, x, width]) => [Number(x), Number(x) + Number(width)],
    );

    expect(wood).toHaveLength(2);
    expect(wood[0]?.[0]).toBe(0);
    expect(wood[0]?.[1]).toBeCloseTo((27 / 52) * 100, 0);
    expect(wood[1]?.[0]).toBeCloseTo((50 / 52) * 100, 0);
    expect(svg).toMatch(/text-anchor="middle"[^>]*>none 23 weeks</);
    expect(svg).toContain('<title>Likely none from the week of Feb 22, for 23 weeks</title>');
  });

  test('a short gap is named beside it, where there is room, and not over jars', () => {
    const gap = (from: number, standing: number) =>
      drawn({
        putUp: [],
        weeks: Array.from({ length: 52 }, () => ({ low: 0, likely: standing, high: standing })),
        bare: [{ from, until: from + 2, words: 'Likely none', label: 'none 2 weeks' }],
      });

    expect(gap(2, 1)).toMatch(/text-anchor="start"[^>]*>none 2 weeks</);
    expect(gap(40, 1)).toMatch(/text-anchor="end"[^>]*>none 2 weeks</);
    for (const covered of [gap(2, 9), gap(40, 9)]) {
      expect(covered).not.toContain('>none 2 weeks<');
      expect(covered).toContain('class="bare-hole"');
      expect(covered).toContain('<title>Likely none</title>');
    }
  });

  test('what only a wider drawing has room for waits for it', () => {
    const svg = drawn({
      weeks: Array.from({ length: 52 }, () => ({ low: 9, likely: 9, high: 9 })),
      bare: [{ from: 20, until: 28, words: 'Likely none', label: 'none 8 weeks' }],
    });

    expect(svg).toMatch(/class="room-3"[^>]*>none 8 weeks</);
  });

  test('batches whose counts would touch are one jar with their sum, and say all their weeks', () => {
    const svg = drawn({
      putUp: [
        { week: 30, count: 7, words: 'Put up 7' },
        { week: 32, count: 8, words: 'Put up 8' },
        { week: 45, count: 9, words: 'Put up 9' },
      ],
    });

    expect([...svg.matchAll(/class="jar">.*?<text[^>]*>(\d+)</g)].map((found) => found[1])).toEqual([
      '15',
      '9',
    ]);
    expect(svg).toContain('<title>Put up 7; Put up 8</title>');
  });

  test('a harvest is hatched below, what passes its best is a notch, what is bought a mark', () => {
    const svg = drawn({ bought: [{ week: 3, count: 2, words: 'Buy 2' }] });

    expect(svg).toContain('<title>Peaches, late July to mid August</title>');
    expect(svg).toContain('<title>4 jars pass best quality in the week of Jan 4</title>');
    expect(pathOf(svg, 'bought')).toBe('M3.5,1h0');
  });

  test('a board on which nothing ever stands draws no stock, and no NaN', () => {
    const svg = drawn({
      opening: 0,
      weeks: Array.from({ length: 52 }, () => ({ low: 0, likely: 0, high: 0 })),
      putUp: [],
      bare: [{ from: 0, until: 52, words: 'Bare all year', label: 'none 52 weeks or more' }],
    });

    expect(pathOf(svg, 'stock stock-high')).toBe('');
    expect(svg).not.toContain('NaN');
    expect(svg).not.toContain('board-wood');
  });

  test('one single week is as wide as the board', () => {
    const svg = drawn({ opening: 6, weeks: fallingStock(6, 1, {}, 1), harvests: [], putUp: [], bare: [] }, 1);

    expect(pathOf(svg, 'stock stock-likely')).toBe('M0,6V1H1V6Z');
  });
});

describe('what all boards share', () => {
  test('every id begins with the id of the picture, so that two pictures can stand on one page', () => {
    const ids = [...renderToString(<YearMarks id="shelf" axis={anAxis} />).matchAll(/ id="([^"]+)"/g)].map(
      (found) => found[1],
    );

    expect(ids.length).toBeGreaterThan(2);
    expect(ids.filter((id) => !id?.startsWith('shelf-'))).toEqual([]);
  });

  test('the left edge is now, and no month is written over it or beyond the right edge', () => {
    const words = [...renderToString(<YearMonths axis={anAxis} />).matchAll(/x="([\d.]+)%?"[^>]*>(\w+)</g)];

    expect(words[0]?.slice(1)).toEqual(['0', 'now']);
    for (const [, x] of words.slice(1)) {
      expect(Number(x)).toBeGreaterThan(7);
      expect(Number(x)).toBeLessThan(93);
    }
  });

  test('a week is marked one week wide', () => {
    expect(renderToString(<WeekCursor axis={anAxis} week={26} />)).toMatch(/x="50%"[^>]*width="1.9%"/);
  });

  test('every mark is explained in words', () => {
    const key = renderToString(<PictureKey marks="year" />);

    for (const words of [
      'one line is one jar',
      'likely none left',
      'harvest is open',
      'bought',
      'best quality',
    ])
      expect(key).toContain(words);
  });
});
