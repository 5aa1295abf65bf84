import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { jarsOfYear } from '../../../../src/planning/answer/jars-of-year.ts';
import { plannedQuinceYard } from '../../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await plannedQuinceYard();
}, planning);
afterAll(() => pages.close());

const open = async (path: string) => (await pages.visitor.open(path)).body;

describe('the year', () => {
  test('says of each item in one breath what is left, how long it lasts and what comes', async () => {
    const words = wordsOf(await open('/year'));

    expect(words).toMatch(/Green beans 6 pints left\. Lasts to \w+ \w+/);
    expect(words).toMatch(/Plum jam 2 half-pints left\. Lasts to \w+ \w+/);
    expect(words).toContain('Next plums now');
    expect(words).toMatch(/Rolled oats 0 lb left\. .*Next any week in the shop/);
  });

  test('hangs a board for everything, what runs out first on top and what is bought in time behind a touch', async () => {
    const body = await open('/year');
    const boards = [...body.matchAll(/class="year-name" href="\/year\/([^"]+)"/g)].map((found) => found[1]);
    const behind = body.slice(body.indexOf('<details id="staples"'));
    const goesBare = [...body.matchAll(/<li class="year-row[^"]*"/g)].map(([row]) =>
      row.includes('goes-bare'),
    );

    expect(boards.toSorted()).toEqual(['cured-pickles', 'green-beans', 'oats', 'plum-jam']);
    expect(goesBare).toEqual(goesBare.toSorted((one, other) => Number(other) - Number(one)));
    expect(
      [...behind.matchAll(/class="year-name" href="\/year\/([^"]+)"/g)].every(([, id]) => id === 'oats'),
    ).toBe(true);
  });

  test('hatches the harvest under the board of what is made from it', async () => {
    expect(await open('/year')).toContain('<title>Plum tree: Aug 10 to Sep 13</title>');
  });

  test('shows hours and money against their limits, with the figures behind', async () => {
    const words = wordsOf(await open('/year/weeks'));

    expect(words).toContain('Kitchen hours by week');
    expect(words).toContain('Season fund'.toLowerCase());
  });
});

describe('jars by size', () => {
  test('a week never has more in use than there are, and the first starts from what is on the shelf', async () => {
    const plan = await newestPlan(pages.db, quinceYard);
    if (plan === null) throw new Error('expected a plan');

    const sizes = jarsOfYear(plan);

    // No half-pint stands empty and 2 stand full; of pints and quarts nobody counted the empty ones, so there are none.
    const boughtOf = (size: string) =>
      plan.plan.weeks
        .flatMap(({ purchases }) => purchases)
        .filter(({ kind, what }) => kind === 'jars' && what.startsWith(`${size}/`))
        .reduce((sum, { quantity }) => sum + quantity, 0);
    expect(boughtOf('half-pint')).toBeGreaterThan(0);
    expect(boughtOf('pint')).toBeGreaterThan(0);
    const bySize = new Map(sizes.map((jars) => [jars.size, jars]));
    expect([...bySize.keys()].sort()).toEqual(['half-pint', 'pint', 'quart']);
    for (const { inUseByWeek, ownedByWeek } of sizes)
      inUseByWeek.forEach((jars, week) => {
        expect(jars).toBeLessThanOrEqual(ownedByWeek?.[week] ?? Number.POSITIVE_INFINITY);
      });
    expect(bySize.get('quart')?.inUseByWeek[0]).toBe(3);
    expect(bySize.get('half-pint')?.ownedByWeek?.at(-1)).toBe(2 + boughtOf('half-pint'));
    expect(bySize.get('pint')?.ownedByWeek?.at(-1)).toBe(6 + boughtOf('pint'));
  });

  test('that nobody counted are said on the page, with what new ones are taken to cost', async () => {
    const words = wordsOf(await open('/year'));

    expect(words).toContain('Nobody counted the jars for');
    expect(words).toMatch(
      /\(pint, \w+ mouth\)\. This plan takes it that there are none, and that new ones cost \$[\d.]+ for 12\./,
    );
    expect(words).toContain('Say how many there are');
    expect(words).not.toMatch(/Nobody counted the jars for [^.]*half-pint/);
  });

  test('stand on the page under their names, with the figures behind', async () => {
    const words = wordsOf(await open('/year/weeks'));

    expect(words).toContain('Jars by size');
    expect(words).toContain('Half-pint jars');
    expect(words).toMatch(/\d+ in use of \d+/);
  });
});

describe('the year on one sheet', () => {
  test('is the picture alone, with whose it is and from when', async () => {
    const body = await open('/year/sheet');

    expect(wordsOf(body)).toContain('Quince Yard, from Aug 17, 2026.');
    expect(body.match(/class="sheet-name"/g)).toHaveLength(3);
    expect(body).not.toContain('<table');
  });
});

describe('the card of a week', () => {
  const plannedAt = async () => {
    const plan = await newestPlan(pages.db, quinceYard);
    const at = plan?.plan.weeks.findIndex(({ sessions }) => sessions.length > 0) ?? -1;
    return { at, week: plan?.plan.weeks[at] };
  };

  test('says what is put up, hours, money and jars, at an address of its own', async () => {
    const { at, week } = await plannedAt();
    const words = wordsOf(await open(`/year/weeks?at=${at}`));

    expect(week?.sessions.length).toBeGreaterThan(0);
    expect(words).toMatch(/Week of \w+ \d+(, \d+)? Put up \w+ [^.]*\(\d+ batch(es)?\)/);
    expect(words).toMatch(/Kitchen [\dhmin ]+ of/);
    expect(words).toMatch(/Money \$[\d.]+ spent/);
    expect(words).toMatch(/Jars half-pint jars \d+ in use of \d+/);
  });

  test('comes alone where the page asks for it, and for a week that is not in the year there is none', async () => {
    const { at } = await plannedAt();
    const asPart = new Visitor(pages.app, {}, '', { 'hx-request': 'true', 'hx-request-type': 'partial' });
    const part = await asPart.open(`/year/weeks?at=${at}`);

    expect(part.body).toMatch(/^<div id="week-card"/);
    expect(part.body).toContain('class="week-cursor"');
    for (const wrong of ['52', '-1', 'x', '1.5', ''])
      expect(await open(`/year/weeks?at=${wrong}`)).not.toContain('id="week-card"');
  });
});

describe('one item in the year', () => {
  test('says its year in a sentence, what its target is made of, and every week in figures', async () => {
    const words = wordsOf(await open('/year/green-beans'));

    expect(words).toMatch(/Green beans 6 pints .* Lasts to /);
    expect(words).toMatch(/Next green\/snap beans now\. Make \d+\./);
    expect(words).toContain('You said 0.4 a week.');
    expect(words).toContain('Everyday use');
    expect(words.match(/week of /g)?.length).toBeGreaterThanOrEqual(52);
  });

  test('of another household, or of none, is a page that does not exist', async () => {
    const answer = await pages.visitor.open('/year/nobodys-pears');

    expect(answer.status).toBe(404);
    expect(wordsOf(answer.body)).toContain('Page not found');
  });
});

describe('buying', () => {
  test('lists five weeks, each with its cost and what the fund holds after it', async () => {
    const words = wordsOf(await open('/buying'));

    expect(words.match(/leaving .{1,12} in the fund/g)).toHaveLength(5);
    expect(words).toMatch(/Rolled oats \d+ lb \d+ packs? \$/);
  });
});
