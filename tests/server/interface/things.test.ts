import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { mostThings, thingsOf, withdrawThing } from '../../../server/access/connected-things.ts';
import { changeRole, closeHousehold, removeMember } from '../../../server/access/members.ts';
import { securityEventsOf } from '../../../server/access/security-events.ts';
import { tokenHash } from '../../../server/access/tokens.ts';
import { buildApp } from '../../../server/app.ts';
import { backUpFile } from '../../../server/database/backup.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { restore } from '../../../server/database/restore.ts';
import { householdText } from '../../../server/files/household-file.ts';
import { requestsOfThingPerMinute } from '../../../server/pages/interface/routes.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { asDate } from '../../../shared/week.ts';
import { factsChanged } from '../../builders/facts-changed.ts';
import { member, memberPassphrase } from '../../builders/furnished-household.ts';
import { worked } from '../../builders/outcomes.ts';
import { Thing } from '../../builders/thing.ts';
import {
  medlarLane,
  noon,
  quinceYard,
  type TwoHouseholds,
  twoHouseholds,
} from '../../builders/two-households.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// Who is let in by an access token, what it may do, and when it ends.

let both: TwoHouseholds;
beforeEach(async () => {
  both = await twoHouseholds();
});
afterEach(() => both.close());

const medlarThing = (wish = {}) => Thing.of(both.app, both.db, medlarLane, { name: 'Hall clock', ...wish });
const stockOf = async (household: string): Promise<number> => {
  const rows = await both.db
    .selectFrom('jar_event')
    .select((row) => row.fn.sum<number>('units').as('units'))
    .where('household_id', '=', household)
    .executeTakeFirstOrThrow();
  return rows.units;
};

describe('an access token', () => {
  test('is shown once on the page, kept as its hash alone, and used from then on', async () => {
    const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    const made = await owner.submitOn('/connected-things', {
      form: '/connected-things',
      fill: { name: 'Kitchen tablet', may: 'read and take', present: memberPassphrase },
    });
    const token = /shelfward_[\w-]{43}/.exec(made.body)?.[0] ?? '';
    const thing = new Thing(both.app, token);
    const [row] = await both.db
      .selectFrom('connected_thing')
      .selectAll()
      .where('name', '=', 'Kitchen tablet')
      .execute();

    expect(made.status).toBe(200);
    expect(row).toMatchObject({
      may: 'read and take',
      made_by: 'medlar-owner',
      token_hash: tokenHash(token),
      used_at: null,
    });
    expect(JSON.stringify(row)).not.toContain(token.slice('shelfward_'.length));
    expect((await thing.read('/shelf')).status).toBe(200);
    const later = await owner.open('/connected-things');
    expect(later.body).not.toContain(token);
    expect(wordsOf(later.body)).toMatch(
      /Kitchen tablet ?, reads and takes; connected by medlar-owner on .*; last used/,
    );
    const events = await securityEventsOf(both.db, medlarLane, 10);
    expect(events.map(({ words }) => words)).toContain('connected a thing that may read and take');
  });

  test.each([
    ['without the passphrase', { present: '' }, 'Present passphrase is empty'],
    ['with another passphrase', { present: 'another one entirely' }, 'not your present passphrase'],
    ['without a name', { name: '' }, 'Name is empty'],
    ['with a name that is in use', { name: 'Fridge display' }, 'connected already'],
    ['with a last day that is past', { endsOn: '2026-08-01' }, 'which is past'],
    ['with a right nobody has', { may: 'everything' }, 'Choose an answer'],
  ])('%s is not made', async (_, over, words) => {
    const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    const before = await thingsOf(both.db, medlarLane);
    const sent = { name: 'Kitchen tablet', may: 'read', present: memberPassphrase, ...over };
    const answer = await owner.submitOn('/connected-things', { form: '/connected-things', fill: sent });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
    expect(answer.body).not.toContain('shelfward_');
    expect(await thingsOf(both.db, medlarLane)).toEqual(before);
  });

  test('is one of twenty at most', async () => {
    for (let at = (await thingsOf(both.db, medlarLane)).length; at < mostThings; at += 1)
      await medlarThing({ name: `Thing ${at}` });

    await expect(medlarThing({ name: 'One more' })).rejects.toThrow();
  });

  test.each([
    ['none', {}, 'token-missing', 'Bearer realm="shelfward"'],
    ['of another kind', { authorization: 'Basic aWRhOm9kbw==' }, 'token-unknown', 'invalid_token'],
    ['that is empty', { authorization: 'Bearer ' }, 'token-unknown', 'invalid_token'],
    [
      'nobody was given',
      { authorization: `Bearer shelfward_${'a'.repeat(43)}` },
      'token-unknown',
      'invalid_token',
    ],
    ['with signs no token has', { authorization: 'Bearer a b\u00e9' }, 'token-unknown', 'invalid_token'],
  ])('%s opens nothing and says what is needed', async (_, headers, code, challenge) => {
    for (const url of ['/api/v1/shelf', '/api/v1/week', '/%61pi/v1/notices']) {
      const answer = await both.app.inject({
        url,
        headers,
        cookies: { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' },
      });

      expect(answer.statusCode).toBe(401);
      expect(answer.headers['www-authenticate']).toContain(challenge);
      expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
      expect(answer.json()).toMatchObject({ code, status: 401 });
    }
  });

  test('cut short, lengthened or of a sign-in opens nothing, and that it was tried is kept', async () => {
    const thing = await medlarThing();
    for (const token of [
      thing.token.slice(0, -1),
      `${thing.token}a`,
      thing.token.toUpperCase(),
      both.tokenOf.get('medlar-owner') ?? '',
    ])
      expect((await new Thing(both.app, token).read('/shelf')).status).toBe(401);

    const kinds = await both.db
      .selectFrom('security_event')
      .select('kind')
      .where('kind', '=', 'token-refused')
      .execute();
    expect(kinds.length).toBeLessThanOrEqual(1);
  });

  test('reads until the end of its last day where the household lives, and not after', async () => {
    const db = both.db;
    let now = Date.parse('2026-08-18T05:59:00Z');
    const app = await buildApp({ db, reference: loadReferenceTables(), now: () => now });
    const thing = await Thing.of(app, db, medlarLane, {
      name: 'Guest’s tablet',
      endsOn: asDate('2026-08-17'),
    });
    const zone = await db
      .selectFrom('household')
      .select('time_zone')
      .where('id', '=', medlarLane)
      .executeTakeFirstOrThrow();
    const midnight =
      Date.parse('2026-08-18T00:00:00Z') + (zone.time_zone === 'America/Denver' ? 6 * 3_600_000 : 0);
    now = midnight - 1;
    const before = await thing.read('/shelf');
    now = midnight;
    const after = await thing.read('/shelf');
    await app.close();

    expect([before.status, after.status]).toEqual([200, 401]);
  });

  test('that was withdrawn opens nothing from then on; another household withdraws none', async () => {
    const thing = await medlarThing();
    const [own] = (await thingsOf(both.db, medlarLane)).filter(({ name }) => name === 'Hall clock');
    expect(await withdrawThing(both.db, quinceYard, own?.id ?? '')).toBe(false);
    expect((await thing.read('/shelf')).status).toBe(200);
    const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    await owner.submitOn('/connected-things', { form: `/connected-things/${own?.id}/withdrawal` });

    expect((await thing.read('/shelf')).status).toBe(401);
    expect((await securityEventsOf(both.db, medlarLane, 5)).map(({ words }) => words)).toContain(
      'withdrew a connected thing',
    );
  });

  test('that may only read takes nothing, and that it tried is kept', async () => {
    const thing = await medlarThing({ may: 'read' });
    const before = await stockOf(medlarLane);
    const answers = [
      await thing.write('/takes', { item: both.medlar.item }),
      await thing.write(`/takes/${both.medlar.take}/undo`),
    ];

    for (const { status, headers, json } of answers) {
      expect(status).toBe(403);
      expect(headers['www-authenticate']).toContain('insufficient_scope');
      expect(json).toMatchObject({ code: 'scope-missing' });
    }
    expect(await stockOf(medlarLane)).toBe(before);
    expect((await securityEventsOf(both.db, medlarLane, 5)).map(({ words }) => words)).toContain(
      'a connected thing was refused: it may only read',
    );
  });
});

describe('what a connected thing sees', () => {
  test('is its own household, whatever else it names or whoever is signed in', async () => {
    const thing = await medlarThing();
    for (const path of ['/shelf', '/eat-first', '/week', '/notices', `/items/${both.medlar.item}`]) {
      const answer = await thing.read(`${path}?household=${quinceYard}`, {
        cookie: `sign-in=${both.tokenOf.get('quince-owner')}; household=${quinceYard}`,
        'x-household': quinceYard,
      });
      expect(answer.status).toBe(200);
      expect(JSON.stringify(answer.json)).not.toMatch(/quince/);
      expect(answer.headers['set-cookie']).toBeUndefined();
    }
  });

  test('another household’s item, batch and take are answered like ones nobody has, and nothing of theirs changes', async () => {
    const thing = await medlarThing();
    const before = [await stockOf(quinceYard), await stockOf(medlarLane)];
    const { item = '', lot = '', take = '' } = both.quince;
    const own = both.medlar.item ?? '';
    const plain = (answer: { readonly status: number; readonly json: object }, id: string) =>
      `${answer.status} ${JSON.stringify(answer.json).replaceAll(id, 'ID')}`;
    const pairs = [
      [await thing.read(`/items/${item}`), await thing.read('/items/nobodys'), item],
      [await thing.write('/takes', { item }), await thing.write('/takes', { item: 'nobodys' }), item],
      [
        await thing.write('/takes', { item: own, batch: lot }),
        await thing.write('/takes', { item: own, batch: 'nobodys' }),
        lot,
      ],
      [await thing.write(`/takes/${take}/undo`), await thing.write('/takes/nobodys/undo'), take],
    ] as const;

    for (const [their, no, id] of pairs) {
      expect(their.status).toBeGreaterThanOrEqual(400);
      expect(plain(their, id)).toBe(plain(no, 'nobodys'));
    }
    expect([await stockOf(quinceYard), await stockOf(medlarLane)]).toEqual(before);
  });

  test('is told by a mark of its content, and not sent again while it stays the same', async () => {
    const thing = await medlarThing();
    const first = await thing.read('/shelf');
    const etag = String(first.headers.etag);
    const same = await thing.read('/shelf', { 'if-none-match': `W/"other", ${etag}` });
    const taken = await thing.write('/takes', { item: both.medlar.item });
    const other = await thing.read('/shelf', { 'if-none-match': etag });

    expect([first.status, same.status, taken.status, other.status]).toEqual([200, 304, 201, 200]);
    expect(first.headers['cache-control']).toBe('private, no-cache');
    expect(other.headers.etag).not.toBe(etag);
  });

  test('is what the shelf’s page shows of it', async () => {
    const thing = await medlarThing();
    const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    const shelf = (await thing.read('/shelf')).json as {
      readonly items: readonly {
        readonly name: string;
        readonly unitsLeft: number;
        readonly lasts: { readonly words: string };
      }[];
    };
    const page = wordsOf((await owner.open('/shelf')).body);

    expect(shelf.items.length).toBeGreaterThan(0);
    for (const { name, lasts } of shelf.items) {
      expect(page).toContain(name);
      expect(page).toContain(lasts.words);
    }
  });
});

describe('a write', () => {
  test('sent again with its key counts once; with its key and another content it is refused, with another key it counts', async () => {
    const thing = await medlarThing();
    const before = await stockOf(medlarLane);
    const body = { item: both.medlar.item, batch: both.medlar.lot };
    const [first, again] = [
      await thing.write('/takes', body, 'key-of-one-take'),
      await thing.write('/takes', body, 'key-of-one-take'),
    ];
    const other = await thing.write('/takes', { ...body, outcome: 'given-away' }, 'key-of-one-take');

    expect([first.status, again.status, other.status]).toEqual([201, 201, 409]);
    expect(again.json.take).toBe(first.json.take);
    expect(other.json).toMatchObject({ code: 'key-reused' });
    expect(await stockOf(medlarLane)).toBe(before - 1);
    expect((await thing.write('/takes', body)).status).toBe(201);
    expect(await stockOf(medlarLane)).toBe(before - 2);
  });

  test('says what is left as the shelf has it, by whatever way it was taken and when it was sent before', async () => {
    const thing = await medlarThing();
    const { item, lot } = both.medlar;
    // A lot in a jar of another size, of which the oldest is taken first, and one that is set aside.
    const own = await both.db
      .selectFrom('lot')
      .selectAll()
      .where('household_id', '=', medlarLane)
      .where('id', '=', lot ?? '')
      .executeTakeFirstOrThrow();
    const others = [
      { id: 'of-quarts', jar_kind: 'quart/regular', best_quality_until: '2026-12-01', set_aside_at: null },
      { id: 'set-aside', jar_kind: own.jar_kind, best_quality_until: '2026-11-01', set_aside_at: noon },
    ] as const;
    for (const [at, other] of others.entries()) {
      const reason = other.set_aside_at === null ? null : 'a lid that bulges';
      await both.db
        .insertInto('lot')
        .values({ ...own, ...other, batch_code: other.id, set_aside_reason: reason })
        .execute();
      await both.db
        .insertInto('jar_event')
        .values({
          household_id: medlarLane,
          seq: 9000 + at,
          entry_id: `made ${other.id}`,
          lot_id: other.id,
          kind: 'put up',
          units: 3,
          occurred_on: own.made_on,
          recorded_at: noon,
        })
        .execute();
    }
    await factsChanged(both.db);
    const onShelf = async () => {
      const { items } = (await thing.read('/shelf')).json as unknown as {
        readonly items: readonly { readonly id: string; readonly name: string; readonly unitsLeft: number }[];
      };
      const { name, unitsLeft } = items.find(({ id }) => id === item) ?? { name: '', unitsLeft: Number.NaN };
      return { item: { id: item, name }, unitsLeft };
    };

    const before = await onShelf();
    const byItem = await thing.write('/takes', { item, units: 2 }, 'two-by-item');
    expect(byItem.json).toMatchObject({ ...(await onShelf()), from: [{ batch: 'of-quarts' }] });
    const byBatch = await thing.write('/takes', { item, batch: lot });
    expect(byBatch.json).toMatchObject(await onShelf());
    const spoilt = await thing.write('/takes', { item, batch: 'set-aside', outcome: 'unsealed' });
    expect([spoilt.status, spoilt.json]).toMatchObject([201, await onShelf()]);
    const again = await thing.write('/takes', { item, units: 2 }, 'two-by-item');
    expect(again.json).toMatchObject({ ...(await onShelf()), take: byItem.json.take });
    expect((await onShelf()).unitsLeft).toBeLessThan(before.unitsLeft - 2);
  });

  test('of two things with the same key counts twice', async () => {
    const [one, other] = [await medlarThing(), await medlarThing({ name: 'Cellar button' })];
    const before = await stockOf(medlarLane);
    const body = { item: both.medlar.item, batch: both.medlar.lot };
    await one.write('/takes', body, 'the-same-key');
    await other.write('/takes', body, 'the-same-key');

    expect(await stockOf(medlarLane)).toBe(before - 2);
  });

  test.each([null, 'short', 'x'.repeat(101), 'with a gap in it'])(
    'without a fitting key (%s) is not done',
    async (key) => {
      const thing = await medlarThing();
      const before = await stockOf(medlarLane);
      const { status, json } = await thing.write('/takes', { item: both.medlar.item }, key);

      expect(status).toBe(400);
      expect(json).toMatchObject({ code: 'key-missing' });
      expect(await stockOf(medlarLane)).toBe(before);
    },
  );

  test('is undone once; what is undone, or is no take, is not undone again', async () => {
    const thing = await medlarThing();
    const before = await stockOf(medlarLane);
    const taken = await thing.write('/takes', { item: both.medlar.item, batch: both.medlar.lot });
    const path = `/takes/${String(taken.json.take)}/undo`;
    const undone = await thing.write(path, undefined, 'back-again-once');
    const again = await thing.write(path, undefined, 'back-again-once');
    const anew = await thing.write(path);
    const put = await both.db
      .selectFrom('jar_event')
      .select('entry_id')
      .where('household_id', '=', medlarLane)
      .where('kind', 'in', ['put up', 'bought', 'received'])
      .executeTakeFirstOrThrow();
    const putUp = await thing.write(`/takes/${encodeURIComponent(put.entry_id)}/undo`);

    expect([undone.status, again.status, anew.status, putUp.status]).toEqual([200, 200, 409, 404]);
    expect(undone.json).toMatchObject({ undone: taken.json.take, units: 1 });
    expect(await stockOf(medlarLane)).toBe(before);
  });

  test.each([
    [{}, ['item']],
    [{ item: 'No id' }, ['item']],
    [{ item: 'plum', units: 0, who: 'a\nb', on: '2026-02-30' }, ['units', 'on', 'who']],
    [{ item: 'plum', units: '2', forPromise: 'yes', outcome: 'sold' }, ['units', 'outcome', 'forPromise']],
  ])('that does not fit (%j) is told every field at once', async (body, fields) => {
    const thing = await medlarThing();
    const { status, json, type } = await thing.write('/takes', body);
    const errors = json.errors as readonly { readonly field: string; readonly detail: string }[];

    expect(status).toBe(422);
    expect(type).toBe('application/problem+json; charset=utf-8');
    expect(errors.map(({ field }) => field)).toEqual(fields);
    // What we need, what was sent, what to do.
    for (const { detail } of errors) expect(detail).toMatch(/^[A-Z].*; .* was sent\. [A-Z].*\.$/);
  });

  test('with a field nobody knows is refused by its name; text that is no JSON and a form are refused as such', async () => {
    const thing = await medlarThing();
    const unknown = await thing.write('/takes', { item: both.medlar.item, household: quinceYard });
    const torn = await thing.write('/takes', '{"item":');
    const form = await both.app.inject({
      method: 'POST',
      url: '/api/v1/takes',
      headers: {
        authorization: `Bearer ${thing.token}`,
        'idempotency-key': 'sent-by-a-form',
        'content-type': 'application/x-www-form-urlencoded',
      },
      payload: `item=${both.medlar.item}`,
    });

    expect(unknown.json.detail).toContain('“household” is no field of a take');
    expect([unknown.status, torn.status, form.statusCode]).toEqual([422, 400, 415]);
  });
});

describe('a thing is let in no longer', () => {
  const madeByCook = async () => {
    await member(both.db, medlarLane, { id: 'medlar-second', role: 'owner' }, both.app.now());
    return medlarThing({ madeBy: 'medlar-second' });
  };

  test('when who connected it is removed', async () => {
    const [theirs, kept] = [
      await madeByCook(),
      await medlarThing({ name: 'Kitchen tablet', madeBy: 'medlar-owner' }),
    ];
    worked(await removeMember(both.db, medlarLane, 'medlar-second'));

    expect([(await theirs.read('/shelf')).status, (await kept.read('/shelf')).status]).toEqual([401, 200]);
  });

  test('and the page says so to whoever removed the maker, and keeps it among what happened', async () => {
    await madeByCook();
    const owner = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    const removed = await owner.submitOn('/people', { form: '/people/medlar-second/removal' });

    expect(removed.status).toBe(303);
    expect(wordsOf((await owner.open(removed.location)).body)).toContain(
      'What the member had connected is withdrawn',
    );
    const told = (await securityEventsOf(both.db, medlarLane, 5)).map(({ words }) => words);
    expect(told).toEqual(expect.arrayContaining(['a member was removed', 'withdrew a connected thing']));
  });

  test('when who connected it is an owner no more', async () => {
    const theirs = await madeByCook();
    worked(await changeRole(both.db, medlarLane, 'medlar-second', 'reader'));

    expect((await theirs.read('/shelf')).status).toBe(401);
  });

  test('when a household that was open gets an owner', async () => {
    await both.db.deleteFrom('membership').where('household_id', '=', quinceYard).execute();
    const thing = await Thing.of(both.app, both.db, quinceYard, { name: 'Hall clock' });
    const open = await thing.read('/shelf');
    const said = { name: 'Somebody new', passphrase: 'kettle lids and wet boots' };
    worked(await closeHousehold(both.db, quinceYard, said, both.app.now()));

    expect([open.status, (await thing.read('/shelf')).status]).toEqual([200, 401]);
  });

  test('while its household is deleted, and again when it came back', async () => {
    const thing = await medlarThing();
    await both.db
      .insertInto('household_deletion')
      .values({ household_id: medlarLane, deleted_at: both.app.now(), by_name: 'Ida' })
      .execute();
    const gone = await thing.read('/shelf');
    await both.db.deleteFrom('household_deletion').execute();

    expect([gone.status, (await thing.read('/shelf')).status]).toEqual([401, 200]);
  });

  test('from elsewhere when its household is open to whoever sits at the machine', async () => {
    await both.db.deleteFrom('membership').where('household_id', '=', quinceYard).execute();
    const thing = await Thing.of(both.app, both.db, quinceYard, { name: 'Hall clock' });
    const app = await buildApp({
      db: both.db,
      reference: loadReferenceTables(),
      now: both.app.now,
      publicAddress: 'https://pantry.example',
    });
    const outside = await new Thing(app, thing.token).read('/shelf', { host: 'pantry.example' });
    await app.close();

    expect(outside.status).toBe(401);
  });

  test('when it asks too often, until it has waited; others go on', async () => {
    const [thing, other] = [await medlarThing(), await medlarThing({ name: 'Cellar button' })];
    const statuses = new Map<number, number>();
    let last = await thing.read('/eat-first');
    for (let at = 1; at < requestsOfThingPerMinute + 5; at += 1) {
      last = await thing.read('/eat-first');
      statuses.set(last.status, (statuses.get(last.status) ?? 0) + 1);
    }

    expect(statuses.get(200)).toBe(requestsOfThingPerMinute - 1);
    expect(last.status).toBe(429);
    expect(Number(last.headers['retry-after'])).toBeGreaterThan(0);
    expect(last.json).toMatchObject({ code: 'too-many', status: 429 });
    expect((await other.read('/eat-first')).status).toBe(200);
  });
});

describe('a copy of the file', () => {
  test('opens to no connected thing: neither a backup nor what is put in place of it, nor a household taken along', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'things-'));
    const file = join(folder, 'two.sqlite');
    const own = await twoHouseholds(1, file);
    try {
      const thing = await Thing.of(own.app, own.db, medlarLane, { name: 'Hall clock' });
      const backup = join(folder, 'copy.sqlite');
      worked(await backUpFile(file, backup));
      expect(await thingsOf(own.db, medlarLane)).toHaveLength(2);
      expect(readFileSync(backup).includes(tokenHash(thing.token))).toBe(false);
      expect(readFileSync(file).length).toBeGreaterThan(0);
      expect(await householdText(own.db, medlarLane)).not.toContain(tokenHash(thing.token));
      const restored = join(folder, 'restored.sqlite');
      worked(await restore({ backup, file: restored, withoutChecksum: true, stamp: '2026-08-17T000000Z' }));
      const after = await openDatabase(restored);
      expect(await after.selectFrom('connected_thing').selectAll().execute()).toEqual([]);
      await after.destroy();
      const elsewhere = await openDatabase(backup);
      const there = await elsewhere.selectFrom('connected_thing').selectAll().execute();
      await elsewhere.destroy();

      expect(there).toEqual([]);
    } finally {
      await own.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });

  test('made by other means and put in place of the file opens to none either', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'things-'));
    const file = join(folder, 'two.sqlite');
    const own = await twoHouseholds(1, file);
    await own.close();
    try {
      const restored = join(folder, 'restored.sqlite');
      worked(
        await restore({ backup: file, file: restored, withoutChecksum: true, stamp: '2026-08-17T000000Z' }),
      );
      const [before, after] = [await openDatabase(file), await openDatabase(restored)];
      const counts = [
        (await before.selectFrom('connected_thing').selectAll().execute()).length,
        (await after.selectFrom('connected_thing').selectAll().execute()).length,
      ];
      await before.destroy();
      await after.destroy();

      expect(counts).toEqual([2, 0]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
