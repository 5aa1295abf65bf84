import type { Browser, BrowserContextOptions } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser, patience } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { pagesOnPaper, visitDemo } from './page-checks.ts';

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

const visit = (path: string, options: BrowserContextOptions = {}) => visitDemo(browser, demo, path, options);

describe('the planning screens', () => {
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

  test('what is fetched for a week at the stove has one day, on This week and on its canning day', async () => {
    const { page, close } = await visit('/');
    const ofWeek = await page.$$eval('.trip', (trips) =>
      trips.flatMap((trip) =>
        [...trip.querySelectorAll('.errands > li')].map((line) => ({
          line: `${line.querySelector('.errand-quantity')?.textContent} ${line.querySelector('.errand-what')?.firstChild?.textContent}`,
          day: trip.querySelector('h3')?.textContent?.replace('By ', '') ?? '',
        })),
      ),
    );
    // The same amount may be fetched again for the next week.
    const daysOf = (asked: string) => ofWeek.filter(({ line }) => line === asked).map(({ day }) => day);
    await page.goto(`${demo.address}/canning-day`);
    const title = await page.locator('summary h2', { hasText: 'Pick and buy by' }).textContent();
    const ofDay = await page.$$eval('#pick-and-buy .errands > li', (lines) =>
      lines.map((line) => ({
        line: `${line.querySelector('.errand-quantity')?.textContent} ${line.querySelector('.errand-what')?.firstChild?.textContent}`,
        where: line.querySelector('.errand-where')?.textContent ?? '',
      })),
    );
    const later = ofDay.filter(({ line }) => !daysOf(line).some((day) => title === `Pick and buy by ${day}`));

    expect(ofDay.filter(({ line }) => daysOf(line).length === 0)).toEqual([]);
    expect(later.length).toBeGreaterThan(0);
    expect(later.length).toBeLessThan(ofDay.length);
    const short = (day: string) => day.replace(/^\w+, August /, 'Aug ');
    expect(
      later.filter(({ line, where }) => !daysOf(line).some((day) => where.includes(short(day)))),
    ).toEqual([]);
    await close();
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

    await page.locator('.year-name').first().focus();
    const first = await page.evaluate<string>("document.activeElement.getAttribute('href')");
    await page.keyboard.press('Tab');
    expect(await page.evaluate<string>("document.activeElement.getAttribute('class')")).toBe('year-name');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.waitForURL(`**${first}`);

    expect(await page.locator('h1').count()).toBe(1);
    await close();
  });

  test('by the keyboard alone a jar is taken and put back, with the focus seen at every step', async () => {
    const { page, complaints, close } = await visit('/shelf');
    const focused = () =>
      page.evaluate<{ name: string; outline: string }>(`(() => {
        const at = document.activeElement;
        return { name: at.getAttribute('aria-label') ?? at.textContent.trim(), outline: getComputedStyle(at).outlineStyle };
      })()`);
    const walkTo = async (name: string): Promise<number> => {
      for (let steps = 1; steps <= 150; steps += 1) {
        await page.keyboard.press('Tab');
        const at = await focused();
        expect(at.outline, at.name).not.toBe('none');
        if (at.name === name) return steps;
      }
      throw new Error(`expected to reach “${name}” by Tab`);
    };

    await walkTo('Took one: Grape jelly');
    await page.keyboard.press('Enter');
    await page.getByText('Took 1 half-pint of Grape jelly').waitFor();
    await page.goto(`${demo.address}/shelf`);
    await walkTo('Undo: Took 1 half-pint of Grape jelly');
    await page.keyboard.press('Enter');
    await page.locator('#item-grape-jelly .take').waitFor();

    expect(complaints).toEqual([]);
    await close();
  });

  test('a change makes the plan out of date; plan again shows that it works and then the new plan', async () => {
    await demo.app.db
      .updateTable('household')
      .set((row) => ({ facts_version: row('facts_version', '+', 1) }))
      .execute();
    const { page, complaints, close } = await visit('/');
    expect(await page.locator('#plan-status').textContent()).toContain('it is out of date');
    await page.evaluate('window.sameDocument = true');

    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByText('Planning the year.').waitFor();
    await page
      .getByText(
        /[Tt]he best plan so far .*foods? lasts? until more comes: \d+ jars, \d+ hours in the kitchen, \$[\d,]+\./,
      )
      .waitFor();
    await page.locator('progress.plan-nearness').waitFor();
    await page.getByText('Nothing has changed since.').waitFor({ timeout: patience });

    // Drawn anew in its place: nothing that is being typed, and no page somebody is on the way to, is cut off.
    expect(await page.evaluate('window.sameDocument')).toBe(true);
    expect(new URL(page.url()).pathname).toBe('/');
    expect(complaints).toEqual([]);
    await close();
  });

  test('planning is stopped by a button: the plan before it stays, out of date', async () => {
    await demo.app.db
      .updateTable('household')
      .set((row) => ({ facts_version: row('facts_version', '+', 1) }))
      .execute();
    demo.plansWaitToBeStopped();
    const { page, complaints, close } = await visit('/year');

    await page.getByRole('button', { name: 'Plan again' }).click();
    await page.getByRole('button', { name: 'Stop planning' }).click();
    await page.getByText('it is out of date').waitFor({ timeout: patience });

    await page.locator('.year-name').nth(10).waitFor();
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

describe('the kitchen', () => {
  test('saves one part in place: the page is not loaded anew, and what hangs on it changes with it', async () => {
    const { page, complaints, close } = await visit('/kitchen');
    await page.evaluate('window.sameDocument = true');

    await page.locator('#altitude').getByLabel('Altitude of your kitchen').fill('2400');
    await page.locator('#altitude').getByRole('button', { name: 'Save' }).click();
    await page.locator('#altitude').getByText('2,400 ft is 732 m').waitFor();
    await page.locator('#altitude').getByRole('button', { name: 'Yes, keep it' }).click();
    await page.locator('#altitude').getByText('Saved.').waitFor();
    await page.locator('#altitude').getByText('2,400 ft').waitFor();
    await page.locator('#altitude').getByLabel('Altitude of your kitchen').fill('high');
    await page.locator('#altitude').getByRole('button', { name: 'Save' }).click();
    await page.locator('#altitude .problem').waitFor();

    expect(await page.evaluate('window.sameDocument')).toBe(true);
    expect(await page.locator('#altitude').getByLabel('Altitude of your kitchen').inputValue()).toBe('high');
    await page.locator('#altitude').getByLabel('Altitude of your kitchen').fill('1240');
    await page.locator('#altitude').getByRole('button', { name: 'Save' }).click();
    await page.locator('#altitude').getByRole('button', { name: 'Yes, keep it' }).click();
    await page.locator('#altitude').getByText('Saved.').waitFor();
    await page.locator('#altitude').getByText('1,240 ft').waitFor();
    // The browser itself reports the refusal.
    expect(complaints.filter((words) => !words.includes('422'))).toEqual([]);
    await close();
  });

  test('kilograms, litres and the days of another country are chosen in place and hold on every page', async () => {
    const { page, close } = await visit('/kitchen');
    const people = page.locator('#household');

    await people.getByText('kilograms, liters and meters').click();
    await people.getByLabel('Date format').selectOption('en-GB');
    await people.getByText('Monday').click();
    await people.getByRole('button', { name: 'Save' }).click();
    await page.locator('#household').getByText('Saved.').waitFor();
    const storage = await page.locator('#storage').textContent();
    await page.goto(`${demo.address}/`);
    const week = await page.locator('main').textContent();
    await page.goto(`${demo.address}/kitchen`);
    await people.getByText('pounds, quarts and feet').click();
    await people.getByLabel('Date format').selectOption('en-US');
    await people.getByText('Sunday').click();
    await people.getByRole('button', { name: 'Save' }).click();
    await page.locator('#household').getByText('Saved.').waitFor();

    expect(storage).toContain('L');
    expect(week).toContain('Week of 10 Aug');
    expect(week).toMatch(/\d kg/);
    expect(week).not.toMatch(/\d lb\b/);
    await close();
  });
});

describe('on paper', () => {
  test.each([
    ['/year/sheet', 'A4', 1],
    ['/year/sheet', 'Letter', 1],
    ['/shelf/sheet', 'A4', 2],
    ['/shelf/sheet', 'Letter', 2],
  ])('%s of %s takes no more than %d page', async (path, format, most) => {
    const { page, close } = await visit(path);

    const pages = pagesOnPaper(await page.pdf({ format }));

    expect(pages).toBeGreaterThan(0);
    expect(pages).toBeLessThanOrEqual(most);
    await close();
  });

  // What is drawn on what: where both come out alike, the picture says nothing any more.
  const drawnOn = [
    ['/look-back', '.ran-out rect', 'fill', '.ran-out svg', 'background-color'],
    ['/year', '.stock-low', 'fill', 'body', 'background-color'],
    ['/year', '.bare g rect', 'fill', '.bare-hole', 'fill'],
    ['/year', '.board-picture .jar', 'fill', 'body', 'background-color'],
    ['/shelf/places', '.jars', 'fill', 'body', 'background-color'],
    ['/shelf/places', '.jar-room', 'stroke', 'body', 'background-color'],
    ['/glut?crop=peaches&amount=40&unit=lb', '.jars', 'fill', 'body', 'background-color'],
  ] as const;

  test.each([
    ['its own colors', {}],
    ['a dark screen', { colorScheme: 'dark' }],
    ['colors a person has forced', { forcedColors: 'active' }],
    ['forced colors on a dark screen', { forcedColors: 'active', colorScheme: 'dark' }],
  ] as const)('in %s every picture stands out from what it is drawn on', async (_, options) => {
    for (const [path, mark, markIn, ground, groundIn] of drawnOn) {
      const { page, close } = await visit(path, options);
      const [drawn, under] = await page.evaluate<[string, string]>(
        `[[${JSON.stringify(mark)}, ${JSON.stringify(markIn)}], [${JSON.stringify(ground)}, ${JSON.stringify(groundIn)}]]
          .map(([selector, property]) => getComputedStyle(document.querySelector(selector)).getPropertyValue(property))`,
      );

      expect(drawn, `${path} ${mark}`).not.toBe('');
      expect(drawn, `${path} ${mark} on ${ground}`).not.toBe(under);
      await close();
    }
  });

  test('on paper look back names what to make more of, and Places every batch, folded or not', async () => {
    const { page, close } = await visit('/look-back');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.proposals .item-name').first().isVisible()).toBe(true);
    expect(
      await page
        .locator('.proposals')
        .getByText(/^Accept /)
        .first()
        .isVisible(),
    ).toBe(true);

    await page.goto(`${demo.address}/shelf/places`);
    await page.emulateMedia({ media: 'print' });
    const heights = await page.evaluate<number[]>(
      "[...document.querySelectorAll('.place-batches')].map((batches) => batches.getBoundingClientRect().height)",
    );
    expect(heights.length).toBeGreaterThan(2);
    for (const height of heights) expect(height).toBeGreaterThan(20);
    await close();
  });
});
