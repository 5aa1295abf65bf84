import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addTomatoes, type CanningPages, canningPages, dayPath } from '../builders/canning-pages.ts';
import { launchBrowser } from './browser.ts';

let pages: CanningPages;
let browser: Browser;
let address = '';

beforeAll(async () => {
  pages = await canningPages([
    { recipe: 'plum-jam-batch', batches: 2 },
    { recipe: 'green-beans-batch', batches: 2 },
    { recipe: 'tomato-batch', batches: 2 },
  ]);
  await addTomatoes(pages);
  await pages.begin();
  await pages.visitor.submitOn('/canning-day', { form: `${dayPath}/sheets` });
  address = await pages.app.listen({ host: '127.0.0.1', port: 0 });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await pages.close();
});

const pagesIn = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;

describe('a long canning day on paper: three recipes, six loads', () => {
  test.each([
    ['its sheet', `${dayPath}/sheets/1`, 'A4'],
    ['its sheet', `${dayPath}/sheets/1`, 'Letter'],
    ['the page itself', '/canning-day', 'Letter'],
  ])('%s (%s) fits on the two sides of one paper, %s', async (_, path, format) => {
    const page = await browser.newPage();
    await page.goto(`${address}${path}`);

    const pdf = await page.pdf({ format });

    expect(pagesIn(pdf)).toBeGreaterThan(0);
    expect(pagesIn(pdf)).toBeLessThanOrEqual(2);
    await page.close();
  });

  test('is printed in black on white, also from a dark screen', async () => {
    const page = await browser.newPage({ colorScheme: 'dark' });
    await page.goto(`${address}${dayPath}/sheets/1`);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });

    const inks = await page.$$eval('.paper-sheet, .paper-sheet *', (parts) => [
      ...new Set(parts.map((part) => getComputedStyle(part).color)),
    ]);

    expect(inks.every((ink) => ['rgb(0, 0, 0)', 'rgb(51, 51, 51)'].includes(ink))).toBe(true);
    await page.close();
  });
});

describe('the loads of the day', () => {
  test('only the load at hand is unfolded; the others open by the keyboard, without any script', async () => {
    const page = await browser.newPage({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
    await page.goto(`${address}/canning-day`);
    const folds = page.locator('.load-fold');

    expect(await folds.count()).toBe(6);
    expect(await page.locator('.load-fold[open]').count()).toBe(1);
    expect(await folds.last().locator('.tick').first().isVisible()).toBe(false);
    expect(await folds.last().locator('.load-short').textContent()).toMatch(/\d min.*not started/);
    await folds.last().locator('.load-head').focus();
    await page.keyboard.press('Enter');
    expect(await folds.last().locator('.tick').first().isVisible()).toBe(true);
    await page.close();
  });
});

describe('the clock of a load', () => {
  test('counts down in the browser, and names the time due without any script', async () => {
    const jam = 'plum-jam-batch.1.1';
    const load = `${dayPath}/loads/${jam}`;
    await pages.visitor.submitOn('/canning-day', {
      form: `${load}/ticks`,
      fill: { tick: 'sterilize:yes' },
    });
    await pages.visitor.submitOn('/canning-day', { form: `${load}/clock`, fill: { event: 'started' } });
    const withScript = await browser.newPage();
    const withoutScript = await browser.newPage({ javaScriptEnabled: false });

    await withScript.goto(`${address}/canning-day`);
    await withScript.waitForFunction(() =>
      /^\d+:\d\d$/.test(document.querySelector('#clocks .clock-left')?.textContent ?? ''),
    );
    await withoutScript.goto(`${address}/canning-day`);

    expect(await withScript.textContent('#clocks .clock-left')).toMatch(/^(10:00|9:5\d)$/);
    expect(await withoutScript.textContent('.load-running .clock-due')).toMatch(/Due 9:10\sAM/);
    expect(await withoutScript.textContent('#clocks .clock-left')).toMatch(/^\d+:\d\d\s[AP]M$/);
    await withScript.close();
    await withoutScript.close();
  });
});
