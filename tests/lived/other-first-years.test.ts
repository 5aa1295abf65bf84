import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate, mondayOf, type WeekKey } from '../../shared/week.ts';
import type { Plan } from '../../src/planning/plan.ts';
import { HouseholdByPages } from '../builders/household-by-pages.ts';
import { wrongIn } from '../builders/plain-words.ts';
import {
  expectAsSaid,
  expectBelievable,
  expectJarsRight,
  expectLoadsRight,
  expectNoneEarly,
  firstLoad,
} from '../builders/practitioner.ts';

// Households of other kinds, all invented: from the market with every default in three regions, in metric units outside of the
// United States, and without a pressure canner. Each is set up through its page in March and lives to the autumn.

/** What the set-up page offers a household that changes nothing. */
const byDefault = {
  'strawberry-jam': 12,
  'apple-butter': 6,
  applesauce: 12,
  'peach-halves': 12,
  'crushed-tomatoes': 12,
  'chile-salsa': 6,
  'dill-pickles': 12,
};
const made = Object.keys(byDefault);

/**
 * Puts up what the plan has for the weeks up to a day, but for the pickles, whose brine nobody began, eats of what stands as much a
 * month as was said, and plans again from there.
 */
async function liveTo(home: HouseholdByPages, plan: Plan, day: string): Promise<Plan> {
  const months = ['2026-06-30', '2026-07-31', '2026-08-31'].map(asDate);
  let eaten = 0;
  const eatTo = async (until: string): Promise<void> => {
    for (let month = months[eaten]; month !== undefined && month < until; month = months[eaten]) {
      eaten += 1;
      const ofYear = (units: number, after: number) => Math.round((units * after) / 12);
      await home.tick(
        month,
        Object.fromEntries(
          Object.entries(byDefault).map(([item, units]) => [
            item,
            ofYear(units, eaten) - ofYear(units, eaten - 1),
          ]),
        ),
      );
    }
  };
  for (const { week, sessions } of plan.weeks)
    for (const session of sessions)
      if (isBefore(week, day) && session.recipe !== 'dill-pickles') {
        await eatTo(mondayOf(week));
        await home.writeDown(week, session);
      }
  await eatTo(day);
  home.goTo(asDate(day));
  return home.plan();
}

/** What no person should read on any page of the household. */
const wrongOnPages = async (home: HouseholdByPages, units: 'us' | 'metric'): Promise<readonly string[]> =>
  (await home.everyPage()).flatMap(({ url, words }) =>
    wrongIn(words, units).map((found) => `${url}: ${found}`),
  );

const isBefore = (week: WeekKey, day: string): boolean => mondayOf(week) < day;

describe.each([
  // Common practice at a market there, no source: none of these is bought by the bushel sooner.
  [
    'Lansing, MI',
    '860',
    {
      'strawberry-jam': '2026-06-01',
      'crushed-tomatoes': '2026-07-13',
      'peach-halves': '2026-07-13',
      applesauce: '2026-08-24',
    },
  ],
  [
    'Ithaca, NY',
    '840',
    {
      'strawberry-jam': '2026-06-01',
      'crushed-tomatoes': '2026-07-13',
      'peach-halves': '2026-07-13',
      applesauce: '2026-08-24',
    },
  ],
  [
    'Athens, GA',
    '700',
    {
      'strawberry-jam': '2026-04-06',
      'crushed-tomatoes': '2026-06-08',
      'peach-halves': '2026-05-04',
      applesauce: '2026-07-20',
    },
  ],
] as const)('a market household near %s with every default', (town, altitude, notBefore) => {
  let home: HouseholdByPages;
  let plan: Plan;
  beforeAll(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({ town, altitude });
    plan = await home.plan();
  });
  afterAll(() => home.close());

  test('each food is expected to be eaten as was said', () => expectAsSaid(home, byDefault));
  test('every food is planned', () => {
    for (const item of made) expect(firstLoad(plan, item), item).not.toBeNull();
  });
  test('no batch before its crop can be ripe there', () => expectNoneEarly(plan, notBefore));
  test('the plan can be believed', () => expectBelievable(home, plan, { mostMoney: 150 + 20 * 53 }));
  test('the loads are those of its jars', async () => expectLoadsRight(plan, await home.year()));
  test('every jar is full, empty or away', () => expectJarsRight(home));
  test('every page speaks plain words', async () => {
    expect(await wrongOnPages(home, 'us')).toEqual([]);
  });
});

describe('a household in metric units that gardens outside of the United States', () => {
  let home: HouseholdByPages;
  let plan: Plan;
  beforeAll(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({
      name: 'Linden Row',
      altitude: '310',
      altitudeUnit: 'm',
      lastFrost: '2026-05-05',
      firstFrost: '2026-10-20',
      units: 'metric',
      locale: 'en-GB',
      weekStartsOn: 'monday',
      timeZone: 'Europe/Berlin',
      sourceKind: 'garden',
    });
    plan = await home.plan();
  });
  afterAll(() => home.close());

  test('seasons are guessed from its frosts, and said to be', async () => {
    expect(await home.words('/harvest')).toContain('your own frost dates');
  });
  test('each food is expected to be eaten as was said', () => expectAsSaid(home, byDefault));
  test('every food is planned, none before its crop can be ripe', () => {
    for (const item of made) expect(firstLoad(plan, item), item).not.toBeNull();
    // Common practice, no source: planted out in mid-May, tomatoes fill jars from the end of July.
    expectNoneEarly(plan, {
      'strawberry-jam': '2026-05-25',
      'crushed-tomatoes': '2026-07-20',
      'dill-pickles': '2026-07-06',
      applesauce: '2026-08-17',
    });
  });
  test('no page of the plan speaks of pounds or feet', async () => {
    for (const page of ['/', '/year', '/harvest', '/buying', '/items'])
      expect(await home.words(page), page).not.toMatch(/\d (?:lb|ft|oz|°F)\b/);
  });
  test('the plan can be believed', () => expectBelievable(home, plan, { mostMoney: 150 + 20 * 53 }));

  describe('in September, after a summer put up as planned', () => {
    beforeAll(async () => {
      plan = await liveTo(home, plan, '2026-09-07');
    });

    test('each food is expected to be eaten as was said', () => expectAsSaid(home, byDefault));
    test('the plan can be believed', () => expectBelievable(home, plan, { mostMoney: 150 + 20 * 81 }));
    test('the loads are those of its jars', async () => expectLoadsRight(plan, await home.year()));
    test('every jar is full, empty or away', () => expectJarsRight(home));
    test('every page speaks plain words', async () => {
      expect(await wrongOnPages(home, 'metric')).toEqual([]);
    });
  });
});

describe('a household without a pressure canner that would like beans and carrots', () => {
  let home: HouseholdByPages;
  let plan: Plan;
  beforeAll(async () => {
    home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({
      name: 'Poplar Lane',
      town: 'Columbus, OH',
      altitude: '800',
      'eats-beans-snap-pints': 'month:2',
      'eats-carrots-pints': 'month:1',
      sourceKind: 'pick-your-own',
    });
    plan = await home.plan();
  });
  afterAll(() => home.close());

  test('neither is planned, both are said to be missing with the one step that mends it, and not called enough', async () => {
    for (const item of ['green-beans', 'carrots']) expect(firstLoad(plan, item), item).toBeNull();
    const words = await home.words('/year');
    expect(words).toContain('You can’t get more of carrots and green beans yet');
    expect(words.match(/No canner of this kitchen fits its recipe: Add or mend a canner/g)?.length).toBe(2);
  });
  test('everything else is planned, none before its crop can be ripe', () => {
    for (const item of made) expect(firstLoad(plan, item), item).not.toBeNull();
    expectNoneEarly(plan, {
      'strawberry-jam': '2026-06-01',
      'crushed-tomatoes': '2026-07-06',
      'peach-halves': '2026-07-06',
      applesauce: '2026-08-17',
    });
  });
  test('the plan can be believed', () => expectBelievable(home, plan, { mostMoney: 150 + 20 * 53 }));
  test('the loads are those of its jars', async () => expectLoadsRight(plan, await home.year()));
});
