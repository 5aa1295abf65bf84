import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';

// A page is read on a phone with a thumb: each main page is so high at most at 390 px, in the season and in November.

const limits = [
  ['/', 4500],
  ['/kitchen', 3000],
  ['/buying', 3500],
  ['/items', 4000],
  ['/shelf', 3000],
  ['/year', 3600],
  ['/harvest', 1800],
  ['/targets', 3000],
  ['/look-back', 3500],
  ['/look-back/years', 4500],
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

/** Folded rows of a page, and how much of what is in them can be read while they are closed. */
const foldsOf = (page: Page) =>
  page.evaluate<{ folds: number; summaries: number; read: number; unread: number }>(`(() => {
    const folds = [...document.querySelectorAll('.phone-fold:not([open])')];
    const inThem = folds.flatMap((fold) => [...fold.querySelectorAll(':scope > :not(summary)')]);
    const isRead = (element) => element.checkVisibility({ contentVisibilityAuto: true }) && element.getBoundingClientRect().height > 0;
    return {
      folds: folds.length,
      summaries: folds.filter((fold) => isRead(fold.querySelector('summary'))).length,
      read: inThem.filter(isRead).length,
      unread: inThem.filter((element) => !isRead(element)).length,
    };
  })()`);

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

  test.each([
    ['/', 2],
    ['/kitchen', 7],
    ['/buying', 1],
  ])(
    '%s folds on a phone what can wait, a tap away, and shows it on a wide screen and on paper',
    async (path, least) => {
      await page.goto(demo.address + path);
      const onPhone = await foldsOf(page);
      expect(onPhone).toMatchObject({ summaries: onPhone.folds, read: 0 });
      expect(onPhone.folds).toBeGreaterThanOrEqual(least);
      await page.locator('.phone-fold:not([open]) > summary').first().click();
      expect((await foldsOf(page)).folds).toBe(onPhone.folds - 1);

      await page.goto(demo.address + path);
      await page.setViewportSize({ width: 1280, height: 900 });
      expect(await foldsOf(page)).toEqual({
        folds: onPhone.folds,
        summaries: 0,
        read: onPhone.unread,
        unread: 0,
      });
      if (path !== '/kitchen') {
        await page.emulateMedia({ media: 'print' });
        expect(await foldsOf(page)).toMatchObject({ folds: onPhone.folds, summaries: 0 });
        await page.emulateMedia({ media: 'screen' });
      }
      await page.setViewportSize({ width: 390, height: 844 });
    },
  );

  test('a link to a part that is one row on a phone opens it', async () => {
    await page.goto(`${demo.address}/kitchen`);
    await page.locator('.page-jump a[href="#places"]').click();
    await page.locator('#places .phone-fold[open]').waitFor();

    expect(await page.locator('#places .phone-fold > :not(summary)').first().isVisible()).toBe(true);
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
