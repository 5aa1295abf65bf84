import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const screens = ['/', '/year', '/year/peach-halves', '/buying', '/notices', '/nothing-here'];

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  demo = await openDemo();
  browser = await launchBrowser();
}, 240_000);
afterAll(async () => {
  await browser.close();
  await demo.close();
});

/** A fresh visitor; what the page complained about is collected beside it. */
const visit = async (
  path: string,
  options: BrowserContextOptions = {},
): Promise<{ readonly page: Page; readonly complaints: string[]; close(): Promise<void> }> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (said) => {
    // The browser itself reports the status of a page that does not exist.
    if (said.type() === 'error' && !said.text().includes('404')) complaints.push(said.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(demo.address + path, { waitUntil: 'load' });
  return { page, complaints, close: () => context.close() };
};

interface AxeFinding {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** Runs axe in the page through the debugger, which the page's own policy does not bind. */
const axeFindings = async (page: Page): Promise<string[]> => {
  await page.evaluate(axe);
  const found = await page.evaluate<readonly AxeFinding[]>(
    "axe.run(document, { resultTypes: ['violations'] }).then((result) => result.violations)",
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary}`),
  );
};

describe('the planning screens', () => {
  for (const path of screens) {
    test(`${path} has nothing that axe objects to, on a phone, a tablet and a wide screen, light and dark`, async () => {
      for (const [width, colorScheme] of [
        [360, 'light'],
        [768, 'dark'],
        [1440, 'light'],
        [1440, 'dark'],
      ] as const) {
        const { page, complaints, close } = await visit(path, {
          viewport: { width, height: 800 },
          colorScheme,
        });

        expect(await axeFindings(page), `${width} ${colorScheme}`).toEqual([]);
        expect(complaints).toEqual([]);
        await close();
      }
    });

    test(`${path} never scrolls sideways, down to a phone and at twice the size`, async () => {
      for (const width of [320, 360, 720, 768, 1440]) {
        const { page, close } = await visit(path, { viewport: { width, height: 800 } });

        expect(
          await page.evaluate<number>('document.documentElement.scrollWidth'),
          `${width}`,
        ).toBeLessThanOrEqual(width);
        await close();
      }
    });
  }

  test('the first page comes over the wire in at most 60 kB with script, style and type, and nothing jumps', async () => {
    const context = await browser.newContext({ viewport: { width: 412, height: 823 } });
    const page = await context.newPage();
    const wire = await context.newCDPSession(page);
    await wire.send('Network.enable');
    let bytes = 0;
    wire.on('Network.loadingFinished', ({ encodedDataLength }) => {
      bytes += encodedDataLength;
    });
    await page.addInitScript(
      "window.jumped = 0; new PerformanceObserver((list) => { for (const shift of list.getEntries()) window.jumped += shift.value; }).observe({ type: 'layout-shift', buffered: true });",
    );

    await page.goto(demo.address, { waitUntil: 'networkidle' });

    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThanOrEqual(60_000);
    expect(await page.evaluate<number>('window.jumped')).toBe(0);
    await context.close();
  });

  test('figures stand under one another: every digit is as wide as every other, in both faces', async () => {
    const { page, close } = await visit('/year');

    const widths = await page.evaluate<
      number[][]
    >(`[...['', 'stamp']].map((face) => [...'0123456789'].map((digit) => {
      const word = document.createElement('span');
      word.className = face;
      word.textContent = digit.repeat(20);
      word.style.position = 'absolute';
      document.body.append(word);
      return Math.round(word.getBoundingClientRect().width * 10);
    }))`);

    for (const face of widths) expect(new Set(face).size).toBe(1);
    await close();
  });

  test('the keyboard reaches the skip link first and every board of the picture, and a board leads to its item', async () => {
    const { page, close } = await visit('/year');
    await page.keyboard.press('Tab');
    expect(await page.evaluate<string>('document.activeElement.textContent.trim()')).toBe('Skip to the page');

    await page.locator('.year-picture-wide .year-board').first().focus();
    const first = await page.evaluate<string>("document.activeElement.getAttribute('href')");
    await page.keyboard.press('Tab');
    expect(await page.evaluate<string>("document.activeElement.getAttribute('class')")).toBe('year-board');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.waitForURL(`**${first}`);

    expect(await page.locator('h1').count()).toBe(1);
    await close();
  });

  test('a change makes the plan out of date; plan again shows that it works and then the new plan', async () => {
    await demo.app.db
      .updateTable('household')
      .set((row) => ({ facts_version: row('facts_version', '+', 1) }))
      .execute();
    const { page, complaints, close } = await visit('/');
    expect(await page.locator('#plan-status').textContent()).toContain('it is out of date');

    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByText('Planning the year.').waitFor();
    await page.getByText('Nothing has changed since.').waitFor({ timeout: 110_000 });

    expect(complaints).toEqual([]);
    await close();
  });

  test('without script a plan is asked for by the same form, and a link looks whether it is done', async () => {
    const { page, close } = await visit('/buying', { javaScriptEnabled: false });

    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.waitForURL('**/buying');
    const state = await page.locator('#plan-status').textContent();

    expect(state).toMatch(/Planning the year\.|Planned on/);
    if (state?.includes('Planning')) await page.getByRole('link', { name: 'See whether it is done' }).click();
    await close();
  });
});
