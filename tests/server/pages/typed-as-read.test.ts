import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import { HouseholdByPages } from '../../builders/household-by-pages.ts';
import { formOf, wordsOf } from '../../builders/visitor.ts';

// A household that weighs in kilograms and measures in liters types what it reads. What is kept in pounds and quarts came back as
// if pounds had been typed: 20 kg of flour stood as 9.1 kg, and a year's need was said in both at once.

let home: HouseholdByPages;

beforeAll(async () => {
  home = await HouseholdByPages.beginning(asDate('2026-10-05'));
  await home.setUp({
    name: 'Juniper Shelf',
    people: '5',
    town: 'Boulder, CO',
    altitude: '1650',
    altitudeUnit: 'm',
    sourceKind: 'market',
    units: 'metric',
    weekStartsOn: 'monday',
  });
  await home.send('/items/new?kind=staple', '/items', {
    name: 'Bread flour',
    unit: 'lb',
    packUnits: '12.5',
    packPrice: '18',
    amount: '2',
    per: 'week',
  });
});
afterAll(async () => {
  await home.close();
});

const words = (page: string) => home.words(page);
const fields = async (page: string, form: string) =>
  formOf((await home.visitor.open(page)).body, form).values;

describe('a metric household reads what it typed', () => {
  test('the pack and the use of something new', async () => {
    expect(await words('/items/bread-flour')).toContain('12.5 kg for $18.00');
    expect(await fields('/items/bread-flour', '/items/bread-flour/packs/')).toMatchObject({ units: '12.5' });
    expect(await words('/targets/bread-flour')).toContain('You said 2 kg a week');
    expect(await fields('/targets/bread-flour', '/targets/bread-flour/declared-use')).toMatchObject({
      amount: '2',
    });
  });

  test('a lot that was bought, what was taken of it by the form and by the one touch', async () => {
    await home.send('/shelf/put-up', '/shelf/lots', {
      itemId: 'bread-flour',
      origin: 'bought',
      units: '20',
      madeOn: '2026-10-02',
    });
    expect(await words('/shelf/bread-flour')).toContain('Bought 20 kg of Bread flour');

    await home.send('/shelf', '/shelf/bread-flour/takes', { units: '1,5', outcome: 'taken' });
    expect(await words('/shelf/bread-flour')).toContain('Took 1.5 kg of Bread flour');
    await home.send('/shelf', '/shelf/bread-flour/takes', { outcome: 'took-one' });
    expect(await words('/shelf/bread-flour')).toContain('Took 1 kg of Bread flour');
    expect(await words('/shelf/sheet')).toMatch(/Bread flour\s+17\.5/);
    expect(await words('/shelf/sheet')).toContain('every jar, bag or kilogram you take');
  });

  test('a count: the figure the book shows is what the book has, another is held against it in kilograms', async () => {
    const agrees = await home.send('/shelf/count?item=bread-flour', '/shelf/counts', { units: '17.5' });
    expect(agrees.location).toMatch(/^\/shelf\/count/);
    expect((await home.year()).items.find(({ item }) => item.id === 'bread-flour')?.unitsOnShelf).toBeCloseTo(
      17.5 * 2.20462262185,
      2,
    );
    const fewer = await home.visitor.submitOn('/shelf/count?item=bread-flour', {
      form: '/shelf/counts',
      fill: { units: '16' },
    });
    expect(wordsOf(fewer.body)).toContain('The book says 17.5; you counted 16: 1.5 fewer.');
  });

  test('the sheet of the door: ticked or counted', async () => {
    await home.send('/shelf/tallies', '/shelf/tallies', { mode: 'ticked', 'units-bread-flour': '2.5' });
    expect(await words('/shelf/bread-flour')).toMatch(/Bread flour\s+15 kg/);
    await home.send('/shelf/tallies', '/shelf/tallies', { mode: 'counted', 'units-bread-flour': '14' });
    expect(await words('/shelf/bread-flour')).toMatch(/Bread flour\s+14 kg/);
  });

  test('an amount set by hand, what is never gone below, what always stays, and an occasion', async () => {
    await home.send('/targets/bread-flour', '/targets/bread-flour/hand-target', { units: '90' });
    expect(await words('/targets/bread-flour')).toContain('A year needs 90 kg.');
    expect(await fields('/targets/bread-flour', '/targets/bread-flour/hand-target')).toMatchObject({
      units: '90',
    });
    await home.send('/targets/bread-flour', '/targets/bread-flour/hand-target/release');
    await home.send('/items/bread-flour', '/items/bread-flour', { familyMinimum: '40', emergencyUnits: '5' });
    expect(await fields('/items/bread-flour', '/items/bread-flour')).toMatchObject({ familyMinimum: '40' });
    // What always stays is whole pounds: 12 for the 11.02 of 5 kg, never fewer.
    expect(Number((await fields('/items/bread-flour', '/items/bread-flour')).emergencyUnits)).toBeCloseTo(
      5.44,
      2,
    );
    await home.send('/items/bread-flour', '/items/bread-flour', {
      emergencyUnits: '',
      servingsPerUnit: '11',
    });
    expect(await fields('/items/bread-flour', '/items/bread-flour')).toMatchObject({ servingsPerUnit: '11' });
    expect(await words('/targets/bread-flour')).toContain('servings (11 in one)');
    expect(
      (await home.year()).loaded.facts.items.find(({ id }) => id === 'bread-flour')?.servingsPerUnit,
    ).toBeCloseTo(11 / 2.20462262185, 3);
    await home.send('/targets/bread-flour', '/targets/bread-flour/occasions', {
      kind: 'occasion',
      onDate: '2026-12-24',
      units: '3',
      note: 'Baking',
    });
    expect(await words('/targets/bread-flour')).toMatch(/occasion\s+3\s/);
  });

  test('every figure of a target is in one weight: its parts sum to what the year needs', async () => {
    const page = await words('/targets/bread-flour');
    expect(page).not.toMatch(/\d\.\d{3,}/);
    const [, need = ''] = /A year needs ([\d.,]+) kg/.exec(page) ?? [];
    const figure = (what: string) =>
      Number(
        new RegExp(`${what}[^.]*? ([\\d.]+)(?= )`).exec(
          page.slice(page.indexOf('From what a year needs')),
        )?.[1] ?? '0',
      );
    const use = Number(/everyday use \d+ ordinary weeks at ([\d.]+) a week ([\d.]+)/.exec(page)?.[2]);
    const reserve = figure('so that it lasts 9 years in 10');
    expect(use + reserve + 3).toBeCloseTo(Number(need), 0);
  });

  test('what batches use up, by weight and by measure, sent again as it stood', async () => {
    await home.send('/items/supplies/sugar', '/items/supplies/sugar', { onHand: '2.5' });
    expect(await fields('/items/supplies/sugar', '/items/supplies/sugar')).toMatchObject({ onHand: '2.5' });
    await home.send('/items/supplies/vinegar-5', '/items/supplies/vinegar-5', { onHand: '0.75' });
    expect(await fields('/items/supplies/vinegar-5', '/items/supplies/vinegar-5')).toMatchObject({
      onHand: '0.75',
    });
    const { loaded } = await home.year();
    const sugar = loaded.facts.supplies.find(({ id }) => id === 'sugar');
    expect(sugar?.onHand).toBeCloseTo(2.5 * 2.20462262185, 2);
    expect(sugar?.packQuantity).toBe(4);
  });
});

test('who reads in pounds may write kilograms behind the figure, and the other way round', async () => {
  await home.send('/shelf', '/shelf/bread-flour/takes', { units: '2 lb', outcome: 'taken' });
  expect(await words('/shelf/bread-flour')).toContain('Took 0.9 kg of Bread flour');
  await home.send('/kitchen', '/kitchen/household', { units: 'us' });
  expect(await words('/items/bread-flour')).toContain('27.6 lb for $18.00');
  await home.send('/shelf', '/shelf/bread-flour/takes', { units: '2 kg', outcome: 'taken' });
  expect(await words('/shelf/bread-flour')).toContain('Took 4.4 lb of Bread flour');
  await home.send('/shelf', '/shelf/bread-flour/takes', { units: '2', outcome: 'taken' });
  expect(await words('/shelf/bread-flour')).toContain('Took 2 lb of Bread flour');
});

test('what is bought says its own date, as its maker prints it, however long that is', async () => {
  await home.send('/items/new?kind=staple', '/items', {
    name: 'Rice',
    unit: 'lb',
    packUnits: '10',
    packPrice: '11',
  });
  const buy = (fill: Readonly<Record<string, string>>) =>
    home.visitor.submitOn('/shelf/put-up', {
      form: '/shelf/lots',
      fill: { itemId: 'rice', origin: 'bought', units: '10', madeOn: '2026-10-01', ...fill },
    });
  const before = await buy({ bestQualityUntil: '2026-09-30' });
  expect(before.status).toBe(422);
  expect(wordsOf(before.body)).toContain('Write the date that is printed on it');
  expect((await buy({ bestQualityUntil: '2028-06-01' })).status).toBe(303);
  expect(await words('/shelf/rice')).toContain('Jun 1, 2028');
});

test.each([
  // Pounds of one batch as published: USDA Complete Guide 2 (2015), p2-21 and p2-17; 6, p6-9; 3, p3-21; 4, p4-8.
  ['plums-pints', 'plum', 9],
  ['grape-juice-quarts', 'grape', 24.5],
  ['pickled-beets', 'beet', 7],
  ['chile-salsa', 'tomato', 5],
  ['beans-snap-pints', 'green-bean', 9],
  ['sauerkraut', 'cabbage', 25],
])(
  'a recipe of the book, %s, sent as its page shows it in kilograms, keeps its own pounds',
  async (recipe, crop, lb) => {
    await home.send('/kitchen', '/kitchen/household', { units: 'metric' });
    const name = `As shown: ${recipe}`;
    await home.send(`/items/new?recipe=${recipe}`, '/items', { name });
    const { loaded } = await home.year();
    const item = loaded.facts.items.find((one) => one.name === name);
    const [made] = loaded.facts.recipes.filter(({ itemId }) => itemId === item?.id);
    const kept = made?.produce.find((part) => part.crop === crop)?.lb ?? 0;

    expect(kept).toBeCloseTo(lb, 2);
    await home.send(`/items/${item?.id}`, `/items/${item?.id}/recipes/${made?.id}`);
    const again = (await home.year()).loaded.facts.recipes.find(({ id }) => id === made?.id);
    expect(again?.produce.find((part) => part.crop === crop)?.lb).toBeCloseTo(kept, 3);
  },
);

test('three decimals that may be thousands are asked about only where so many may be meant', async () => {
  const ask = (lbPerWeek: string) =>
    home.visitor.submitOn('/harvest/plums-of-a-friend', {
      form: '/harvest/plums-of-a-friend/windows/2026',
      fill: {
        beginsOn: '2026-08-20',
        lastOn: '2026-09-20',
        mostActiveFrom: '',
        mostActiveLastOn: '',
        lbPerWeek,
      },
    });
  await home.send('/harvest/new', '/harvest', {
    name: 'Plums of a friend',
    crop: 'plum',
    kind: 'market',
    pricePerLb: '1',
  });
  const unclear = await ask('1.250');
  expect(unclear.status).toBe(422);
  expect(wordsOf(unclear.body)).toContain('“1.250” may be 1250 or 1.25. Write 1250, or 1.250 for the other.');
  expect((await ask('1.25')).status).toBe(303);
});

test('a list of what stands is weighed as its household weighs, as its cells say, or as its column of units says', async () => {
  await home.send('/kitchen', '/kitchen/household', { units: 'metric' });
  await home.send('/items/new?kind=staple', '/items', {
    name: 'Salt',
    unit: 'lb',
    packUnits: '1',
    packPrice: '1',
  });
  await home.bringInStock(['item,left,made', 'Salt,2,2026-09-01', 'Salt,"3 lb",2026-09-02'].join('\n'));
  expect(await words('/shelf/salt')).toContain('2 kg Sep 1, 2026');
  expect(await words('/shelf/salt')).toContain('1.4 kg Sep 2, 2026');
  await home.bringInStock(['item,left,unit,made', 'Salt,4,lb,2026-09-03'].join('\n'));
  expect(await words('/shelf/salt')).toContain('1.8 kg Sep 3, 2026');
});
