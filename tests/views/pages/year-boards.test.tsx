import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { YearBoards } from '../../../views/pages/year/year-boards.tsx';
import { YearSheetPage } from '../../../views/pages/year/year-sheet-page.tsx';
import { wordsOf } from '../../builders/visitor.ts';
import { aFrame, anAxis, aRow, manyRows } from '../page-props.ts';

const boards = (rows: Parameters<typeof YearBoards>[0]['rows']): string =>
  renderToString(<YearBoards rows={rows} axis={anAxis} marks="year" />);

describe('the boards of the year', () => {
  test('say each in words what it shows, and how sure that is', () => {
    expect(wordsOf(boards([aRow()]))).toContain(
      'Peach halves 12 quarts left. Lasts to late February, then none for 23 weeks . Next peaches in August. Lasts till then less than 1 year in 10. Make 20 ; 4 are still missing.',
    );
  });

  test('are one link each for those who tab, and one for those who point', () => {
    const tabbed = (html: string) =>
      [...html.matchAll(/<a (?![^>]*tabindex="-1")[^>]*href="([^"]+)"/g)].length;

    expect(tabbed(boards(manyRows(12)))).toBe(12);
    expect(boards(manyRows(12)).match(/aria-hidden="true" ?[^>]*>/g)?.length).toBeGreaterThanOrEqual(12);
  });

  // A phone on a slow line loads the whole year: at most 150 kB for the demo household's 38 items.
  test('forty of them weigh less than 120 kB', () => {
    expect(boards(manyRows(40)).length).toBeLessThan(120_000);
  });

  test('markup in a name is text, not markup', () => {
    const html = boards([aRow({ item: { name: '<script>alert(1)</script>', family: 'roots' } })]);

    expect(html).not.toContain('<script>');
  });
});

describe('the sheet of the year', () => {
  const sheet = (count: number): string =>
    renderToString(
      <YearSheetPage
        frame={aFrame}
        heading="Quince Lane, from Aug 12, 2026"
        summary=""
        axis={anAxis}
        boards={manyRows(count)}
      />,
    );

  test('sets the names of many boards smaller, so that all of them stay on one side', () => {
    expect([23, 60].map((count) => sheet(count).includes('sheet-of-many'))).toEqual([false, true]);
    expect(sheet(60).match(/class="sheet-name"/g)).toHaveLength(60);
  });
});
