import { afterAll, beforeAll, expect, test } from 'vitest';
import { asDate } from '../../../../shared/week.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';

// A shelf as it is found: jars of two and three years ago beside last year's. The household throws away what it put up after so many
// months (18 unless it says otherwise); until it was told so, such jars were to be eaten first on one page and too old on another.

let home: HouseholdByPages;

beforeAll(async () => {
  home = await HouseholdByPages.beginning(asDate('2026-10-05'));
  await home.setUp({
    name: 'Old Shelf',
    people: '4',
    town: 'Boulder, CO',
    altitude: '5400',
    'eats-peaches-pints': 'month:2',
    'eats-applesauce-pints': 'month:2',
  });
  const put = (itemId: string, units: string, madeOn: string) =>
    home.send('/shelf/put-up', '/shelf/lots', { itemId, origin: 'put-up', units, madeOn });
  await put('peach-halves', '5', '2023-09-10');
  await put('peach-halves', '7', '2025-08-30');
  await put('applesauce', '4', '2024-11-01');
  await home.send('/items/new?kind=own', '/items', {
    name: 'Cold beet relish',
    keeping: 'refrigerated',
    units: '4',
    unit: 'bag',
    bestQualityDays: '21',
    amount: '1',
    per: 'month',
  });
  await put('cold-beet-relish', '3', '2026-09-01');
});
afterAll(async () => {
  await home.close();
});

const eatFirst = async () => {
  const page = await home.words('/');
  return page.slice(page.indexOf('Eat first'), page.indexOf('To know'));
};

test('what is older than the limit, and what stood too long in the refrigerator, is nowhere to be eaten first', async () => {
  expect(await eatFirst()).toContain('7 pints of the Aug 30, 2025 batch');
  expect(await eatFirst()).not.toMatch(/Sep 10, 2023|Nov 1, 2024|Cold beet relish/);

  const reasons = (await home.notices()).map(({ reason }) => reason);
  const [old, ...others] = reasons.filter((reason) => /older than the longest you keep/.test(reason));
  expect(others).toEqual([]);
  expect(old).toMatch(/^Throw away: (?=.*5 jars of Peach halves)(?=.*4 jars of Applesauce)/);
  expect(reasons.filter((reason) => /^Eat soon/.test(reason)).join(' ')).not.toMatch(/Applesauce|12 jars/);
});

test('This week and Notices say so under a name of its own, not among what is to be eaten', async () => {
  const week = await home.words('/');
  expect(week.slice(week.indexOf('To know'))).toMatch(
    /Throw away 3 bags of Cold beet relish|Throw away.*Cold beet relish/,
  );
  expect(week.slice(week.indexOf('To know'))).toMatch(/Throw away.*5 jars of Peach halves/);

  const notices = await home.words('/notices');
  const [thrown = '', eaten = ''] = notices.slice(notices.indexOf('Throw away')).split(/ Eat soon /);
  expect(thrown).toMatch(/Peach halves put up on Sep 10, 2023/);
  expect(eaten).not.toMatch(/Sep 10, 2023|Cold beet relish/);
});

test('the shelf says of which to throw away and of which to eat first, and so does the jar that is next', async () => {
  const shelf = await home.words('/shelf');
  expect(shelf).toContain('Throw away: 5 kept too long, by your own limit. Eat first: 7 past their best.');
  expect(shelf).toContain('Throw away: 4 kept too long, by your own limit.');
  expect(shelf).toContain('Throw away: 3 kept too long in the refrigerator.');
  const peaches = await home.words('/shelf/peach-halves');
  expect(peaches).toContain('you keep it to Mar 9, 2025 at most: throw it away');
  // There are younger ones to eat; of applesauce there are none.
  expect(peaches).toContain('Take the pint marked 250830');
  expect(peaches).not.toContain('You keep none so long: throw it away.');
  expect(await home.words('/shelf/applesauce')).toContain('You keep none so long: throw it away.');
});

test('what is eaten is of the younger ones while there are any, what is thrown away of the old ones', async () => {
  const left = async () => {
    const { lots } = (await home.loaded()).facts;
    return lots
      .filter(({ itemId }) => itemId === 'peach-halves')
      .map(({ madeOn, unitsLeft }) => `${madeOn}: ${unitsLeft}`)
      .toSorted();
  };
  const take = (values: Record<string, string>) =>
    home.send('/shelf', '/shelf/peach-halves/takes', { units: '1', day: 'today', ...values });
  const undo = () => home.send('/shelf', '/shelf/reversals');
  await take({ outcome: 'took-one' });
  expect(await left()).toEqual(['2023-09-10: 5', '2025-08-30: 6']);
  await undo();
  await take({ outcome: 'taken', units: '8' });
  expect(await left()).toEqual(['2023-09-10: 4', '2025-08-30: 0']);
  await undo();
  await take({ outcome: 'not-to-taste', units: '2' });
  expect(await left()).toEqual(['2023-09-10: 3', '2025-08-30: 7']);
  await undo();
});

test('who keeps it longer says so once, and it is eaten first again', async () => {
  await home.send('/kitchen', '/kitchen/storage', { discardCeilingMonths: '60' });

  expect(await eatFirst()).toMatch(/Sep 10, 2023/);
  expect((await home.notices()).map(({ reason }) => reason).join(' ')).not.toContain(
    'older than the longest',
  );
  expect(await home.words('/shelf')).toContain('Eat first: 12 past their best.');
  expect(await home.words('/shelf')).toContain('Throw away: 3 kept too long in the refrigerator.');
});
