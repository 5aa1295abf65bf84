import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { removeMember } from '../../../server/access/members.ts';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { mostPerPerson } from '../../../server/records/household/create-household.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { households } from '../../builders/all-households.ts';
import { member } from '../../builders/furnished-household.ts';
import { formOf, Visitor, wordsOf } from '../../builders/visitor.ts';

// Who set a household up does not own it for ever: the form that made it, sent again, gives nobody anything.

const passphrase = 'seven wet gloves on a line';

let db: Database;
let app: FastifyInstance;
beforeEach(async () => {
  db = await openDatabase(':memory:');
  app = await buildApp({ db, reference: loadReferenceTables(), now: () => Date.UTC(2026, 3, 15, 16) });
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

const memberships = () =>
  db
    .selectFrom('membership')
    .innerJoin('person', 'person.id', 'membership.person_id')
    .select(['membership.household_id as of', 'person.name', 'membership.role'])
    .orderBy('of')
    .orderBy('person.name')
    .execute();
const idOf = async (name: string): Promise<string> =>
  (await db.selectFrom('person').select('id').where('name', '=', name).executeTakeFirstOrThrow()).id;
/** What only writing changes. */
const facts = async () => JSON.stringify(await db.selectFrom('household').selectAll().execute());

/** Ada sets Larch End up with that form; Bea becomes the other owner and removes Ada. */
async function takenOver(signedInFirst: boolean) {
  const ada = new Visitor(app);
  if (signedInFirst)
    await ada.submitOn('/start', {
      form: '/start',
      fill: { region: 'NJ', name: 'Ada’s first', owner: 'Ada', passphrase },
    });
  const page = await ada.open('/start');
  const fill = {
    region: 'NJ',
    name: 'Larch End',
    ...(signedInFirst ? {} : { owner: 'Ada', passphrase }),
  };
  expect((await ada.submit(page, { form: '/start', fill })).status).toBe(303);
  const { id } = (await households(db)).find(({ name }) => name === 'Larch End') ?? { id: '' as HouseholdId };
  await member(db, id, { id: 'Bea', role: 'owner' }, Date.UTC(2026, 3, 15, 16));
  expect((await removeMember(db, id, await idOf('Ada'))).ok).toBe(true);
  return { ada, page, fill, id };
}

describe.each([
  ['by somebody signed in', true],
  ['by a new owner', false],
])('a household set up %s', (_, signedInFirst) => {
  test('is not given back to a removed owner who sends the form again', async () => {
    const { ada, page, fill } = await takenOver(signedInFirst);
    const [before, asWere] = [await memberships(), await facts()];

    const again = await ada.submit(page, { form: '/start', fill });

    expect([again.status, again.location]).toEqual([303, '/?said=started']);
    expect(await memberships()).toEqual(before);
    expect(await facts()).toBe(asWere);
    expect(wordsOf((await ada.open('/people')).body)).not.toContain('Bea');
  });

  test('nor to that person signed out, with the passphrase in the form', async () => {
    const { page, fill, id } = await takenOver(signedInFirst);
    const { key = '' } = formOf(page.body, '/start').values;
    const before = await memberships();

    const out = new Visitor(app);
    await out.submitOn('/start', { form: '/start', fill: { ...fill, key, owner: 'Ada', passphrase } });

    expect((await memberships()).filter(({ of }) => of === id)).toEqual(before.filter(({ of }) => of === id));
    expect(wordsOf((await out.open('/people')).body)).not.toContain('Bea');
  });

  test('is none of somebody else’s who knows the key of the form: that person sets up one of the own', async () => {
    const { page, fill, id } = await takenOver(signedInFirst);
    const { key = '' } = formOf(page.body, '/start').values;
    const token = await member(
      db,
      (await households(db))[0]?.id ?? id,
      { id: 'Cleo', role: 'owner' },
      Date.UTC(2026, 3, 15, 16),
    );
    await removeMember(db, (await households(db))[0]?.id ?? id, await idOf('Cleo'));

    const cleo = new Visitor(app, { 'sign-in': token });
    await cleo.submitOn('/start', { form: '/start', fill: { ...fill, key } });

    const own = (await memberships()).filter(({ name }) => name === 'Cleo');
    expect(own).toEqual([{ of: expect.any(String), name: 'Cleo', role: 'owner' }]);
    expect(own[0]?.of).not.toBe(id);
  });
});

test('household and owner are made together: a name taken meanwhile leaves neither', async () => {
  const visitor = new Visitor(app);
  const fill = { region: 'NJ', owner: 'Ada', passphrase };
  const pages = [await visitor.open('/start'), await visitor.open('/start')];

  const answers = await Promise.all(pages.map((page) => visitor.submit(page, { form: '/start', fill })));

  expect(answers.map(({ status }) => status).toSorted()).toEqual([303, 422]);
  expect(await households(db)).toHaveLength(1);
  expect(await memberships()).toHaveLength(1);
});

test('an owner whose answer was lost is let in by sending the form again, which adds nobody', async () => {
  const fill = { region: 'NJ', owner: 'Ada', passphrase };
  const first = new Visitor(app);
  const page = await first.open('/start');
  const { key = '' } = formOf(page.body, '/start').values;
  const other = new Visitor(app);
  const otherPage = await other.open('/start');
  await first.submit(page, { form: '/start', fill });

  await other.submit(otherPage, { form: '/start', fill: { ...fill, key } });

  expect((await other.open('/')).status).toBe(200);
  expect(await memberships()).toHaveLength(1);
  const wrong = new Visitor(app);
  await wrong.submitOn('/sign-in', {
    form: '/sign-in',
    fill: { name: 'Ada', passphrase: 'not hers at all' },
  });
  expect((await wrong.open('/')).location).toBe('/sign-in');
});

test(`one person sets up ${mostPerPerson} households at most, and is told so`, async () => {
  const ada = new Visitor(app);
  const fill = { region: 'NJ', owner: 'Ada', passphrase };
  await ada.submitOn('/start', { form: '/start', fill });
  for (let more = 1; more < mostPerPerson; more += 1)
    expect((await ada.submitOn('/start', { form: '/start', fill: { region: 'NJ' } })).status).toBe(303);

  const refused = await ada.submitOn('/start', { form: '/start', fill: { region: 'NJ' } });

  expect(refused.status).toBe(422);
  expect(wordsOf(refused.body)).toContain(`One person sets up ${mostPerPerson} households at most`);
  expect(await households(db)).toHaveLength(mostPerPerson);
});
