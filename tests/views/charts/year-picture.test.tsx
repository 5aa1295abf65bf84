import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { YearChart } from '../../../views/charts/year-picture.tsx';
import { aBoard, aPicture, fallingStock, manyBoards } from '../page-props.ts';

const drawn = (over: Parameters<typeof aPicture>[0] = {}): string =>
  renderToString(<YearChart {...aPicture(over)} />);

const oneBoard = (over: Parameters<typeof aBoard>[0]): string =>
  drawn({ families: [{ family: 'stone-fruit', boards: [aBoard(over)] }] });

const linksIn = (svg: string): number => svg.match(/<a /g)?.length ?? 0;

describe('the year as a shelf', () => {
  test('the same year is drawn in the same bytes', () => {
    expect(drawn({ families: manyBoards(20) })).toBe(drawn({ families: manyBoards(20) }));
  });

  test('every id begins with the id of the picture, so that two pictures can stand on one page', () => {
    const ids = [...drawn({ id: 'shelf', families: manyBoards(20) }).matchAll(/ id="([^"]+)"/g)].map(
      (found) => found[1],
    );

    expect(ids.length).toBeGreaterThan(20);
    expect(ids.filter((id) => !id?.startsWith('shelf-'))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('a board is a link to its item and says its year in a sentence', () => {
    const svg = oneBoard({});

    expect(svg).toContain('href="/year/peach-halves"');
    expect(svg).toContain(
      '<title>Peach halves: 12 left. Lasts to early March. Next peaches in August. Make 20.</title>',
    );
  });

  test('the family is named in words wherever its colour is used', () => {
    expect(drawn()).toMatch(/class="family-stone-fruit".*Stone fruit.*class="family-stripe"/s);
  });

  test('a canning week is a jar with its count, a bare stretch says so, a harvest is hatched', () => {
    const svg = oneBoard({});

    expect(svg).toMatch(/class="jar-count"[^>]*>20</);
    expect(svg).toMatch(/class="bare-word"[^>]*>none</);
    expect(svg).toContain('<title>Peaches, late July to mid August</title>');
    expect(svg).toContain('<title>4 jars pass best quality in the week of Jan 4</title>');
  });

  test('5 boards stand tall, 60 stand on one page of Letter or A4, and no board is lost', () => {
    const few = drawn({ families: manyBoards(5) });
    const many = drawn({ families: manyBoards(60) });
    const size = (svg: string) => (/viewBox="0 0 (\d+) (\d+)"/.exec(svg) ?? []).slice(1).map(Number);
    const [width = 0, height = 0] = size(many);

    expect([linksIn(few), linksIn(many)]).toEqual([5, 60]);
    // Letter is 8.5 × 11 in, A4 210 × 297 mm; with margins of 12 mm the narrower of both shapes is 192 × 255 mm (Letter).
    // A picture taller than that shape is scaled to the page's height and must keep two thirds of its width.
    expect(height / width).toBeLessThan((255 / 192) * 1.5);
    expect((size(few)[1] ?? 0) / 5).toBeGreaterThan((height / 60) * 2);
  });

  test('without any board it says that there is nothing to keep', () => {
    expect(drawn({ families: [] })).toContain('nothing to keep for the year');
    expect(drawn({ families: [{ family: 'roots', boards: [] }] })).toContain('nothing to keep for the year');
  });

  test('one single week is a week wide', () => {
    const svg = drawn({
      weekCount: 1,
      families: [
        {
          family: 'roots',
          boards: [
            aBoard({ weeks: fallingStock(6, 1, {}, 1), harvests: [], putUp: [], bare: [], bestQuality: [] }),
          ],
        },
      ],
    });

    expect(svg).toMatch(/class="stock stock-likely" d="M216,[\d.]+L658,[\d.]+L1100,/);
  });

  test('a board on which nothing ever stands keeps its height at zero, without NaN', () => {
    const nothing = Array.from({ length: 52 }, () => ({ low: 0, likely: 0, high: 0 }));
    const svg = oneBoard({
      now: '0',
      opening: 0,
      weeks: nothing,
      putUp: [],
      bare: [{ from: 0, until: 52, words: 'Bare all year' }],
    });
    const heights = [
      ...(/class="stock stock-high" d="([^"]*)"/.exec(svg)?.[1] ?? '').matchAll(/,([\d.]+)/g),
    ].map((found) => found[1]);

    expect(new Set(heights).size).toBe(1);
    expect(svg).not.toContain('NaN');
  });

  test('markup in a name is text, not markup', () => {
    expect(oneBoard({ name: '<script>alert(1)</script>' })).not.toContain('<script>');
  });
});

describe('reviewed drawings', () => {
  test('one board beside its name', async () => {
    await expect(drawn()).toMatchFileSnapshot('year-picture-wide.snap');
  });

  test('one board under its name, for a phone', async () => {
    await expect(drawn({ form: 'narrow' })).toMatchFileSnapshot('year-picture-narrow.snap');
  });
});
