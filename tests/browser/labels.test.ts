import type { AddressInfo } from 'node:net';
import jsQRModule from 'jsqr';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { greenBeans, plumJam, shelve } from '../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../builders/quince-yard-pages.ts';
import { launchBrowser } from './browser.ts';

// The package is CommonJS; its function is the default of the default under Node.
const jsQR = ('default' in jsQRModule ? jsQRModule.default : jsQRModule) as unknown as (
  pixels: Uint8ClampedArray,
  width: number,
  height: number,
) => { data: string } | null;

let pages: QuinceYardPages;
let browser: Browser;
let address: string;

beforeAll(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'plum-jam-260812-a',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-08-12',
    bestQualityUntil: '2027-08-12',
  });
  await shelve(pages.db, {
    id: 'green-beans-260701-a',
    itemId: greenBeans,
    units: 4,
    madeOn: '2026-07-01',
    bestQualityUntil: '2027-07-01',
    jarKind: 'pint/regular',
  });
  await pages.app.listen({ host: '127.0.0.1', port: 0 });
  address = `http://127.0.0.1:${(pages.app.server.address() as AddressInfo).port}`;
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await pages.close();
});

const pointsPerMm = 72 / 25.4;
const pixelsPerMm = 96 / 25.4;

/** Media boxes of the pages of a PDF, in mm. */
const paperOf = (pdf: Buffer): { width: number; height: number }[] =>
  [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)\s*\]/g)].map(
    ([, left, bottom, right, top]) => ({
      width: (Number(right) - Number(left)) / pointsPerMm,
      height: (Number(top) - Number(bottom)) / pointsPerMm,
    }),
  );

const setGrid = async (fill: Record<string, string>) => {
  const answer = await pages.visitor.submitOn('/labels', {
    form: '/labels/grid',
    fill: { ...fill, measure: 'mm' },
  });
  expect(answer.status).toBe(303);
};

/** Boxes of the labels on paper, mm from the corner of their sheet, and their codes as black and white pixels. */
async function printed(path: string) {
  const page = await browser.newPage();
  await page.goto(`${address}${path}`);
  await page.emulateMedia({ media: 'print' });
  const boxes = (await page.evaluate(`[...document.querySelectorAll('.label')].map((label) => {
    const sheet = label.parentElement.getBoundingClientRect();
    const own = label.getBoundingClientRect();
    return { left: own.left - sheet.left, top: own.top - sheet.top, width: own.width, height: own.height,
      spills: label.scrollWidth > label.clientWidth + 1 || label.scrollHeight > label.clientHeight + 1 };
  })`)) as { left: number; top: number; width: number; height: number; spills: boolean }[];
  const codes = (await page.evaluate(
    `[...document.querySelectorAll('.label svg')].map((code) => code.outerHTML)`,
  )) as string[];
  const pdf = await page.pdf({ preferCSSPageSize: true });
  await page.close();
  return {
    paper: paperOf(pdf),
    boxes: boxes.map((box) => ({
      left: box.left / pixelsPerMm,
      top: box.top / pixelsPerMm,
      width: box.width / pixelsPerMm,
      height: box.height / pixelsPerMm,
      spills: box.spills,
    })),
    codes,
  };
}

/** What a reader of its own finds in a code drawn by the browser. */
async function decoded(code: string): Promise<string> {
  const page = await browser.newPage();
  const svg = code.replace('<svg', '<svg xmlns="http://www.w3.org/2000/svg" width="220" height="220"');
  const pixels = (await page.evaluate(`new Promise((done) => {
    const image = new Image();
    image.onload = () => {
      const canvas = document.createElement('canvas');
      canvas.width = canvas.height = 220;
      const pen = canvas.getContext('2d');
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, 220, 220);
      pen.drawImage(image, 0, 0);
      done([...pen.getImageData(0, 0, 220, 220).data]);
    };
    image.src = 'data:image/svg+xml,' + encodeURIComponent(${JSON.stringify(svg)});
  })`)) as number[];
  await page.close();
  return jsQR(new Uint8ClampedArray(pixels), 220, 220)?.data ?? 'nothing';
}

describe('labels on paper', () => {
  it('stand where the grid says, on the paper it says', async () => {
    await setGrid({
      paper: 'A4',
      columns: '3',
      rows: '7',
      widthMm: '63.5',
      heightMm: '38.1',
      leftMm: '7.2',
      topMm: '15.1',
      acrossMm: '2.5',
      downMm: '0',
    });

    const { paper, boxes } = await printed('/labels/sheet?lot-plum-jam-260812-a=9&start=1');

    expect(paper).toHaveLength(1);
    expect(paper[0]?.width).toBeCloseTo(210, 0);
    expect(paper[0]?.height).toBeCloseTo(297, 0);
    expect(boxes).toHaveLength(9);
    for (const [place, box] of boxes.entries()) {
      expect(box.left).toBeCloseTo(7.2 + (place % 3) * 66, 1);
      expect(box.top).toBeCloseTo(15.1 + Math.floor(place / 3) * 38.1, 1);
      expect(box.width).toBeCloseTo(63.5, 1);
      expect(box.height).toBeCloseTo(38.1, 1);
      expect(box.spills).toBe(false);
    }
  });

  it('begin at the first label that is left and go on to a second sheet', async () => {
    await setGrid({
      paper: 'Letter',
      columns: '2',
      rows: '5',
      widthMm: '101.6',
      heightMm: '50.8',
      leftMm: '4',
      topMm: '12.7',
      acrossMm: '4.8',
      downMm: '0',
    });

    const { paper, boxes } = await printed(
      '/labels/sheet?lot-plum-jam-260812-a=3&lot-green-beans-260701-a=1&start=8',
    );

    expect(paper).toHaveLength(2);
    expect(paper[0]?.width).toBeCloseTo(215.9, 0);
    expect(paper[0]?.height).toBeCloseTo(279.4, 0);
    expect(boxes.map(({ left, top }) => [Math.round(left), Math.round(top)])).toEqual([
      [110, 165],
      [4, 216],
      [110, 216],
      [4, 13],
    ]);
  });

  it('carry a code that opens the batch they stand for', async () => {
    const { codes } = await printed('/labels/sheet?lot-plum-jam-260812-a=1&lot-green-beans-260701-a=1');
    const [jam, beans] = await Promise.all(codes.map(decoded));

    expect([jam, beans]).toEqual([
      `${address}/shelf/lots/plum-jam-260812-a`,
      `${address}/shelf/lots/green-beans-260701-a`,
    ]);
    const opened = await fetch(jam ?? '', { redirect: 'manual' });
    expect(opened.headers.get('location')).toBe('/shelf/plum-jam?lot=plum-jam-260812-a');
  });

  it('bear a small label without spilling', async () => {
    await setGrid({
      paper: 'A4',
      columns: '4',
      rows: '12',
      widthMm: '45.7',
      heightMm: '21.2',
      leftMm: '9.7',
      topMm: '21.5',
      acrossMm: '2.5',
      downMm: '0',
    });

    const { boxes, codes } = await printed('/labels/sheet?lot-green-beans-260701-a=2');

    expect(boxes.map(({ spills }) => spills)).toEqual([false, false]);
    expect(await decoded(codes[0] ?? '')).toContain('/shelf/lots/green-beans-260701-a');
  });
});
