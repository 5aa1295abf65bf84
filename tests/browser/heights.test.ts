import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';

// A page is read on a phone with a thumb: each main page is so high at most at 390 px, in the season and in November.

const limits = [
  ['/shelf', 3000],
  ['/year', 3600],
  ['/harvest', 1800],
  ['/targets', 3000],
  ['/look-back', 3500],
  ['/shelf/places', 2200],
  ['/glut?crop=peaches&amount=40&unit=lb', 2000],
] as const;
const canningDayLimit = 2000;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const heightOf = (page: Page): Promise<number> =>
  page.evaluate<number>('document.fonts.ready.then(() => document.documentElement.scrollHeight)');

describe.each([['2026-08-12'], ['2026-11-25']])('on a phone, on %s', (day) => {
  let demo: Demo;
  let page: Page;
  beforeAll(async () => {
    demo = await openDemo(asDate(day));
    page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  });
  afterAll(async () => {
    await page?.context().close();
    await demo?.close();
  });

  test.each(limits)('%s is at most %i px high', async (path, limit) => {
    const answer = await page.goto(demo.address + path);

    expect(answer?.status()).toBe(200);
    expect(await heightOf(page)).toBeLessThanOrEqual(limit);
  });

  test(`the canning day is at most ${canningDayLimit} px high before it is begun, and after`, async () => {
    await page.goto(`${demo.address}/canning-day`);
    expect(await heightOf(page)).toBeLessThanOrEqual(canningDayLimit);

    await page.getByRole('button', { name: 'Begin this canning day' }).click();
    await page.getByText('Begun', { exact: false }).first().waitFor();
    await page.waitForLoadState('load');

    expect(await page.getByRole('button', { name: 'Begin this canning day' }).count()).toBe(0);
    expect(await heightOf(page)).toBeLessThanOrEqual(canningDayLimit);
  });
});
