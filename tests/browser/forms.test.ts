import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';
import { pagesOfDemo } from './pages-of-demo.ts';

// Every form of every page: its labels and fields stand on one grid, nothing of it leaves it, everything tapped is large enough,
// and an action of one rank looks the same everywhere. A form that was refused is seen where it has to be mended.

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  [demo, browser] = await Promise.all([openDemo(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

/** What leaves the grid on a page, every fold opened; a row has at most so many columns, counted from its own left edge. */
const offTheGrid = (mostColumns: number) => `(() => {
  const found = [];
  for (const fold of document.querySelectorAll('main details')) fold.open = true;
  const near = (one, other) => Math.abs(one - other) <= 1.5;
  const seen = (element) => element !== null && element.checkVisibility() && element.getBoundingClientRect().height > 0;
  const controlOf = (field) =>
    field.querySelector(':scope > .input-line > input, :scope > select, :scope > input, :scope > textarea, :scope > .choice');
  const nameOf = (field) => (field.querySelector('label, legend')?.textContent ?? '').trim().slice(0, 50);

  for (const field of [...document.querySelectorAll('main form .field')].filter(seen)) {
    const control = controlOf(field);
    const label = field.querySelector(':scope > label:not(.choice), :scope > legend');
    const box = field.getBoundingClientRect();
    if (control !== null) {
      const at = control.getBoundingClientRect();
      if (!near(at.left, box.left)) found.push(nameOf(field) + ': field at ' + (at.left - box.left));
      if (at.right > box.right + 1.5) found.push(nameOf(field) + ': wider than its place by ' + (at.right - box.right));
    }
    if (label !== null && !near(label.getBoundingClientRect().left, box.left))
      found.push(nameOf(field) + ': label at ' + (label.getBoundingClientRect().left - box.left));
    for (const line of field.querySelectorAll(':scope > .input-line')) {
      const last = line.lastElementChild.getBoundingClientRect();
      if (last.right > box.right + 1.5) found.push(nameOf(field) + ': its unit leaves it');
    }
    if (box.right > document.documentElement.clientWidth) found.push(nameOf(field) + ': leaves the screen');
  }

  for (const row of [...document.querySelectorAll('main form .form-row')].filter(seen)) {
    const { left, width } = row.getBoundingClientRect();
    const gap = parseFloat(getComputedStyle(row).columnGap);
    const columns = getComputedStyle(row).gridTemplateColumns.split(' ').length;
    if (columns < 2 || columns > ${mostColumns}) found.push('a row of ' + columns + ' columns');
    const step = (width + gap) / columns;
    const inRow = [...row.children].filter((child) => child.matches('.field:not(fieldset)') && seen(child));
    const tops = new Map();
    for (const field of inRow) {
      const box = field.getBoundingClientRect();
      const column = (box.left - left) / step;
      if (Math.abs(column - Math.round(column)) * step > 1.5)
        found.push(nameOf(field) + ': between two columns, at ' + column.toFixed(2));
      const beside = tops.get(Math.round(box.top)) ?? [];
      beside.push(field);
      tops.set(Math.round(box.top), beside);
    }
    for (const beside of tops.values()) {
      const boxes = beside.filter((field) => !field.querySelector(':scope > .choice')).map((field) => controlOf(field)?.getBoundingClientRect().top);
      if (boxes.some((top) => top !== undefined && !near(top, boxes[0])))
        found.push(beside.map(nameOf).join(' | ') + ': not on one line');
    }
  }

  for (const tapped of [...document.querySelectorAll('main :is(button, .button, select, summary, form input:not([type=hidden], [type=checkbox], [type=radio]), .choice)')].filter(seen)) {
    const { height, width } = tapped.getBoundingClientRect();
    if (height < 43.5 || width < 43.5)
      found.push((tapped.textContent || tapped.name).trim().slice(0, 40) + ': only ' + Math.round(width) + ' × ' + Math.round(height));
  }
  return [...new Set(found)];
})()`;

/**
 * Ranks that differ from what the table beside the button says: a form one fills in has its one button filled, a tap that
 * takes back, leaves off or puts off is words alone, and one label is of one rank on all pages.
 */
const ranks = `[...document.querySelectorAll('main form')].flatMap((form) => {
  const fields = form.querySelectorAll('input:not([type=hidden]), select, textarea').length;
  const buttons = [...form.querySelectorAll('button')];
  return buttons.map((button) => ({
    words: button.textContent.trim(),
    rank: [...button.classList].find((name) => /^button-(main|plain|quiet|grave)$/.test(name)),
    isFilledIn: fields > 0 && buttons.length === 1 && form.closest('search, .shelf-find, li') === null && form.method === 'post',
  }));
})`;

interface Ranked {
  readonly words: string;
  readonly rank: string | undefined;
  readonly isFilledIn: boolean;
}

const takesBack =
  /^(Undo|Remove|Stop (using|keeping|making)|Take this pack off|Not in this week|Do not buy|Remind me)/;

describe('every form', () => {
  let page: Page;
  beforeAll(async () => {
    page = await (await browser.newContext({ reducedMotion: 'reduce' })).newPage();
  });
  afterAll(() => page?.context().close());

  const onPhone = pagesOfDemo.filter(({ name }) => name !== 'not-found');
  it.each(onPhone)('$path stands on one grid, on a phone and on a wide screen', async ({ path }) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto(demo.address + path, { waitUntil: 'load' });
    expect(await page.evaluate<readonly string[]>(offTheGrid(2)), '390').toEqual([]);

    await page.setViewportSize({ width: 1280, height: 900 });
    expect(await page.evaluate<readonly string[]>(offTheGrid(4)), '1280').toEqual([]);
  });

  it('has its actions ranked alike on every page', async () => {
    const byWords = new Map<string, Set<string>>();
    const wrong: string[] = [];
    for (const { path } of onPhone) {
      await page.goto(demo.address + path, { waitUntil: 'load' });
      for (const { words, rank = 'none', isFilledIn } of await page.evaluate<readonly Ranked[]>(ranks)) {
        byWords.set(words, (byWords.get(words) ?? new Set()).add(rank));
        if (isFilledIn && !['button-main', 'button-grave'].includes(rank))
          wrong.push(`${path}: ${words} ${rank}`);
        if (takesBack.test(words) && rank !== 'button-quiet') wrong.push(`${path}: ${words} ${rank}`);
      }
    }

    expect(wrong).toEqual([]);
    expect(byWords.size).toBeGreaterThan(60);
    expect([...byWords].filter(([, all]) => all.size > 1)).toEqual([]);
  });
});

describe('a form that was refused', () => {
  it.each([
    ['/kitchen', '/kitchen/altitude', { altitude: 'very high' }],
    ['/kitchen', '/kitchen/fund', { balance: 'a lot' }],
    ['/kitchen', '/kitchen/away', { fromOn: '', lastOn: '' }],
    ['/kitchen', '/kitchen/places', { name: '' }],
    ['/kitchen', '/kitchen/household', { people: 'some' }],
    ['/targets/peach-halves', '/targets/peach-halves/declared-use', { amount: 'some' }],
    ['/items/peach-halves', '/items/peach-halves', { name: '' }],
    ['/harvest/new', '/harvest', { name: '' }],
    ['/shelf/put-up', '/shelf/lots', { units: '-1' }],
    ['/start', '/start', { fundWeekly: 'a few' }],
    ['/start', '/start', { people: 'a few' }],
    ['/labels', '/labels/grid', { columns: 'many' }],
    ['/power-cut', '/power-cut#advice', { startedAt: '' }],
    ['/notices/settings', '/notices/settings', { buyForSession: 'soon' }],
    ['/shelf/tallies', '/shelf/tallies', { 'units-peach-jam': 'several' }],
  ])('%s, %s is seen and typed in where it has to be mended', async (path, action, typed) => {
    const page = await (
      await browser.newContext({ viewport: { width: 390, height: 844 }, reducedMotion: 'reduce' })
    ).newPage();
    await page.goto(demo.address + path, { waitUntil: 'load' });
    const form = page.locator(`form[action="${action}"]`).first();
    await page.evaluate("document.querySelectorAll('main details').forEach((fold) => { fold.open = true; })");
    const fields = Object.entries(typed);
    for (const [name, value] of fields) {
      const field = form.locator(`[name="${name}"]`);
      if ((await field.count()) > 0) await field.first().fill(value);
    }
    await form.locator('button').last().click();
    await page.locator('.problem, form > .banner-problem, #message .banner-problem').first().waitFor();

    const at = await page.evaluate<{ focused: string; isAtFirst: boolean; isSeen: boolean }>(`(async () => {
      const told = document.querySelector('main .problem') ?? document.querySelector('form > .banner-problem, #message .banner-problem');
      const group = told.closest('.field, li, fieldset') ?? told;
      // The page may still be moving there.
      for (let left = 50; left > 0 && !group.contains(document.activeElement); left -= 1) await new Promise((after) => setTimeout(after, 100));
      const { top, bottom } = told.getBoundingClientRect();
      const bar = document.querySelector('.site-places').getBoundingClientRect().top;
      return {
        focused: document.activeElement.name ?? document.activeElement.className,
        isAtFirst: group.contains(document.activeElement),
        isSeen: top >= 0 && bottom <= bar,
      };
    })()`);
    await page.context().close();

    expect(at).toEqual({ focused: expect.any(String), isAtFirst: true, isSeen: true });
  });
});

/** Words that stand on a filled shape whose colors a browser replaces: it lays its own ground under them, and they are not read. */
const wordsLost = `(() => {
  const ground = (element) => {
    for (let one = element; one !== null; one = one.parentElement) {
      const { backgroundColor } = getComputedStyle(one);
      if (!/rgba\\(.*, 0\\)|transparent/.test(backgroundColor)) return { one, backgroundColor };
    }
    return null;
  };
  const page = getComputedStyle(document.body).backgroundColor;
  return [...document.querySelectorAll('body *')]
    .filter((element) => element.checkVisibility() && [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim() !== ''))
    .filter((element) => {
      const under = ground(element);
      if (under === null || under.backgroundColor === page) return false;
      const { color, forcedColorAdjust } = getComputedStyle(element);
      return !element.matches('input, select, option') && (forcedColorAdjust !== 'none' || color === under.backgroundColor);
    })
    .map((element) => element.className + ': ' + element.textContent.trim().slice(0, 30));
})()`;

describe('where a person has their own few colors', () => {
  it.each([['light'], ['dark']] as const)(
    'words on a filled button are read on every page, %s',
    async (colorScheme) => {
      const context = await browser.newContext({
        viewport: { width: 1280, height: 900 },
        forcedColors: 'active',
        colorScheme,
      });
      const page = await context.newPage();
      const lost: string[] = [];
      let filled = 0;
      for (const { path } of pagesOfDemo) {
        await page.goto(demo.address + path, { waitUntil: 'load' });
        filled += await page.locator('.button-main').count();
        lost.push(...(await page.evaluate<readonly string[]>(wordsLost)).map((words) => `${path}: ${words}`));
      }
      await context.close();

      expect(lost).toEqual([]);
      expect(filled).toBeGreaterThan(50);
    },
  );
});

describe('the time zone of a new household', () => {
  const zoneAtStart = async (options: {
    timezoneId: string;
    javaScriptEnabled: boolean;
  }): Promise<string> => {
    const context = await browser.newContext(options);
    const page = await context.newPage();
    await page.goto(`${demo.address}/start`, { waitUntil: 'load' });
    const chosen = await page.locator('select[name="timeZone"]').inputValue();
    await context.close();
    return chosen;
  };

  it.each([['Europe/Lisbon'], ['America/Denver'], ['Asia/Tokyo']])(
    'is proposed by the clock of the device: %s',
    async (timezoneId) => {
      expect(await zoneAtStart({ timezoneId, javaScriptEnabled: true })).toBe(timezoneId);
    },
  );

  it('is that of the region where nothing proposes one', async () => {
    expect(await zoneAtStart({ timezoneId: 'Europe/Lisbon', javaScriptEnabled: false })).toBe('');
  });
});
