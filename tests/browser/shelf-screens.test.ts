import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { axeFindings, visitDemo } from './page-checks.ts';

// Shelf, targets, harvest and kitchen: nothing axe objects to, no sideways scrolling, every fold opened.

const screens = [
  '/shelf',
  '/shelf/crushed-tomatoes',
  '/shelf/count',
  '/shelf/count?item=peach-jam',
  '/shelf/put-up',
  '/targets',
  '/targets/green-beans',
  '/harvest',
  '/harvest/new',
  '/harvest/peach-orchard',
  '/kitchen',
];
const openEveryFold = "document.querySelectorAll('details').forEach((fold) => { fold.open = true; })";

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
}, 240_000);
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

describe.each(screens)('%s', (path) => {
  it.each([
    [360, 'light'],
    [360, 'dark'],
    [1440, 'light'],
  ] as const)('has nothing that axe objects to, %d wide, %s', async (width, colorScheme) => {
    const { page, complaints, close } = await visitDemo(browser, demo, path, {
      viewport: { width, height: 800 },
      colorScheme,
    });
    await page.evaluate(openEveryFold);

    expect(await axeFindings(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it('never scrolls sideways', async () => {
    for (const width of [320, 360, 768, 1440]) {
      const { page, close } = await visitDemo(browser, demo, path, { viewport: { width, height: 800 } });
      await page.evaluate(openEveryFold);

      const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
      expect(wide, `${width}`).toBeLessThanOrEqual(width);
      await close();
    }
  });
});
