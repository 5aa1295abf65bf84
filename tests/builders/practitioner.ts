import { expect } from 'vitest';
import type { YearPicture } from '../../server/year/year-picture.ts';
import type { ItemId } from '../../shared/ids.ts';
import { mondayOf } from '../../shared/week.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { HouseholdByPages } from './household-by-pages.ts';

// What somebody who has put up food for years would not believe of a plan, whatever household it is made for.

/** Units a year of each item, as the household said. */
export type SaidForYear = Readonly<Record<string, number>>;

/** The first day of a week in which a recipe's jars are filled; null where none is planned. */
export const firstLoad = (of: Plan, recipe: string): string | null => {
  const week = of.weeks.find(({ sessions }) => sessions.some((session) => session.recipe === recipe));
  return week === undefined ? null : mondayOf(week.week);
};

const unitsPlanned = (of: Plan, { loaded }: YearPicture, item: string): number =>
  of.weeks
    .flatMap(({ sessions }) => sessions)
    .filter(({ recipe }) => loaded.facts.recipes.find(({ id }) => id === recipe)?.itemId === item)
    .reduce((sum, { units }) => sum + units, 0);

/** How much of each item is expected to be eaten in the year ahead, as a share of what was said. */
export async function expectedOfSaid(
  home: HouseholdByPages,
  said: SaidForYear,
): Promise<Readonly<Record<string, number>>> {
  const { useByItem } = await home.loaded();
  return Object.fromEntries(
    Object.entries(said).map(([item, units]) => {
      const weekly = useByItem.get(item as ItemId)?.forecast?.weeklyMean ?? [];
      // 52 weeks are a day short of the year that was spoken of.
      const saidInWeeks = units * ((52 * 7) / 365.25);
      return [item, weekly.slice(0, 52).reduce((sum, mean) => sum + mean, 0) / saidInWeeks];
    }),
  );
}

/** Expects what is eaten to be as was said, give or take a quarter. */
export async function expectAsSaid(home: HouseholdByPages, said: SaidForYear): Promise<void> {
  const off = Object.entries(await expectedOfSaid(home, said)).filter(
    ([, share]) => share < 0.75 - 1e-9 || share > 1.25 + 1e-9,
  );
  expect(off).toEqual([]);
}

/** Expects no jars of a recipe in a week before the one in which its crop can be ripe there. */
export function expectNoneEarly(plan: Plan, notBefore: Readonly<Record<string, string>>): void {
  const early = Object.entries(notBefore).flatMap(([recipe, day]) => {
    const first = firstLoad(plan, recipe);
    return first !== null && first < day ? [`${recipe} in the week of ${first}, not before ${day}`] : [];
  });
  expect(early).toEqual([]);
}

/** Every sum of money a page names, in the unit of its currency. */
const sumsOn = (words: string): readonly number[] =>
  [...words.matchAll(/[$€£]\s?([\d.,]+)/g)].map(([, sum = '']) =>
    Number(sum.replaceAll(',', '').replace(/\.$/, '')),
  );

/** One batch of most recipes. */
const batch = 9;

/** Expects a plan and its pages to hang together: first jars before last jars, nothing called enough, money that is money, few notices. */
export async function expectBelievable(
  home: HouseholdByPages,
  plan: Plan,
  { mostMoney = 3000 }: { readonly mostMoney?: number } = {},
): Promise<void> {
  const year = await home.year();
  const shares = year.items.map(({ item, target, unitsOnShelf, missing }) => ({
    item: item.id as string,
    has: unitsOnShelf + unitsPlanned(plan, year, item.id),
    target: target?.units ?? 0,
    missing,
  }));
  const without = shares.filter(({ has, target, missing }) => target > 0 && has === 0 && missing === null);
  const heaped = shares.filter(({ has, target }) => has > 2 * target + batch);
  expect({
    without: without.length > 0 && heaped.length > 0,
    heaped: heaped.map(({ item }) => item),
  }).toEqual({ without: false, heaped: [] });

  const words = await home.words('/year');
  // From what is left of one food to what is left of the next: none left or bare, and enough, never stand together.
  for (const board of words.split(/(?=\b[\d.,]+ (?:half-pints?|pints?|quarts?|jars?) left\.)/))
    if (/^0 |\bnone for \d+ week/.test(board)) expect(board).not.toMatch(/\benough\b/);
  expect(Math.max(0, ...sumsOn(words))).toBeLessThan(mostMoney);
  const notices = await home.notices();
  expect(notices.length <= 10 ? [] : notices.map(({ reason }) => reason)).toEqual([]);
  expect(new Set(notices.map(({ reason }) => reason)).size).toBe(notices.length);
  for (const { reason } of notices) expect(reason).not.toMatch(/\d\.\d+ (?:jars|pints|half-pints|quarts)/);
}

/** Expects the loads of a plan to be those of its jars: none fuller than the canner, and none for one jar alone. */
export function expectLoadsRight(plan: Plan, { loaded }: YearPicture): void {
  const wrong = plan.weeks.flatMap(({ week, sessions }) =>
    sessions.flatMap(({ recipe: id, batches, loads, canner: cannerId, jars, jarsAside = 0 }) => {
      const recipe = loaded.facts.recipes.find((one) => one.id === id);
      const canner = loaded.facts.canners.find((one) => one.id === cannerId);
      const [filled] = jars;
      if (canner === undefined || filled === undefined || recipe === undefined) return [];
      const fits = filled.kind.startsWith('quart')
        ? canner.holds.quarts
        : filled.kind.startsWith('pint')
          ? canner.holds.pints
          : canner.holds.halfPints;
      const ofBatch = (filled.count - jarsAside) / batches;
      const lastLoad = ofBatch - (loads / batches - 1) * fits;
      return lastLoad > (ofBatch > 1 ? 1 : 0) && lastLoad <= fits && jarsAside <= batches
        ? []
        : [`${week} ${id}: ${filled.count} jars, ${jarsAside} aside, ${fits} fit, ${loads} loads`];
    }),
  );
  expect(wrong).toEqual([]);
}

/** Expects every kind of jar to be full, empty or away, and as many full as the shelf holds. */
export async function expectJarsRight(home: HouseholdByPages): Promise<void> {
  const { loaded } = await home.year();
  for (const { kind, owned, full, empty, away } of loaded.facts.jars) {
    expect(full + empty + away, kind).toBe(owned);
    const standing = loaded.facts.lots
      .filter((lot) => lot.jarKind === kind && lot.origin !== 'bought')
      .reduce((sum, { unitsLeft }) => sum + unitsLeft, 0);
    expect(full, kind).toBe(standing);
  }
}
