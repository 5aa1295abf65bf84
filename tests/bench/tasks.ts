import type { Locator, Page } from 'playwright-core';
import { launchBrowser } from '../browser/browser.ts';
import { type Demo, openDemo } from '../browser/demo.ts';

// What a household does, on a phone of 390 × 844: for each the taps, the fields that are filled, how many screens are
// scrolled to reach what is tapped, and whole pages that load. A page that loads again at its top, though somebody stood
// further down in it, has lost the place. No task over four taps and one and a half screens; a jar is taken with two and one.

const screen = { width: 390, height: 844 };
/** What stands over the page at its foot: the places. */
const footPx = 60;
const limits = { taps: 4, screens: 1.5 };

interface Walked {
  taps: number;
  fields: number;
  scrolledPx: number;
  loads: number;
  placesLost: number;
}

/** A hand on a phone: it scrolls as far as it has to, and taps. */
const handOn = (page: Page) => {
  const walked: Walked = { taps: 0, fields: 0, scrolledPx: 0, loads: 0, placesLost: 0 };
  const stand = () => page.evaluate<{ y: number; path: string }>('({ y: scrollY, path: location.pathname })');
  let before = { y: 0, path: '' };
  page.on('load', () => {
    walked.loads += 1;
  });
  const reach = async (what: Locator): Promise<void> => {
    const at = await what.first().boundingBox();
    if (at === null) throw new Error(`not in sight: ${what}`);
    const { y } = await stand();
    const below = at.y + at.height - (screen.height - footPx);
    const by = at.y < 0 ? at.y : Math.max(0, below);
    if (by !== 0) await page.evaluate(`window.scrollTo(0, ${Math.ceil(y + by)})`);
    walked.scrolledPx += Math.abs(by);
    before = await stand();
  };
  /** How far below the screen an answer stands that has to be read. */
  const read = async (what: Locator): Promise<void> => {
    await what.first().waitFor();
    await reach(what);
  };
  const tap = async (what: Locator, answer?: Locator): Promise<void> => {
    await what.first().waitFor();
    await reach(what);
    walked.taps += 1;
    const loads = walked.loads;
    await what.first().click();
    if (answer !== undefined) await answer.first().waitFor();
    else await page.waitForLoadState('load');
    await page.waitForTimeout(400);
    const now = await stand();
    if (walked.loads > loads && now.path === before.path && before.y > 200 && now.y === 0)
      walked.placesLost += 1;
  };
  const fill = async (what: Locator, words: string): Promise<void> => {
    await what.first().waitFor();
    await reach(what);
    walked.fields += 1;
    await what.first().fill(words);
  };
  return { walked, tap, fill, read };
};

type Hand = ReturnType<typeof handOn>;
interface Task {
  readonly name: string;
  readonly from: string;
  readonly walk: (page: Page, hand: Hand) => Promise<void>;
}

const place = (page: Page, name: string) =>
  page.locator('.site-places').getByRole('link', { name, exact: true });
const allPages = (page: Page) => page.getByRole('button', { name: 'All pages' });
const onSheet = (page: Page, name: string) =>
  page.locator('#all-places').getByRole('link', { name, exact: true });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

const tasks: readonly Task[] = [
  {
    name: 'take one, of an item high on the shelf',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(place(page, 'Shelf'));
      await hand.tap(button(page, 'Took one: Peach jam'), page.locator('#undo'));
    },
  },
  {
    name: 'take one, of the last item on the shelf',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(place(page, 'Shelf'));
      const last = page.locator('.take .button-big').last();
      const name = (await last.getAttribute('aria-label'))?.replace('Took one: ', '') ?? '';
      await hand.fill(page.getByLabel('Find on the shelf'), name);
      await page.waitForTimeout(900);
      await hand.tap(button(page, `Took one: ${name}`), page.locator('#undo'));
    },
  },
  {
    name: 'undo a take',
    from: '/shelf',
    walk: async (page, hand) => {
      await hand.tap(button(page, /^Undo: /), page.locator('#undo'));
    },
  },
  {
    name: 'several at once, given away',
    from: '/shelf',
    walk: async (page, hand) => {
      const row = page.locator('#item-peach-jam');
      await hand.tap(row.locator('.take-other summary'), row.locator('.take-details'));
      await hand.fill(row.getByLabel('How many'), '2');
      await hand.tap(row.getByRole('button', { name: 'Given away, jar and all' }), page.locator('#undo'));
    },
  },
  {
    name: 'buy a line of the list',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(allPages(page), page.locator('#all-places'));
      await hand.tap(page.locator('#all-places').getByRole('link', { name: 'Shopping' }));
      await hand.tap(button(page, /^Bought: /), page.locator('.settled-lines'));
    },
  },
  {
    name: 'which week do I can peach halves',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(place(page, 'The year'));
      await hand.tap(page.locator('main a[href^="/year/peach-halves"]:visible'));
      await hand.read(page.locator('#planned'));
    },
  },
  {
    name: 'change a target',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(allPages(page), page.locator('#all-places'));
      await hand.tap(onSheet(page, 'How much'));
      await hand.tap(page.locator('main a[href="/targets/peach-halves"]:visible'));
      await hand.fill(page.getByLabel('Set by hand'), '20');
      await hand.tap(
        page.getByRole('button', { name: 'Set', exact: true }),
        page.getByText('A year needs 20 quarts.'),
      );
    },
  },
  {
    name: 'clear a notice',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(page.locator('#notice-count a'));
      await hand.tap(button(page, /Done/));
    },
  },
  {
    name: 'count an item, and the next',
    from: '/shelf',
    walk: async (page, hand) => {
      await hand.tap(page.getByRole('link', { name: 'Count the shelf' }));
      await hand.tap(page.locator('main a[href*="/shelf/count?item="]:visible'));
      const field = page.locator('main form input[inputmode]').first();
      await hand.fill(field, '1');
      await hand.tap(page.locator('main form button[type=submit]').first());
    },
  },
  {
    name: 'what a glut can become',
    from: '/glut',
    walk: async (page, hand) => {
      await hand.fill(page.locator('[name="crop"]'), 'peaches').catch(() =>
        page
          .locator('select[name="crop"]')
          .selectOption('peaches')
          .then(() => undefined),
      );
      await hand.fill(page.locator('[name="amount"]'), '40');
      await hand.tap(button(page, 'What can it become?'));
      await hand.read(page.locator('main h2').nth(0));
    },
  },
  {
    name: 'use an answer to a glut',
    from: '/glut?crop=green+beans&amount=30&unit=lb',
    walk: async (page, hand) => {
      await hand.tap(button(page, /^Use this plan/), page.locator('#glut-plan'));
    },
  },
  {
    name: 'and undo it',
    from: '/glut',
    walk: async (page, hand) => {
      await hand.tap(button(page, /^Undo: .* in the plan/), page.getByText('Undone.'));
    },
  },
  {
    name: 'see the canning day and begin it',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(allPages(page), page.locator('#all-places'));
      await hand.tap(onSheet(page, 'Canning day'));
      await hand.tap(button(page, 'Begin this canning day'), page.locator('#loads'));
    },
  },
  {
    name: 'tick the next step',
    from: '/canning-day',
    walk: async (page, hand) => {
      const next = page.locator('.load-fold[open] .tick').first();
      await hand.tap(next);
    },
  },
  {
    name: 'start the clock of a load',
    from: '/canning-day',
    walk: async (page, hand) => {
      await hand.tap(button(page, /start the clock/), page.locator('[data-remaining-ms], .banner-problem'));
    },
  },
  {
    name: 'write down what came out',
    from: '/canning-day',
    walk: async (page, hand) => {
      await hand.tap(page.getByRole('link', { name: 'Write down what came out' }));
      const typed = async (label: string, value: string) => {
        const field = page.getByLabel(label);
        if ((await field.count()) > 0 && (await field.first().inputValue()) === '')
          await hand.fill(field, value);
      };
      await typed('How many came out', '7');
      await typed('Minutes without a break', '30');
      await typed('Who watched the canner', 'Anna');
      await hand.tap(button(page, 'Put on the shelf'), page.locator('#results'));
    },
  },
  {
    name: 'plan again',
    from: '/',
    walk: async (page, hand) => {
      await hand.tap(button(page, 'Plan again'), page.getByText('Planning the year.'));
    },
  },
];

const walkAll = async (demo: Demo): Promise<number> => {
  const browser = await launchBrowser();
  const context = await browser.newContext({ viewport: screen, hasTouch: true });
  let over = 0;
  console.log('task                                            taps fields screens loads  place');
  for (const { name, from, walk } of tasks) {
    const page = await context.newPage();
    await page.goto(demo.address + from, { waitUntil: 'load' });
    const hand = handOn(page);
    let said = '';
    await walk(page, hand).catch((cause: Error) => {
      said = `  could not be walked: ${cause.message.split('\n')[0]}`;
    });
    const { taps, fields, scrolledPx, loads, placesLost } = hand.walked;
    const screens = scrolledPx / screen.height;
    const most = name.startsWith('take one') ? { taps: 2, screens: 1 } : limits;
    const isOver = said !== '' || taps > most.taps || screens > most.screens || placesLost > 0;
    if (isOver) over += 1;
    console.log(
      `${name.padEnd(46)} ${String(taps).padStart(5)} ${String(fields).padStart(6)} ${screens.toFixed(2).padStart(7)} ${String(loads).padStart(5)}  ${placesLost > 0 ? 'lost' : 'kept'}${isOver ? '  over' : ''}${said}`,
    );
    await page.close();
  }
  await context.close();
  await browser.close();
  return over;
};

const demo = await openDemo();
const over = await walkAll(demo);
await demo.close();
if (over > 0) console.log(`${over} of ${tasks.length} over their limit`);
process.exitCode = over > 0 ? 1 : 0;
