import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { jarsOfYear } from '../../../../src/planning/answer/jars-of-year.ts';
import { plannedQuinceYard } from '../../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

/** Planning takes seconds, on a busy machine many. */
const planning = 120_000;

let pages: QuinceYardPages;
beforeAll(async () => {
  pages = await plannedQuinceYard();
}, planning);
afterAll(() => pages.close());

const open = async (path: string) => (await pages.visitor.open(path)).body;

describe('the year', () => {
  test('is first a table a person reads in one breath', async () => {
    const words = wordsOf(await open('/year'));

    expect(words).toMatch(/Green beans 6 pints left\. Lasts to \w+ \w+/);
    expect(words).toMatch(/Plum jam 2 half-pints left\. Lasts to \w+ \w+/);
    expect(words).toContain('Next plums now');
    expect(words).toMatch(/Rolled oats 0 lb left\. .*Next any week in the shop/);
  });

  test('draws a board for what is put up, none for what is bought', async () => {
    const body = await open('/year');
    const boards = [...body.matchAll(/class="year-board" href="\/year\/([^"]+)" id="year-wide-/g)].map(
      (found) => found[1],
    );

    expect(boards.sort()).toEqual(['cured-pickles', 'green-beans', 'plum-jam']);
  });

  test('hatches the harvest under the board of what is made from it', async () => {
    expect(await open('/year')).toContain('<title>Plum tree: Aug 10 to Sep 13</title>');
  });

  test('shows hours and money against their limits, with the figures behind', async () => {
    const words = wordsOf(await open('/year'));

    expect(words).toContain('Kitchen hours by week');
    expect(words).toContain('Season fund'.toLowerCase());
  });
});

describe('jars by size', () => {
  test('a week never has more in use than there are, and the first starts from what stands on the shelf', async () => {
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
    const words = wordsOf(await open('/year'));

    expect(words).toContain('Jars by size');
    expect(words).toContain('Half-pint jars');
    expect(words).toMatch(/\d+ in use of \d+/);
  });
});

describe('the year on one sheet', () => {
  test('is the picture alone, with whose it is and from when', async () => {
    const body = await open('/year/sheet');

    expect(wordsOf(body)).toContain('Quince Yard, from Aug 17, 2026.');
    expect(body.match(/<svg class="year-picture/g)).toHaveLength(1);
    expect(body).not.toContain('<table');
  });
});

describe('one item in the year', () => {
  test('says its year in a sentence, what its target is made of, and every week in figures', async () => {
    const words = wordsOf(await open('/year/green-beans'));

    expect(words).toMatch(/6 pints left\. Lasts to /);
    expect(words).toContain('Declared 0.4 a week.');
    expect(words).toContain('Everyday use');
    expect(words.match(/week of /g)?.length).toBeGreaterThanOrEqual(52);
  });

  test('of another household, or of none, is a page that does not exist', async () => {
    const answer = await pages.visitor.open('/year/nobodys-pears');

    expect(answer.status).toBe(404);
    expect(wordsOf(answer.body)).toContain('Nothing stands here');
  });
});

describe('buying', () => {
  test('lists five weeks, each with its cost and what the fund holds after it', async () => {
    const words = wordsOf(await open('/buying'));

    expect(words.match(/the fund then holds/g)).toHaveLength(5);
    expect(words).toMatch(/Rolled oats \d+ lb \d+ packs? \$/);
  });
});
