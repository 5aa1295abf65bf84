import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  placesOf as allPlaces,
  cannersOf,
  daysOffOf,
  jarStockOf,
  kitchenHoursOf,
  lidStockOf,
  seasonFundOf,
} from '../../../../server/queries/household/kitchen.ts';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { decisionsOf } from '../../../../server/queries/year/plans.ts';
import { households } from '../../../builders/all-households.ts';
import { plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const household = async () => {
  const [own] = await households(pages.db);
  if (!own) throw new Error('the household is gone');
  return own;
};

describe('altitude', () => {
  it('is asked and never guessed: without it the page says so and the field is empty', async () => {
    await pages.db.updateTable('household').set({ altitude_ft: null }).execute();

    const { body } = await pages.visitor.open('/kitchen');

    expect(wordsOf(body)).toContain('Enter the altitude first: until then nothing can be canned here.');
    expect(body).toMatch(/name="altitude"[^>]* value autocomplete/);
  });

  it('is said in feet or in metres', async () => {
    const asked = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/altitude',
      fill: { altitude: '500', unit: 'm' },
    });

    expect(asked.status).toBe(422);
    expect(wordsOf(asked.body)).toContain(
      '500 m is 1,640 ft: the band 1,001 to 3,000 ft. Is that your kitchen?',
    );
    expect((await household()).altitudeFt).toBe(1200);

    const answer = await pages.visitor.submit(asked, { form: '/kitchen/altitude' });
    expect(answer.status).toBe(303);
    expect((await household()).altitudeFt).toBeCloseTo(1640.42, 2);
    expect(wordsOf((await pages.visitor.open('/kitchen')).body)).toContain(
      '1,640 ft is 500 m: the band 1,001 to 3,000 ft.',
    );
  });

  it('comes back with what was typed when it is no number, and nothing is changed', async () => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/altitude',
      fill: { altitude: 'twelve hundred' },
    });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain('value="twelve hundred"');
    expect(wordsOf(answer.body)).toContain('“twelve hundred” is no height. Write how high the kitchen lies');
    expect((await household()).altitudeFt).toBe(1200);
  });
});

describe('canners', () => {
  it('refuses a pressure canner without its kind of gauge', async () => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/canners/pressure-pot',
      fill: { gauge: '' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Choose the kind of gauge');
  });

  it('adds one, keeps its check date, and takes one away', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/canners',
      fill: {
        name: 'Old dial pot',
        method: 'pressure',
        gauge: 'dial',
        gaugeCheckedOn: '2026-04-01',
        gaugeOffAt5: '0',
        gaugeOffAt10: '-1',
        gaugeOffAt15: '0',
        quartJars: '7',
        pintJars: '9',
        halfPintJars: '12',
      },
    });
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/canners/kettle/retirement' });

    const canners = await cannersOf(pages.db, quinceYard);
    expect(canners.map(({ name, gaugeCheckedOn }) => [name, gaugeCheckedOn])).toEqual([
      ['Old dial pot', '2026-04-01'],
      ['Pressure pot', null],
    ]);
    expect(wordsOf((await pages.visitor.open('/kitchen')).body)).toContain(
      'dial gauge good until Apr 1, 2027',
    );
  });

  it('says which recipe has no tested process here, and why', async () => {
    await pages.db.updateTable('canner').set({ gauge: null }).where('id', '=', 'pressure-pot').execute();

    const { body } = await pages.visitor.open('/kitchen');

    expect(wordsOf(body)).toContain('Green beans, raw pack: not planned here.');
    expect(wordsOf(body)).toContain('Say whether the canner has a dial gauge or a weighted gauge.');
  });
});

describe('recipes that waited for a canner', () => {
  it('are given the one that is added later, in their own tested process, and are planned', async () => {
    await pages.db
      .updateTable('recipe')
      .set({ canner_id: null, based_on: 'plum-jelly' })
      .where('id', '=', 'plum-jam-batch')
      .execute();
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/canners/kettle/retirement' });
    const before = wordsOf((await pages.visitor.open('/kitchen')).body);

    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/canners',
      fill: {
        name: 'New kettle',
        method: 'boiling-water',
        gauge: '',
        quartJars: '7',
        pintJars: '9',
        halfPintJars: '12',
      },
    });

    const after = wordsOf((await pages.visitor.open('/kitchen')).body);
    const recipes = await recipesOf(pages.db, quinceYard);
    expect(before).toContain('Plum jam: not planned here.');
    expect(after).not.toContain('Plum jam: not planned here.');
    expect(recipes.find(({ id }) => id === 'plum-jam-batch')?.process).toMatchObject({
      food: 'plum-jelly',
      pack: 'hot',
      cannerId: 'new-kettle',
    });
    expect(recipes.find(({ id }) => id === 'green-beans-batch')?.process?.cannerId).toBe('pressure-pot');
  });

  it('stay as they are when the canner that comes does not fit: low-acid food never goes into boiling water', async () => {
    await pages.db
      .updateTable('recipe')
      .set({ canner_id: null })
      .where('id', '=', 'green-beans-batch')
      .execute();
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/canners/pressure-pot/retirement' });

    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/canners/kettle',
      fill: { name: 'Kettle by the stove' },
    });

    const beans = (await recipesOf(pages.db, quinceYard)).find(({ id }) => id === 'green-beans-batch');
    expect(beans?.process).toBeNull();
    expect(beans?.awaitsCanner).toBe(true);
  });
});

describe('storage and places', () => {
  const places = () => allPlaces(pages.db, quinceYard);

  it('keeps crocks, the freezer and the ceiling, in litres for who reads litres', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/storage',
      fill: {
        temperature: '61',
        temperatureUnit: 'F',
        crocks: '8',
        freezes: '6',
        discardCeilingMonths: '20',
      },
    });
    const us = await household();
    await pages.db.updateTable('household').set({ units: 'metric' }).execute();
    const metric = await pages.visitor.open('/kitchen');
    await pages.visitor.submit(metric, { form: '/kitchen/storage' });

    expect(us).toMatchObject({
      storageTemperatureF: 61,
      crockQuarts: 8,
      freezerQuartsPerDay: 6,
      discardCeilingMonths: 20,
    });
    expect(formOf(metric.body, '/kitchen/storage').values).toMatchObject({
      crocks: '7.57',
      freezes: '5.68',
      volumeUnit: 'L',
    });
    expect(await household()).toMatchObject({ crockQuarts: 8, freezerQuartsPerDay: 6 });
  });

  it.each([
    ['crocks', '-1', 'Crocks hold in all cannot be “-1”. Write a number from 0 to 400'],
    ['freezes', 'some', 'cannot be “some”'],
    [
      'discardCeilingMonths',
      '3',
      'Throw away at the latest after cannot be “3”. Write a whole number from 12 to 60 months',
    ],
  ])('says what is wrong with %s of %s', async (field, value, words) => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/storage',
      fill: { [field]: value },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
  });

  it('adds a place, changes it, and takes an empty one off the list', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/places',
      fill: { name: 'Chest freezer', kind: 'freezer', capacity: '120' },
    });
    const added = await places();
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/places/chest-freezer',
      fill: { name: 'Big freezer', capacity: '' },
    });
    const changed = await places();
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/places/chest-freezer/removal' });

    expect(added).toContainEqual({
      id: 'chest-freezer',
      name: 'Chest freezer',
      kind: 'freezer',
      capacityQuarts: 120,
    });
    expect(changed).toContainEqual({
      id: 'chest-freezer',
      name: 'Big freezer',
      kind: 'freezer',
      capacityQuarts: null,
    });
    expect((await places()).map(({ id }) => id)).toEqual(['cellar']);
  });

  it('keeps a place in which batches stand, and two of one name apart', async () => {
    await shelve(pages.db, {
      id: 'jam',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });
    await pages.db.updateTable('lot').set({ place_id: 'cellar' }).execute();

    const removal = await pages.visitor.submitOn('/kitchen', { form: '/kitchen/places/cellar/removal' });
    const twin = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/places',
      fill: { name: 'cellar', kind: 'shelf' },
    });

    expect(wordsOf(removal.body)).toContain('Cellar is not empty: one batch is in it');
    expect(wordsOf(twin.body)).toContain('You already have a place called Cellar');
    expect((await places()).map(({ id }) => id)).toEqual(['cellar']);
  });
});

describe('region, clock and dates', () => {
  it('are changed, and every date and amount is written the new way', async () => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/household',
      fill: {
        units: 'metric',
        weekStartsOn: 'monday',
        locale: 'en-GB',
        region: 'MI',
        timeZone: 'America/Detroit',
      },
    });

    expect(answer.location).toBe('/kitchen?saved=household#household');
    expect(await household()).toMatchObject({
      units: 'metric',
      weekStartsOn: 'monday',
      locale: 'en-GB',
      region: 'MI',
      timeZone: 'America/Detroit',
    });
    const year = await pages.visitor.open('/harvest');
    expect(wordsOf(year.body)).toContain('13 Sept');
    expect(year.body).toContain('lang="en-GB"');
  });

  it.each([
    ['timeZone', 'Quince/Yard', 'Write a name like America/Chicago'],
    ['region', 'ATLANTIS', 'There is no region “ATLANTIS”'],
    ['locale', 'tlh', 'There is no way of writing dates “tlh”'],
  ])('refuses %s %s', async (field, value, words) => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/household',
      fill: { [field]: value },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
    expect((await household()).timeZone).toBe('America/Denver');
  });
});

describe('saving', () => {
  it('says so in the part that was saved, and asks for that part alone where script runs', async () => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/time',
      fill: { sessionsPerWeek: '2' },
    });
    const { body } = await pages.visitor.open('/kitchen?saved=time');

    expect(answer.location).toBe('/kitchen?saved=time#time');
    expect(body.slice(body.indexOf('<section id="time"'), body.indexOf('name="sessionsPerWeek"'))).toContain(
      'Saved. The plan was made before this',
    );
    expect(body.match(/Saved\. The plan/g)).toHaveLength(1);
    expect(body).toMatch(/hx-post="\/kitchen\/time" hx-target="#time"[^>]*hx-select="#time"/);
  });
});

describe('time', () => {
  it('sets the usual week, names another, and takes that back', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/time',
      fill: {
        sessionsPerWeek: '2',
        hoursPerSession: '4.5',
        setUpMinutes: '40',
        stoveBurners: '6',
        sessionWeekday: '7',
      },
    });
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/weeks',
      fill: { dayInWeek: '2026-09-03', sessions: '0', reason: 'Fair week' },
    });
    const said = await kitchenHoursOf(pages.db, quinceYard);
    const words = wordsOf((await pages.visitor.open('/kitchen')).body);
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/weeks/2026-W36/removal' });

    expect(said).toMatchObject({
      sessionsPerWeek: 2,
      hoursPerSession: 4.5,
      stoveBurners: 6,
      sessionWeekday: 7,
    });
    expect(said.weeks).toEqual([
      { week: '2026-W36', sessions: 0, hoursPerSession: null, reason: 'Fair week' },
    ]);
    expect(words).toContain('week of Aug 30, 2026, no canning: Fair week');
    expect((await kitchenHoursOf(pages.db, quinceYard)).weeks).toEqual([]);
  });

  it.each([
    ['2026-12-20', '2026-12-10', 'The last day, Dec 10, 2026, is before the first, Dec 20, 2026.'],
    ['2026-02-30', '2026-03-02', '“2026-02-30”, which is no day of the calendar'],
  ])('refuses days away from %s to %s', async (fromOn, lastOn, message) => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/away',
      fill: { fromOn, lastOn },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain(`value="${fromOn}"`);
    expect((await daysOffOf(pages.db, quinceYard)).away).toEqual([]);
  });
});

describe('money, jars, lids, storage, people', () => {
  it('keeps the season fund in cents', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/fund',
      fill: { balance: '120.50', weekly: '$12' },
    });

    expect(await seasonFundOf(pages.db, quinceYard)).toMatchObject({ balance: 12050, weekly: 1200 });
  });

  it('counts jars and lids', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/jars',
      fill: { jarKind: 'quart/wide', empty: '10', pack: '12', price: '17.99' },
    });
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/lids',
      fill: { mouth: 'wide', onHand: '36', box: '12', boxPrice: '5.50' },
    });

    const jars = await jarStockOf(pages.db, quinceYard);
    expect(jars.find(({ kind }) => kind === 'quart/wide')).toMatchObject({
      owned: 10,
      full: 0,
      empty: 10,
      price: 1799,
    });
    expect((await lidStockOf(pages.db, quinceYard)).find(({ mouth }) => mouth === 'wide')).toMatchObject({
      onHand: 36,
    });
  });

  it('writes down jars that broke or came back, and no more than there are', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/jars',
      fill: { jarKind: 'quart/wide', empty: '10', pack: '12', price: '17.99' },
    });
    const change = (fill: Readonly<Record<string, string>>) =>
      pages.visitor.submitOn('/kitchen', {
        form: '/kitchen/jars/changes',
        fill: { jarKind: 'quart/wide', ...fill },
      });

    expect((await change({ change: 'broke', jars: '3' })).status).toBe(303);
    const quarts = (await jarStockOf(pages.db, quinceYard)).find(({ kind }) => kind === 'quart/wide');
    expect(quarts).toMatchObject({ owned: 7, full: 0, empty: 7, away: 0 });
    const answer = await change({ change: 'came-back', jars: '2' });
    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('0 are away, not');
  });

  it('turns the temperature into °F and leaves the people as they were', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/storage',
      fill: { temperature: '15', temperatureUnit: 'C', discardCeilingMonths: '24' },
    });

    expect(await household()).toMatchObject({
      storageTemperatureF: 59,
      discardCeilingMonths: 24,
      name: 'Quince Yard',
      people: 2,
    });
  });

  it('refuses a name that is far too long and keeps it', async () => {
    const name = 'Quince '.repeat(40).trim();
    const answer = await pages.visitor.submitOn('/kitchen', { form: '/kitchen/household', fill: { name } });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain(`value="${name}"`);
    expect(wordsOf(answer.body)).toContain('has room for 120 letters; you wrote 279. Shorten it.');
  });
});

describe('kept in the plan', () => {
  it('pins a batch to a week named by any of its days, and takes it back', async () => {
    await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/pins',
      fill: { recipeId: 'plum-jam-batch', dayInWeek: '2026-08-26', decision: 'pinned', batches: '2' },
    });
    const decisions = await decisionsOf(pages.db, quinceYard);
    await pages.visitor.submitOn('/kitchen', { form: '/kitchen/pins/plum-jam-batch/2026-W35/removal' });

    expect(decisions).toEqual([
      { recipeId: 'plum-jam-batch', week: '2026-W35', decision: 'pinned', batches: 2 },
    ]);
    expect(await decisionsOf(pages.db, quinceYard)).toEqual([]);
  });
});

describe('every form', () => {
  it('sent twice counts once', async () => {
    const page = await pages.visitor.open('/kitchen');
    const submission = {
      form: '/kitchen/away',
      fill: { fromOn: '2026-10-01', lastOn: '2026-10-04' },
    };

    const first = await pages.visitor.submit(page, submission);
    const second = await pages.visitor.submit(page, submission);

    expect([first.status, second.status]).toEqual([303, 303]);
    expect((await daysOffOf(pages.db, quinceYard)).away).toHaveLength(1);
  });

  it('is refused without its token', async () => {
    const page = await pages.visitor.open('/kitchen');
    const answer = await pages.visitor.submit(page, {
      form: '/kitchen/altitude',
      fill: { _csrf: 'made-up', altitude: '9' },
    });

    expect(answer.status).toBe(403);
    expect((await household()).altitudeFt).toBe(1200);
  });
});
