import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { type Database, openDatabase } from '../../../../server/database/database.ts';
import { itemsOf } from '../../../../server/queries/household/items.ts';
import { cannersOf } from '../../../../server/queries/household/kitchen.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../../shared/ids.ts';
import { households } from '../../../builders/all-households.ts';
import { plansNothing } from '../../../builders/plans-nothing.ts';
import { formOf, Visitor, wordsOf } from '../../../builders/visitor.ts';

const reference = loadReferenceTables();

let db: Database;
let app: FastifyInstance;
let visitor: Visitor;
const planned: string[] = [];
beforeEach(async () => {
  planned.length = 0;
  db = await openDatabase(':memory:');
  app = await buildApp({
    db,
    reference,
    now: () => Date.UTC(2026, 3, 15, 16),
    planJob: { ...plansNothing, start: async (id) => void planned.push(id) },
  });
  visitor = new Visitor(app);
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

/** The form, and once more where it asks whether the altitude was read rightly. */
const setUp = async (fill: Record<string, string> = {}) => {
  const sent = { region: 'NJ', altitude: '640', ...fill };
  const first = await visitor.submitOn('/start', { form: '/start', fill: sent });
  if (!first.body.includes('Is that your kitchen?')) return first;
  return visitor.submit(first, { form: '/start', fill: sent });
};

describe('a file without a household', () => {
  test.each(['/', '/year', '/shelf', '/kitchen', '/items'])('%s leads to the first hour', async (page) => {
    const answer = await visitor.open(page);

    expect([answer.status, answer.location]).toEqual([302, '/start']);
  });

  test('with what is filled in, region and altitude are enough: a household, and its plan begun', async () => {
    const answer = await setUp();

    expect([answer.status, answer.location]).toEqual([303, '/?said=started']);
    const [own] = await households(db);
    expect(own).toMatchObject({ name: 'Our household', altitudeFt: 640, timeZone: 'America/New_York' });
    expect(planned).toEqual([own?.id]);
    expect(wordsOf((await visitor.open(answer.location)).body)).toContain('Your household is set up');
  });

  test('a name and a passphrase make an owner: signed in here, closed to everybody else', async () => {
    const answer = await setUp({ owner: 'Odile', passphrase: 'seven wet gloves on a line' });

    expect([answer.status, answer.location]).toEqual([303, '/?said=started']);
    expect((await visitor.open('/')).status).toBe(200);
    const stranger = await new Visitor(app).open('/');
    expect([stranger.status, stranger.location]).toEqual([303, '/sign-in']);
    const owner = await new Visitor(app).submitOn('/sign-in', {
      form: '/sign-in',
      fill: { name: 'Odile', passphrase: 'seven wet gloves on a line' },
    });
    expect([owner.status, owner.location]).toEqual([303, '/']);
  });

  test.each([
    [{ owner: 'Odile', passphrase: '' }, 'Passphrase'],
    [{ owner: '', passphrase: 'seven wet gloves on a line' }, 'Your name'],
    [{ owner: 'Odile', passphrase: 'too short' }, 'at least 12 characters'],
    [{ owner: 'Odile', passphrase: 'odileodile odile' }, 'easy to guess'],
  ])(
    'an owner that will not do, %j, is said, nothing begun, and the passphrase never sent back',
    async (fill, words) => {
      const answer = await setUp(fill);

      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain(words);
      expect(await households(db)).toEqual([]);
      if (fill.passphrase !== '') expect(answer.body).not.toContain(fill.passphrase);
      if (fill.owner !== '') expect(answer.body).toContain(`value="${fill.owner}"`);
    },
  );

  test('altitude and gauge may stay open', async () => {
    const answer = await setUp({ altitude: '', pressure: 'yes' });

    expect(answer.status).toBe(303);
    expect((await households(db))[0]?.altitudeFt).toBeNull();
  });

  test('what the check of a dial gauge found is asked where its date is, and counts at once', async () => {
    const check = {
      pressure: 'yes',
      gauge: 'dial',
      gaugeCheckedOn: '2026-04-01',
      gaugeOffAt5: '0',
      gaugeOffAt10: '-1',
      gaugeOffAt15: '-1.5',
    };
    await setUp(check);

    const [household] = await households(db);
    const canners = await cannersOf(db, household?.id as HouseholdId);
    expect(canners.find(({ method }) => method === 'pressure')?.gaugeOff).toEqual({
      at5: 0,
      at10: -1,
      at15: -1.5,
    });
    expect(wordsOf((await visitor.open('/kitchen')).body)).toContain('dial gauge good until');
  });

  test('the altitude is shown in both units with its band before anything is set up', async () => {
    const fill = {
      region: 'NJ',
      altitude: '1,240',
      altitudeUnit: 'm',
      owner: 'Odile',
      passphrase: 'seven wet gloves on a line',
    };
    const asked = await visitor.submitOn('/start', { form: '/start', fill });

    expect(asked.status).toBe(422);
    expect(wordsOf(asked.body)).toContain(
      '1,240 m is 4,068 ft: the band 3,001 to 6,000 ft. Is that your kitchen?',
    );
    expect(wordsOf(asked.body)).toContain('Write the passphrase again');
    expect(await households(db)).toEqual([]);

    const other = await visitor.submit(asked, {
      form: '/start',
      fill: { altitude: '240', passphrase: fill.passphrase },
    });
    expect(wordsOf(other.body)).toContain('240 m is 787 ft: the band 0 to 1,000 ft. Is that your kitchen?');

    await visitor.submit(other, { form: '/start', fill: { passphrase: fill.passphrase } });
    expect((await households(db))[0]?.altitudeFt).toBeCloseTo(787.4, 1);
  });

  test('metres become feet', async () => {
    await setUp({ altitude: '400', altitudeUnit: 'm' });

    expect((await households(db))[0]?.altitudeFt).toBeCloseTo(1312.34, 2);
  });

  test.each<[string, Record<string, string>, string]>([
    ['an altitude that is no number', { altitude: 'high' }, '“high”'],
    ['no people', { people: '0' }, 'People cannot be “0”. Write a whole number from 1 to 40'],
    ['a region of no list', { region: 'Atlantis' }, 'There is no region “Atlantis”'],
    ['a time zone that is none', { timeZone: 'Moon/Base' }, 'Time zone cannot be “Moon/Base”'],
    ['a gauge checked tomorrow', { pressure: 'yes', gaugeCheckedOn: '2026-04-16' }, 'is still to come'],
    [
      'a gauge further off than any dial shows',
      { pressure: 'yes', gaugeOffAt10: '40' },
      'At 10 psi cannot be',
    ],
    [
      'an appetite of no list',
      { 'eats-chile-salsa': 'month:99' },
      'There is no number of times you eat Chile salsa “month:99”',
    ],
  ])(
    '%s is refused beside its field; everything typed stays and nothing is set up',
    async (_, wrong, words) => {
      const answer = await setUp({ name: 'Larch End', halfPints: '7', ...wrong });

      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain(words);
      const { values } = formOf(answer.body, '/start');
      expect(values).toMatchObject({
        name: 'Larch End',
        halfPints: '7',
        region: wrong.region === 'Atlantis' ? '' : 'NJ',
      });
      expect(await households(db)).toEqual([]);
      expect(planned).toEqual([]);
    },
  );

  test('nothing chosen to eat is nothing to plan: refused at the list', async () => {
    const page = await visitor.open('/start');
    const { values } = formOf(page.body, '/start');
    const none = Object.fromEntries(
      Object.keys(values)
        .filter((name) => name.startsWith('eats-'))
        .map((name) => [name, '']),
    );

    const answer = await visitor.submit(page, { form: '/start', fill: none });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Choose at least one thing you like to eat');
  });

  test('a box that was unticked comes back unticked', async () => {
    const page = await visitor.open('/start');
    const { values } = formOf(page.body, '/start');
    expect(values.boilingWater).toBe('yes');

    const answer = await visitor.submit(page, { form: '/start', fill: { boilingWater: '', people: '0' } });

    expect(formOf(answer.body, '/start').values.boilingWater).toBeUndefined();
  });

  test('the same form pressed twice sets up one household', async () => {
    const page = await visitor.open('/start');
    const first = await visitor.submit(page, { form: '/start', fill: { region: 'NJ' } });
    const second = await visitor.submit(page, { form: '/start', fill: { region: 'NJ' } });

    expect([first.status, second.status]).toEqual([303, 303]);
    expect(await households(db)).toHaveLength(1);
  });

  test('the same form pressed twice, or sent again from a browser that lost the answer, has one owner', async () => {
    const fill = { region: 'NJ', owner: 'Odile', passphrase: 'seven wet gloves on a line' };
    const page = await visitor.open('/start');
    const pressed = { form: '/start', fill };
    const forgetful = new Visitor(app);
    const asIfFirst = await forgetful.open('/start');

    const twice = await Promise.all([visitor.submit(page, pressed), visitor.submit(page, pressed)]);
    const { key = '' } = formOf(page.body, '/start').values;
    const again = await forgetful.submit(asIfFirst, { form: '/start', fill: { ...fill, key } });

    expect([...twice, again].map(({ status, location }) => [status, location])).toEqual(
      Array.from({ length: 3 }, () => [303, '/?said=started']),
    );
    expect(await households(db)).toHaveLength(1);
    expect(await db.selectFrom('person').select('name').execute()).toEqual([{ name: 'Odile' }]);
  });
});

describe('the demo beside one’s own', () => {
  test('one looks around in the invented household, then sets up one’s own and stands in it', async () => {
    expect((await visitor.submitOn('/start', { form: '/start/demo' })).location).toBe('/');
    const demo = wordsOf((await visitor.open('/')).body);
    expect(demo).toContain('Thistle Bank');
    expect(demo).toContain('Set up your own');

    await setUp({ name: 'Larch End' });
    expect(wordsOf((await visitor.open('/')).body)).toContain('Larch End');

    await visitor.submitOn('/start', { form: '/start/demo' });
    expect(wordsOf((await visitor.open('/items')).body)).toContain('Thistle Bank');
    const [own] = await households(db);
    expect((await households(db)).map(({ name }) => name)).toEqual(['Larch End', 'Thistle Bank']);

    await visitor.submitOn('/start', { form: `/start/households/${own?.id}` });
    expect(wordsOf((await visitor.open('/items')).body)).toContain('Larch End');
  });

  test('a visitor who chose nothing sees the household of one’s own, not the invented one', async () => {
    await visitor.submitOn('/start', { form: '/start/demo' });
    await setUp({ name: 'Larch End' });

    const stranger = new Visitor(app);
    expect(wordsOf((await stranger.open('/')).body)).toContain('Larch End');
  });

  test('a cookie that names no household of this file chooses nothing', async () => {
    await setUp({ name: 'Larch End' });

    const answer = await app.inject({ url: '/', headers: { cookie: 'household=somebody-else' } });

    expect(answer.statusCode).toBe(200);
    expect(wordsOf(answer.body)).toContain('Larch End');
    expect((await visitor.open('/start/households/somebody-else')).status).toBe(404);
  });

  test('what is changed in one household stays out of the other', async () => {
    await visitor.submitOn('/start', { form: '/start/demo' });
    const [demo] = await households(db);
    const before = demo === undefined ? [] : await itemsOf(db, demo.id);
    await setUp({ name: 'Larch End' });

    await visitor.submitOn('/items/new?kind=staple', {
      form: '/items',
      fill: { name: 'Buckwheat', packUnits: '2', packPrice: '4.50' },
    });

    expect(before.length).toBeGreaterThan(20);
    expect(demo === undefined ? [] : await itemsOf(db, demo.id)).toEqual(before);
    const own = (await households(db)).find(({ isDemo }) => !isDemo);
    expect((own === undefined ? [] : await itemsOf(db, own.id)).map(({ name }) => name)).toContain(
      'Buckwheat',
    );
    expect((await visitor.open('/items/flour')).status).toBe(404);
  });
});

describe('units, weeks and dates', () => {
  test.each([
    ['en-US,en;q=0.9', { units: 'us', weekStartsOn: 'sunday', locale: 'en-US', altitudeUnit: 'ft' }],
    ['en-GB,en;q=0.9', { units: 'metric', weekStartsOn: 'monday', locale: 'en-GB', altitudeUnit: 'm' }],
    ['de', { units: 'metric', weekStartsOn: 'monday', locale: 'en-GB', altitudeUnit: 'm' }],
    ['?!', { units: 'us', weekStartsOn: 'sunday', locale: 'en-US', altitudeUnit: 'ft' }],
  ])('begin as a browser that asks for %s suggests', async (languages, expected) => {
    const { body } = await app.inject({ url: '/start', headers: { 'accept-language': languages } });

    expect(formOf(body, '/start').values).toMatchObject(expected);
  });
});
