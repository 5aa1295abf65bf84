import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { axeFindings, coveredWords, watchedPage } from './page-checks.ts';
import { pagesBehindLinks, pagesOfDemo } from './pages-of-demo.ts';

// Every page and the states it can be in, on a phone, a tablet and a wide screen, light and dark, every fold opened:
// nothing that axe objects to, nothing that scrolls sideways, no words under a button, no complaint of the browser. One page of one browser goes
// through all of them; it is only resized and recoloured, without the moment a colour takes to change.

const looks = [
  [360, 'light'],
  [768, 'dark'],
  [1440, 'light'],
  [1440, 'dark'],
  [768, 'light'],
  [360, 'dark'],
] as const;

/** Each page is held in one of the looks, the next page in the next; `npm run bench:pages` holds every page in all of them. */
const looksOf = (page: number) =>
  process.env.EVERY_LOOK === '1' ? looks : looks.filter((_, look) => look === page % looks.length);

/** Half of a phone's width again, and what a wide screen shows at twice the size: only looked at for sideways scrolling. */
const otherWidths = [320, 720];

const openEveryFold = "document.querySelectorAll('details').forEach((fold) => { fold.open = true; })";

let demo: Demo;
let browser: Browser;
let page: Page;
let complaints: string[];
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    reducedMotion: 'reduce',
  });
  ({ page, complaints } = await watchedPage(context));
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

const width = () => page.evaluate<number>('document.documentElement.scrollWidth');

let held = 0;
const hold = async (): Promise<void> => {
  held += 1;
  await page.evaluate(openEveryFold);
  for (const [wide, colorScheme] of looksOf(held)) {
    await page.setViewportSize({ width: wide, height: 800 });
    await page.emulateMedia({ colorScheme });
    expect(await axeFindings(page), `${wide} ${colorScheme}`).toEqual([]);
    expect(await coveredWords(page), `${wide}`).toEqual([]);
    expect(await width(), `${wide}`).toBeLessThanOrEqual(wide);
  }
  for (const wide of otherWidths) {
    await page.setViewportSize({ width: wide, height: 800 });
    expect(await width(), `${wide}`).toBeLessThanOrEqual(wide);
  }
  expect(complaints.splice(0)).toEqual([]);
};

describe('every page', () => {
  it.each(pagesOfDemo)('$path', async ({ name, path }) => {
    const answer = await page.goto(demo.address + path, { waitUntil: 'load' });

    // A page that is meant to be there is, so that nothing is held to a page that says it does not exist.
    expect(answer?.status()).toBe(name === 'not-found' ? 404 : 200);
    await hold();
  });
});

describe('every page behind a link', () => {
  it.each(pagesBehindLinks)('$begins on $page', async ({ page: from, begins }) => {
    await page.goto(demo.address + from, { waitUntil: 'load' });
    const href = await page.locator(`a[href^="${begins}"]`).first().getAttribute('href');
    const answer = await page.goto(demo.address + href, { waitUntil: 'load' });

    expect(answer?.status()).toBe(200);
    await hold();
  });
});

describe('on a phone', () => {
  const onPhone = async (path: string) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.emulateMedia({ colorScheme: 'light' });
    await page.goto(demo.address + path, { waitUntil: 'load' });
  };

  const height = () => page.evaluate<number>('document.documentElement.scrollHeight');

  it.each([
    ['/year', 3600],
    ['/look-back', 3500],
    ['/shelf', 3000],
    ['/harvest', 1800],
    ['/targets', 3000],
    ['/canning-day', 2000],
  ])('%s is no longer than %d pixels', async (path, longest) => {
    await onPhone(path);

    expect(await height()).toBeLessThanOrEqual(longest);
  });

  it.each(['/', '/buying', '/canning-day', '/glut', '/kitchen', '/shelf/put-up', '/notices'])(
    '%s has no words under a button, folded and open',
    async (path) => {
      await onPhone(path);
      expect(await coveredWords(page)).toEqual([]);
      await page.evaluate(openEveryFold);
      expect(await coveredWords(page)).toEqual([]);
    },
  );

  it('all pages come over the page, search first, and its place is kept', async () => {
    await onPhone('/shelf');
    await page.evaluate('window.scrollTo(0, 900)');
    const before = await page.evaluate<number>('window.scrollY');

    await page.click('.place-more button');
    const sheet = page.locator('#all-places');
    await sheet.waitFor({ state: 'visible' });
    expect(await sheet.locator('input, a').first().getAttribute('name')).toBe('q');
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'hidden' });

    expect(await page.evaluate<number>('window.scrollY')).toBe(before);
  });

  it('a canning day that was begun is one thing at a time: short, its clock on every page, and nothing axe objects to', async () => {
    await onPhone('/canning-day');
    await page.getByRole('button', { name: 'Begin this canning day' }).click();
    await page.locator('#loads').waitFor();
    const heights = [await height()];
    const next = page.locator('.load-fold[open] > form[aria-label^="Next steps"] .tick');
    // Where the first load waits for its clock.
    for (let left = 40; left > 0 && (await next.count()) > 0; left -= 1) {
      const words = await next.first().textContent();
      await next.first().click();
      await page.waitForFunction(
        ([before]) =>
          document.querySelector('.load-fold[open] > form[aria-label^="Next steps"] .tick')?.textContent !==
          before,
        [words] as const,
      );
    }
    await page.getByRole('button', { name: 'start the clock' }).click();
    await page.locator('#clocks [data-remaining-ms]').waitFor();
    heights.push(await height());

    expect(Math.max(...heights)).toBeLessThanOrEqual(2000);
    expect(await axeFindings(page)).toEqual([]);
    await onPhone('/shelf');
    await page
      .locator('#clocks')
      .getByText(/^\d+:\d\d$/)
      .waitFor();
    await page.reload();
    await page
      .locator('#clocks')
      .getByText(/^\d+:\d\d$/)
      .waitFor();
    expect(await axeFindings(page)).toEqual([]);
    complaints.splice(0);
  });

  it('a row of the shelf says more when it is opened', async () => {
    await onPhone('/shelf');
    const row = page.locator('.shelf-row:has(.take-other)').first();

    expect(await row.locator('.shelf-lasts').isVisible()).toBe(false);
    await row.locator('.take-other summary').click();
    expect(await row.locator('.shelf-lasts').isVisible()).toBe(true);
    expect(await row.locator('.take-which').isVisible()).toBe(true);
  });
});

describe('every form that was sent back', () => {
  it.each([
    ['/kitchen', '/kitchen/altitude', { altitude: 'very high' }],
    ['/kitchen', '/kitchen/away', { fromOn: '', lastOn: '' }],
    ['/targets/peach-halves', '/targets/peach-halves/declared-use', { amount: 'some' }],
    ['/items/peach-halves', '/items/peach-halves', { name: '' }],
    ['/harvest/new', '/harvest', { name: '' }],
    ['/shelf/put-up', '/shelf/lots', { units: '-1' }],
    ['/start', '/start', { people: 'a few' }],
  ])('%s, %s', async (path, action, typed) => {
    await page.goto(demo.address + path, { waitUntil: 'load' });
    await page.evaluate(openEveryFold);
    await page.evaluate(
      ([sentTo, values]) => {
        const form = document.querySelector<HTMLFormElement>(`form[action="${sentTo}"]`);
        for (const [name, value] of Object.entries(values)) {
          const field = form?.elements.namedItem(name);
          if (field instanceof HTMLInputElement) field.value = value;
        }
        form?.submit();
      },
      [action, typed] as const,
    );
    await page.locator('.problem, .banner-problem').first().waitFor();
    // The browser itself reports that the form was refused.
    complaints.splice(0);

    await hold();
  });
});
