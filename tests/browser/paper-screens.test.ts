import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { axeFindings, visitDemo } from './page-checks.ts';

// Look back, calendar, labels, files, the sheet at the pantry door and the notices' settings: nothing axe objects to, no
// sideways scrolling; the sheet on paper.

const screens = [
  '/look-back',
  '/calendar',
  '/labels',
  '/files',
  '/shelf/sheet',
  '/shelf/tallies',
  '/notices/settings',
];

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
    [1440, 'dark'],
  ] as const)('has nothing that axe objects to, %d wide, %s', async (width, colorScheme) => {
    const { page, complaints, close } = await visitDemo(browser, demo, path, {
      viewport: { width, height: 800 },
      colorScheme,
    });

    expect(await axeFindings(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await close();
  });

  it('never scrolls sideways', async () => {
    for (const width of [320, 1440]) {
      const { page, close } = await visitDemo(browser, demo, path, { viewport: { width, height: 800 } });

      const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
      expect(wide, `${width}`).toBeLessThanOrEqual(width);
      await close();
    }
  });
});

describe('the sheet at the pantry door, on paper', () => {
  it.each(['A4', 'Letter'])('takes no more than both sides of one sheet of %s', async (format) => {
    const { page, close } = await visitDemo(browser, demo, '/shelf/sheet');

    const pdf = (await page.pdf({ format })).toString('latin1');

    expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBeLessThanOrEqual(2);
    await close();
  });
});
