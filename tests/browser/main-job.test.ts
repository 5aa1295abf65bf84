import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser, patience } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';

// The main job in a real browser: set a target, see the weeks change, take a jar, see stock, projection and notice change,
// undo. Once on a phone with script, once with script switched off.

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

const phone = { width: 390, height: 844 };

const words = async (page: Page, selector: string): Promise<string> => {
  // biome-ignore lint/performance/useDomNodeTextContent: what a person sees, not what stands in the document
  const seen = await page.locator(selector).first().innerText();
  return seen.replace(/\s+/g, ' ').trim();
};

const open = (page: Page, path: string) => page.goto(`${demo.address}${path}`);

/** Quarts of peach halves that the plan puts up over the year, read off the item's page. */
const plannedQuarts = async (page: Page): Promise<number> => {
  await open(page, '/year/peach-halves');
  const text = await words(page, 'main');
  return [...text.matchAll(/put up (\d+) quarts?/g)].reduce((sum, found) => sum + Number(found[1]), 0);
};

/** What is made this week and in the weeks ahead. */
const weeksAhead = async (page: Page): Promise<string> => {
  await open(page, '/');
  return words(page, 'main');
};

/** One jar stands there, near its best-quality date: taking it empties the shelf and settles its notice. */
const lastJar = {
  path: 'grape-jelly',
  notice: '1 jar of Grape jelly ',
};

interface JarSeen {
  readonly left: string;
  readonly lasts: string;
  readonly isNoticed: boolean;
}

const lookAtJar = async (page: Page): Promise<JarSeen> => {
  await open(page, '/notices');
  // More of one kind are folded under the first.
  const listed = (await page.locator('main').first().textContent())?.replace(/\s+/g, ' ') ?? '';
  const isNoticed = listed.includes(lastJar.notice);
  await open(page, '/shelf');
  return { ...(await lookAtRow(page)), isNoticed };
};

const lookAtRow = async (page: Page): Promise<Omit<JarSeen, 'isNoticed'>> => ({
  left: await words(page, `#item-${lastJar.path} .shelf-left`),
  lasts: await words(page, `#item-${lastJar.path} .shelf-lasts`),
});

const jarStands = (seen: JarSeen): void => {
  expect(seen.left).toBe('1 half-pint');
  expect(seen.lasts).toMatch(/^Lasts to /);
  expect(seen.isNoticed).toBe(true);
};

const jarIsGone = (seen: JarSeen): void => {
  expect(seen.left).toBe('0 half-pints');
  expect(seen.lasts).toMatch(/^None on the shelf\./);
  expect(seen.isNoticed).toBe(false);
};

describe('the main job', () => {
  it('on a phone: the parts of the page change without loading it anew', async () => {
    const context = await browser.newContext({ viewport: phone });
    const page = await context.newPage();
    const broken: string[] = [];
    page.on('pageerror', (error) => broken.push(error.message));

    const before = { quarts: await plannedQuarts(page), weeks: await weeksAhead(page) };
    await open(page, '/targets/peach-halves');
    await page.getByLabel('Set by hand').fill('20');
    await page.getByRole('button', { name: 'Set', exact: true }).click();
    await page.getByText('A year needs 20 quarts.').waitFor();

    await open(page, '/');
    expect(await words(page, '#plan-status')).toContain('out of date');
    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByText('Nothing has changed since.').waitFor({ timeout: patience });
    expect(await weeksAhead(page)).not.toBe(before.weeks);
    expect(await plannedQuarts(page)).toBeLessThan(before.quarts - 10);

    jarStands(await lookAtJar(page));
    await page.evaluate('window.sameDocument = true');
    await page.getByLabel('Find on the shelf').fill('grape');
    await page.locator('#item-peach-jam').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Took one: Grape jelly' }).click();
    await page.getByText('Took 1 half-pint of Grape jelly').waitFor();
    expect(await page.evaluate('window.sameDocument')).toBe(true);
    expect(await lookAtRow(page)).toEqual({
      left: '0 half-pints',
      lasts: expect.stringMatching(/^None on the shelf\./),
    });
    jarIsGone(await lookAtJar(page));

    await page.getByRole('button', { name: 'Undo: Took 1 half-pint of Grape jelly' }).click();
    await page.locator(`#item-${lastJar.path} .take`).waitFor();
    expect((await lookAtRow(page)).left).toBe('1 half-pint');
    jarStands(await lookAtJar(page));

    expect(broken).toEqual([]);
    await context.close();
  });

  it('with script switched off: plain links and forms', async () => {
    const context = await browser.newContext({ viewport: phone, javaScriptEnabled: false });
    const page = await context.newPage();

    const before = { quarts: await plannedQuarts(page), weeks: await weeksAhead(page) };
    await open(page, '/targets/peach-halves');
    await page.getByLabel('Set by hand').fill('12');
    await page.getByRole('button', { name: 'Set', exact: true }).click();
    expect(await words(page, 'main')).toContain('A year needs 12 quarts.');

    await open(page, '/');
    await page.getByRole('button', { name: 'Plan again' }).click();
    const until = Date.now() + patience;
    while (!(await words(page, '#plan-status')).includes('Nothing has changed since.')) {
      if (Date.now() > until) throw new Error('expected the plan to be made by now');
      await page.waitForTimeout(2000);
      // The page offers a link to itself here; this browser keeps it hidden although script is off.
      await open(page, '/');
    }
    expect(await weeksAhead(page)).not.toBe(before.weeks);
    expect(await plannedQuarts(page)).toBeLessThan(before.quarts - 5);

    jarStands(await lookAtJar(page));
    await page.getByRole('button', { name: 'Took one: Grape jelly' }).click();
    expect(await words(page, '#undo')).toContain('Took 1 half-pint of Grape jelly');
    jarIsGone(await lookAtJar(page));

    await page.getByRole('button', { name: 'Undo: Took 1 half-pint of Grape jelly' }).click();
    jarStands(await lookAtJar(page));

    await context.close();
  });
});
