import { writeFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { recipeBook } from '../../src/preserving/recipes/recipe-book.ts';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { openPaperReader, type Paper, type Side, wordsOutsideTheirBox } from './paper.ts';

// Every sheet as it leaves the printer, drawn by an independent reader of PDFs: so many sides, nothing cut off, its fonts in it.
// For the demo household, and for the same with the longest names of the recipe book.

let demo: Demo;
let browser: Browser;
let page: Page;
let reader: Awaited<ReturnType<typeof openPaperReader>>;
let canningSheet = '';
let renamed = 0;
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
  [page, reader] = await Promise.all([browser.newPage(), openPaperReader(browser)]);
  canningSheet = await makeCanningSheet();
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

/** Begins the canning day ahead and makes its numbered sheet. */
const makeCanningSheet = async (): Promise<string> => {
  await page.goto(`${demo.address}/canning-day`);
  await page.getByRole('button', { name: 'Begin this canning day' }).click();
  await page.locator('#loads').waitFor();
  await page.evaluate("document.querySelectorAll('details').forEach((fold) => { fold.open = true; })");
  await page.getByRole('button', { name: 'Make a sheet to print' }).click();
  await page.waitForURL('**/sheets/*');
  return new URL(page.url()).pathname;
};

/** Every item by another of the longest names the book has. */
const giveLongestNames = async (): Promise<void> => {
  renamed = 1;
  const { db } = demo.app;
  const names = [...new Set(recipeBook(loadReferenceTables()).map(({ name }) => name))].toSorted(
    (one, other) => other.length - one.length,
  );
  const items = await db.selectFrom('item').select('id').execute();
  for (const [at, { id }] of items.entries())
    await db
      .updateTable('item')
      .set({ name: names[at] ?? id })
      .where('id', '=', id)
      .execute();
  await db
    .updateTable('household')
    .set(({ eb }) => ({ facts_version: eb('facts_version', '+', 1) }))
    .execute();
};

const print = async (path: string, format: 'A4' | 'Letter'): Promise<Paper> => {
  await page.goto(demo.address + path);
  const outside = await wordsOutsideTheirBox(page);
  const pdf = await page.pdf({ format, preferCSSPageSize: true });
  if (process.env.PAPER_TO)
    writeFileSync(
      `${process.env.PAPER_TO}/${renamed}${path.replace(/\W+/g, '-').slice(0, 50)}-${format}.pdf`,
      pdf,
    );
  const paper = await reader.read(pdf);
  expect(outside, path).toEqual([]);
  expect(paper.fontsLeftOut, path).toEqual([]);
  for (const side of paper.sides) {
    expect(offPaper(side), path).toEqual([]);
    expect(overEachOther(side), path).toEqual([]);
  }
  return paper;
};

/** What a printer cannot reach, mm from the edge. */
const unprintableMm = 4;

/** Words that stand beyond what a printer can print, and ink there; labels run to the edge of their own sheet. */
const offPaper = ({ widthMm, heightMm, ink, texts }: Side): readonly string[] => [
  ...texts
    .filter(
      ({ left, top, right, bottom }) =>
        left < unprintableMm ||
        top < unprintableMm ||
        right > widthMm - unprintableMm ||
        bottom > heightMm - unprintableMm,
    )
    .map(({ words }) => words),
  ...(ink === null ? ['an empty side'] : []),
];

/** Words printed over others, so that neither is read. */
const overEachOther = ({ texts }: Side): readonly string[] =>
  texts.flatMap((one, at) =>
    texts
      .slice(at + 1)
      .filter((other) => {
        const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
        const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
        // A letter with an edge is drawn twice in its place.
        return (
          one.words !== other.words &&
          across > 1 &&
          down > 0.6 * Math.min(one.bottom - one.top, other.bottom - other.top)
        );
      })
      .map((other) => `${one.words} / ${other.words}`),
  );

const lowest = ({ sides }: Paper): number => {
  const [side] = sides;
  return side?.ink ? side.ink.bottom / side.heightMm : 0;
};

/** The canning days of the plan that have a sheet before they are begun, from the one at hand on. */
const daysWithSheet = async (): Promise<readonly string[]> => {
  const hrefs = (within: string) =>
    page.$$eval(`${within} a`, (links) => links.flatMap((link) => link.getAttribute('href') ?? []));
  await page.goto(`${demo.address}/canning-day`);
  const weeks = (await hrefs('#other-weeks')).filter((href) => href.startsWith('/canning-day/'));
  const found: string[] = [];
  for (const week of ['/canning-day', ...weeks]) {
    await page.goto(demo.address + week);
    const days = await hrefs('.day-tabs');
    for (const day of days.length === 0 ? [week] : days) {
      await page.goto(demo.address + day);
      if ((await page.locator('.paper-sheet').count()) > 0) found.push(day);
    }
  }
  return found;
};

/** The steps begin on this side. */
const beginsTheSteps = ({ texts }: Side): boolean =>
  texts.some(({ words }) => words === 'Each load, step by step');

describe('a canning sheet', () => {
  it('stands on one side where its steps fit under its times, else they are on the back; the times fill the first, and its minutes are read from a yard away', async () => {
    const sidesOf = new Set<number>();
    for (const path of [canningSheet, ...(await daysWithSheet())])
      for (const format of ['Letter', 'A4'] as const) {
        const paper = await print(path, format);
        const { sides } = paper;
        sidesOf.add(sides.length);

        expect(sides.length, `${path} ${format}`).toBeLessThanOrEqual(2);
        expect(sides.findIndex(beginsTheSteps), `${path} ${format}`).toBe(sides.length - 1);
        expect(lowest(paper), `${path} ${format}`).toBeGreaterThan(0.85);
        expect(Math.max(...(sides[0]?.texts.map(({ sizePt }) => sizePt) ?? []))).toBeGreaterThan(28);
      }
    expect([...sidesOf].toSorted()).toEqual([1, 2]);
  });
});

const everyName = [
  ['the names of the demo', async () => undefined],
  ['the longest names of the book', giveLongestNames],
] as const;

describe.each(everyName)('on paper, with %s', (_, rename) => {
  beforeAll(rename);

  it.each([
    ['the week', '/'],
    ['the shelf', '/shelf'],
    ['the pantry-door sheet', '/shelf/sheet'],
    ['the shopping list', '/buying'],
  ])('%s stands on one side', async (_, path) => {
    for (const format of ['Letter', 'A4'] as const) {
      const { sides } = await print(path, format);
      expect(sides, format).toHaveLength(1);
      expect(sides[0]?.widthMm, format).toBeLessThan(sides[0]?.heightMm ?? 0);
    }
  });

  it('the shopping list leaves room for more lines than this plan’s', async () => {
    for (const format of ['Letter', 'A4'] as const)
      expect(lowest(await print('/buying', format)), format).toBeLessThan(0.92);
  });

  it('the year fills one side on its long edge', async () => {
    const paper = await print('/year/sheet', 'Letter');

    expect(paper.sides).toHaveLength(1);
    expect(paper.sides[0]?.widthMm).toBeGreaterThan(paper.sides[0]?.heightMm ?? 0);
    expect(lowest(paper)).toBeGreaterThan(0.85);
  });

  it('what is done before the canner is read on its sheets', async () => {
    const paper = await print('/stages/paper', 'Letter');

    expect(paper.sides.length).toBeGreaterThan(0);
  });

  it('labels of every jar stand on as many sheets as they need', async () => {
    await page.goto(`${demo.address}/labels`);
    const lots = await page.$$eval('input[name^="lot-"]', (fields) =>
      fields.map((field) => field.getAttribute('name')),
    );
    const paper = await print(`/labels/sheet?${lots.map((lot) => `${lot}=1`).join('&')}`, 'Letter');

    expect(paper.sides.length).toBeGreaterThan(0);
    const words = paper.sides.flatMap(({ texts }) => texts).length;
    expect(words).toBeGreaterThan(lots.length * 3);
  });
});
