import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { itemsOf } from '../../../server/queries/household/items.ts';
import { countShelf } from '../../../server/records/shelf/count-shelf.ts';
import { putUp } from '../../../server/records/shelf/put-up.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { recordDeclaredUse } from '../../../server/records/year/targets.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { addDays, asDate, type CalendarDate } from '../../../shared/week.ts';
import { daysEvery, type LivedHousehold, livedHousehold, setUpOn } from '../../builders/lived-household.ts';
import { worked } from '../../builders/outcomes.ts';
import { wordsOf } from '../../builders/visitor.ts';

// What a household that has put up food for years does in its first hours: it writes down what stands on its shelves.

let home: LivedHousehold;
let ids: Readonly<Record<'jam' | 'sauce' | 'tomatoes', ItemId>>;
beforeEach(async () => {
  home = await livedHousehold([
    { recipeKey: 'strawberry-jam', appetite: { amount: 2, per: 'month' } },
    { recipeKey: 'applesauce-pints', appetite: { amount: 1, per: 'week' } },
    { recipeKey: 'tomatoes-crushed-pints', appetite: { amount: 2, per: 'week' } },
  ]);
  const items = await itemsOf(home.db, home.householdId);
  const named = (word: RegExp) => {
    const item = items.find(({ name }) => word.test(name));
    if (!item) throw new Error(`expected ${word} among ${items.map(({ name }) => name).join(', ')}`);
    return item.id;
  };
  ids = { jam: named(/strawberry/i), sauce: named(/applesauce/i), tomatoes: named(/tomato/i) };
});
afterEach(() => home.close());

const everything = () => Object.values(ids);
const targets = async () =>
  Object.fromEntries(await Promise.all(everything().map(async (id) => [id, await home.target(id)])));
const putUpThen = async (
  itemId: ItemId,
  units: number,
  madeOn: string,
  on: CalendarDate = home.today(),
  left = '',
) =>
  worked(
    await putUp(home.on(on), {
      itemId,
      recipeId: null,
      batches: null,
      madeOn: asDate(madeOn),
      readyFrom: null,
      bestQualityUntil: null,
      placeId: null,
      filled: [{ jarKind: null, units }],
      left: left === '' ? null : Number(left),
      note: '',
      evidence: null,
    }),
  );
const takeOn = async (itemId: ItemId, on: CalendarDate, units = 1, writtenOn: CalendarDate = on) =>
  worked(
    await take(home.on(writtenOn), {
      itemId,
      lotId: null,
      jarKind: null,
      units,
      kind: 'taken',
      reason: null,
      occurredOn: on,
      late: false,
      forPromise: false,
      takenBy: null,
    }),
  );
const countOn = async (itemId: ItemId, units: number, on: CalendarDate) =>
  worked(await countShelf(home.on(on), { countedOn: on, counts: [{ itemId, units, explainedAs: null }] }));
const useOf = async (itemId: ItemId) => {
  const use = (await home.year()).useByItem.get(itemId);
  if (!use?.forecast) throw new Error(`expected a forecast of ${itemId}`);
  return { ...use, evidence: use.forecast.evidence };
};

describe('writing last year’s jars down', () => {
  it('leaves every target as it was said, by form and by list, today and months later', async () => {
    const before = await targets();

    await home.visitor.submitOn(`/shelf/put-up?item=${ids.jam}`, {
      form: '/shelf/lots',
      fill: { units: '8', madeOn: '2025-07-01' },
    });
    const items = await itemsOf(home.db, home.householdId);
    const nameOf = (id: ItemId) => items.find((item) => item.id === id)?.name ?? '';
    const rows = ['2024-09-12', '2025-08-03', '2025-08-20', '2025-09-14', '2025-10-02'].flatMap((day, at) => [
      `${nameOf(ids.sauce)},${4 + at},${day}`,
      `${nameOf(ids.tomatoes)},${7 + at},${day}`,
    ]);
    const answer = await home.bringList(['Item,How many,Date', ...rows].join('\n'));
    expect(answer.status).toBe(303);

    expect(await targets()).toEqual(before);
    home.moveTo('2026-06-30');
    for (const id of everything()) expect((await useOf(id)).evidence.weeksThatCounted).toBe(0);
    // Of a year that begins in another month a few ordinary weeks more or fewer count.
    for (const id of everything())
      expect(Math.abs((await home.target(id)) - (before[id] ?? 0))).toBeLessThanOrEqual(2);
    const page = wordsOf((await home.visitor.open(`/targets/${ids.jam}`)).body);
    expect(page).toContain('Nothing counts yet: it begins with the first jar you take or count.');
  });

  it('found in a cupboard in May, does not make the weeks since February weeks of nothing eaten', async () => {
    await putUpThen(ids.jam, 2, '2026-02-10');
    await takeOn(ids.jam, asDate('2026-02-20'), 2);
    home.moveTo('2026-05-20');

    await putUpThen(ids.jam, 12, '2025-06-20');

    const { evidence } = await useOf(ids.jam);
    expect(evidence.takings).toBe(2);
    expect(evidence.weeksThatCounted).toBeLessThan(2);
  });

  it('counts from a lot of this very week, as a household does that begins in the season', async () => {
    await putUpThen(ids.sauce, 30, addDays(setUpOn, -3));
    home.moveTo(addDays(setUpOn, 25));

    expect((await useOf(ids.sauce)).recordedSince).toBe(addDays(setUpOn, -3));
    expect((await useOf(ids.sauce)).evidence.weeksThatCounted).toBeCloseTo(29 / 7, 1);
  });
});

describe('recording begins', () => {
  beforeEach(async () => {
    await putUpThen(ids.sauce, 40, '2025-09-14');
    await putUpThen(ids.tomatoes, 40, '2025-08-20');
  });

  it('with the first jar taken, of that item alone', async () => {
    await takeOn(ids.sauce, asDate('2026-02-20'));
    await takeOn(ids.sauce, asDate('2026-02-27'));
    home.moveTo('2026-03-20');

    expect((await useOf(ids.sauce)).recordedSince).toBe('2026-02-21');
    // From 21 February to 20 March, with the jar of the 27th; the one that began the record is where it begins.
    expect((await useOf(ids.sauce)).evidence).toMatchObject({ takings: 1, weeksThatCounted: 4 });
    expect((await useOf(ids.tomatoes)).recordedSince).toBeNull();
  });

  it('with a count, which tells of all the time since the jars were written down', async () => {
    await takeOn(ids.sauce, asDate('2026-03-10'));
    await countOn(ids.sauce, 34, asDate('2026-03-24'));
    home.moveTo('2026-03-24');

    const { evidence, recordedSince } = await useOf(ids.sauce);
    expect(recordedSince).toBe(setUpOn);
    expect(evidence.takings).toBeCloseTo(6);
    expect(evidence.weeksThatCounted).toBeCloseTo(43 / 7);
  });

  it('not with a jar that is written down weeks later', async () => {
    await takeOn(ids.sauce, asDate('2026-02-20'), 1, asDate('2026-04-20'));
    home.moveTo('2026-04-20');

    expect((await useOf(ids.sauce)).recordedSince).toBeNull();
  });

  it('on the day a household says, for everything at once, and each by itself when it takes the word back', async () => {
    await takeOn(ids.sauce, asDate('2026-02-20'));
    home.moveTo('2026-04-07');
    const say = (since: string) =>
      home.visitor.submitOn('/targets', { form: '/targets/recorded-since', fill: { since } });

    expect((await say('2026-12-31')).status).toBe(422);
    expect((await say('2026-03-01')).status).toBe(303);
    for (const id of [ids.sauce, ids.tomatoes]) {
      expect((await useOf(id)).recordedSince).toBe('2026-03-01');
      expect((await useOf(id)).evidence).toMatchObject({ takings: 0 });
      expect((await useOf(id)).evidence.weeksThatCounted).toBeCloseTo(38 / 7);
    }
    expect((await say('')).status).toBe(303);
    expect((await useOf(ids.tomatoes)).recordedSince).toBeNull();
  });

  it('anew where a change of habit is said, never before', async () => {
    for (const day of daysEvery(asDate('2026-02-12'), asDate('2026-05-01'), 4)) await takeOn(ids.sauce, day);
    for (const day of daysEvery(asDate('2026-05-02'), asDate('2026-05-31'), 4))
      await takeOn(ids.tomatoes, day);
    home.moveTo('2026-05-31');
    worked(
      await recordDeclaredUse(home.on('2026-05-04'), {
        itemId: ids.sauce,
        amount: 3,
        per: 'week',
        countedIn: 'units',
        people: null,
        mealsPerWeek: null,
        sinceOn: asDate('2026-05-04'),
        restartsFilter: true,
      } as never),
    );

    const { evidence } = await useOf(ids.sauce);
    expect(evidence.takings).toBe(0);
    // From May 4 to Sunday, May 31, the first day of the next week here: 28 days and the one that runs.
    expect(evidence.weeksThatCounted).toBeCloseTo(29 / 7);
  });
});

describe('a year that was kept on paper', () => {
  it('“put up 30 last August, 8 left” is a use of 22, said by form', async () => {
    const answer = await home.visitor.submitOn(`/shelf/put-up?item=${ids.sauce}`, {
      form: '/shelf/lots',
      fill: { units: '30', left: '8', madeOn: '2025-08-11' },
    });
    expect(answer.status).toBe(303);

    const { evidence } = await useOf(ids.sauce);
    expect(evidence.takings).toBeCloseTo(22);
    // 11 August to 10 February, both counted.
    expect(evidence.weeksThatCounted).toBeCloseTo(184 / 7);
    expect(evidence.observedPerWeek).toBeCloseTo(22 / (184 / 7));
    const shelf = wordsOf((await home.visitor.open(`/shelf/${ids.sauce}`)).body);
    expect(shelf).toContain('8');
  });

  it('said by list, of several batches, is one use since the first of them', async () => {
    const items = await itemsOf(home.db, home.householdId);
    const name = items.find(({ id }) => id === ids.tomatoes)?.name ?? '';
    const list = [
      'Item,Put up,Left,Date',
      `${name},28,10,2025-08-12`,
      `${name},14,14,2025-09-02`,
      `${name},7,0,2025-09-09`,
    ];
    expect((await home.bringList(list.slice(0, 3).join('\n'))).status).toBe(303);

    const { evidence } = await useOf(ids.tomatoes);
    expect(evidence.takings).toBeCloseTo(18);
    expect(evidence.weeksThatCounted).toBeCloseTo(183 / 7);
  });

  it('refuses more left than were put up, and keeps what was typed', async () => {
    const answer = await home.visitor.submitOn(`/shelf/put-up?item=${ids.sauce}`, {
      form: '/shelf/lots',
      fill: { units: '8', left: '30', madeOn: '2025-08-11' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('8 were put up, so');
    expect(answer.body).toContain('value="30"');
  });

  it('a list of past use teaches for the weeks it speaks of, and for none after', async () => {
    const items = await itemsOf(home.db, home.householdId);
    const name = items.find(({ id }) => id === ids.sauce)?.name ?? '';
    await putUpThen(ids.sauce, 20, '2025-10-01');
    const days = daysEvery(asDate('2025-01-06'), asDate('2025-12-01'), 14);
    const answer = await home.bringList(
      ['Item,Eaten,Day', ...days.map((day) => `${name},2,${day}`)].join('\n'),
      'past use',
    );
    expect(answer.status).toBe(303);
    home.moveTo('2026-06-01');

    const { evidence } = await useOf(ids.sauce);
    expect(evidence.takings).toBeCloseTo(2 * days.length);
    expect(evidence.weeksThatCounted).toBeCloseTo(46, -1);
  });
});

describe('until eight weeks were seen', () => {
  it.each([
    ['nothing is eaten', 0],
    ['three times as much is eaten as was said', 3],
  ])('%s: the target stays within a quarter of what was said', async (_words, times) => {
    const said = await home.target(ids.sauce);
    const use = (await home.year()).targetByItem.get(ids.sauce)?.parts.use ?? 0;
    await putUpThen(ids.sauce, 120, setUpOn);
    for (let week = 0; week < 8; week += 1) {
      for (let jar = 0; jar < times; jar += 1) await takeOn(ids.sauce, addDays(setUpOn, 7 * week + 2 * jar));
      home.moveTo(addDays(setUpOn, 7 * week + 6));
      const parts = (await home.year()).targetByItem.get(ids.sauce)?.parts;
      expect(Math.abs((parts?.use ?? 0) - use)).toBeLessThanOrEqual(0.26 * use + 1);
    }
    home.moveTo(addDays(setUpOn, 7 * 26));
    for (let week = 8; week < 26; week += 1)
      for (let jar = 0; jar < times; jar += 1) await takeOn(ids.sauce, addDays(setUpOn, 7 * week + 2 * jar));
    expect(await home.target(ids.sauce)).not.toBeCloseTo(said, -1);
  });
});
