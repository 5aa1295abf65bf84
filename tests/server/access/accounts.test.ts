import { hash } from '@node-rs/argon2';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { reachOf } from '../../../server/access/reach.ts';
import { failureLimits } from '../../../server/access/sign-in-check.ts';
import { signInLimits } from '../../../server/access/sign-ins.ts';
import { buildApp } from '../../../server/app.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { type Cast, quinceYardHousehold } from '../../builders/quince-yard.ts';
import { linkShown, Visitor, wordsOf } from '../../builders/visitor.ts';

const reference = loadReferenceTables();
const passphrase = 'nine jars of plum jam';

let cast: Cast;
let app: Awaited<ReturnType<typeof buildApp>>;
let at = Date.UTC(2026, 7, 17, 18);
beforeEach(async () => {
  cast = await quinceYardHousehold();
  app = await buildApp({ db: cast.db, reference, now: () => at });
});
afterEach(async () => {
  await app.close();
  await cast.db.destroy();
});

const owner = async (): Promise<Visitor> => {
  const visitor = new Visitor(app);
  const closed = await visitor.submitOn('/people/owner', {
    form: '/people/owner',
    fill: { name: 'Ida', passphrase },
  });
  expect(closed.status).toBe(303);
  return visitor;
};

const signIn = (visitor: Visitor, fill: { name: string; passphrase: string }) =>
  visitor.submitOn('/sign-in', { form: '/sign-in', fill });

const invited = async (by: Visitor, role: string): Promise<string> => {
  const answer = await by.submitOn('/people', { form: '/people/invitations', fill: { role } });
  return linkShown(answer);
};

const joined = async (by: Visitor, role: string, name: string): Promise<Visitor> => {
  const link = await invited(by, role);
  const visitor = new Visitor(app);
  const page = await visitor.openLink(link);
  const answer = await visitor.submit(page, { form: '/invitations/acceptance', fill: { name, passphrase } });
  expect(answer.status).toBe(303);
  return visitor;
};

describe('what is kept of a passphrase', () => {
  const keptOf = async (name: string): Promise<string> =>
    (
      await cast.db
        .selectFrom('person')
        .select('passphrase_hash')
        .where('name', '=', name)
        .executeTakeFirstOrThrow()
    ).passphrase_hash;

  test('is made anew at sign-in where it was made with less work than today, and then left alone', async () => {
    await owner();
    const older = await hash(passphrase, { memoryCost: 8192, timeCost: 1, parallelism: 1 });
    await cast.db.updateTable('person').set({ passphrase_hash: older }).where('name', '=', 'Ida').execute();

    const wrong = await signIn(new Visitor(app), { name: 'Ida', passphrase: 'not the one at all' });
    expect([wrong.status, await keptOf('Ida')]).toEqual([422, older]);
    expect((await signIn(new Visitor(app), { name: 'Ida', passphrase })).status).toBe(303);
    const renewed = await keptOf('Ida');
    expect(renewed).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect((await signIn(new Visitor(app), { name: 'Ida', passphrase })).status).toBe(303);
    expect(await keptOf('Ida')).toBe(renewed);
  });
});

describe('a household without an owner', () => {
  test('is open on this machine, and closes once somebody sets a passphrase', async () => {
    const anybody = new Visitor(app);
    expect((await anybody.open('/shelf')).status).toBe(200);

    const ida = await owner();

    expect((await ida.open('/shelf')).status).toBe(200);
    expect(await anybody.open('/shelf')).toMatchObject({ status: 303, location: '/sign-in' });
  });

  test('asks for a passphrase of 12 characters at least', async () => {
    const answer = await new Visitor(app).submitOn('/people/owner', {
      form: '/people/owner',
      fill: { name: 'Ida', passphrase: 'plum jam' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('at least 12 characters');
  });

  test('is not served beyond this machine, nor is anything without TLS', async () => {
    const https = 'https://pantry.example';
    expect(worked(await reachOf(cast.db, '127.0.0.1', ''))).toEqual({ beyondLoopback: false });
    expect(refusalOf(await reachOf(cast.db, '0.0.0.0', https)).code).toBe('account-missing');
    expect(refusalOf(await reachOf(cast.db, '127.0.0.1', https)).code).toBe('account-missing');
    await owner();

    expect(refusalOf(await reachOf(cast.db, '0.0.0.0', '')).message).toContain('speak TLS');
    expect(worked(await reachOf(cast.db, '0.0.0.0', https))).toEqual({ beyondLoopback: true });
  });

  test('answers only to the names of this machine', async () => {
    const elsewhere = await app.inject({ url: '/shelf', headers: { host: 'pantry.attacker.example' } });

    expect(elsewhere.statusCode).toBe(421);
    expect(elsewhere.body).not.toContain('Plum jam');
  });
});

describe('signing in', () => {
  test('lets members in with another token each time, kept only as a hash, in a cookie no script reads', async () => {
    await owner();
    const tokens = new Set<string>();
    for (let time = 0; time < 2; time += 1) {
      const page = await app.inject('/sign-in');
      const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
      const form = page.cookies.find(({ name }) => name === 'form')?.value ?? '';
      const answer = await app.inject({
        method: 'POST',
        url: '/sign-in',
        cookies: { form },
        headers: { 'content-type': 'application/x-www-form-urlencoded' },
        payload: new URLSearchParams({ _csrf: csrf, name: 'ida', passphrase }).toString(),
      });
      const cookie = answer.cookies.find(({ name }) => name === 'sign-in');
      expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Lax', path: '/' });
      tokens.add(cookie?.value ?? '');
    }

    const kept = JSON.stringify(await cast.db.selectFrom('sign_in').selectAll().execute());
    expect(tokens.size).toBe(2);
    for (const token of tokens) expect(kept).not.toContain(token);
    expect(JSON.stringify(await cast.db.selectFrom('person').selectAll().execute())).toContain('$argon2id$');
  });

  test('answers alike whether the name is known or not', async () => {
    await owner();

    const known = await signIn(new Visitor(app), { name: 'Ida', passphrase: 'something else entirely' });
    const unknown = await signIn(new Visitor(app), { name: 'Odo', passphrase: 'something else entirely' });

    const plain = (body: string) => wordsOf(body).replaceAll(/Ida|Odo/g, '');
    expect([known.status, unknown.status]).toEqual([422, 422]);
    expect(plain(known.body)).toBe(plain(unknown.body));
  });

  test('makes a name wait after too many failures, the right passphrase included, known or not', async () => {
    await owner();
    for (const name of ['Ida', 'Odo']) {
      const guesser = new Visitor(app);
      for (let guess = 0; guess < failureLimits.account; guess += 1)
        await signIn(guesser, { name, passphrase: `guess number ${guess}` });
      expect((await signIn(guesser, { name, passphrase })).status).toBe(429);
    }
    at += failureLimits.windowMs + 1;

    expect((await signIn(new Visitor(app), { name: 'Ida', passphrase })).status).toBe(303);
  });

  test('ends after two weeks unused, and after sixty days in any case', async () => {
    const ida = await owner();
    at += signInLimits.idleMs + 1;
    expect((await ida.open('/shelf')).location).toBe('/sign-in');

    expect((await signIn(ida, { name: 'Ida', passphrase })).status).toBe(303);
    for (let seen = 0; seen < 6; seen += 1) {
      expect((await ida.open('/shelf')).status).toBe(200);
      at += signInLimits.wholeMs / 6 + 1;
    }
    expect((await ida.open('/shelf')).location).toBe('/sign-in');
  });

  test('ends here, or everywhere', async () => {
    const here = await owner();
    const phone = new Visitor(app);
    await signIn(phone, { name: 'Ida', passphrase });

    await here.submitOn('/people', { form: '/sign-out' });
    expect((await here.open('/shelf')).location).toBe('/sign-in');
    expect((await phone.open('/shelf')).status).toBe(200);

    await signIn(here, { name: 'Ida', passphrase });
    await here.submitOn('/people', { form: '/sign-out', fill: { where: 'everywhere' } });
    expect((await phone.open('/shelf')).location).toBe('/sign-in');
  });

  test('is asked for everywhere after the passphrase changed', async () => {
    const ida = await owner();
    const change = (present: string) =>
      ida.submitOn('/people/self', {
        form: '/people/self/passphrase',
        fill: { present, passphrase: 'quite another one' },
      });

    expect((await change('not the present one')).status).toBe(422);
    expect((await change(passphrase)).status).toBe(303);

    expect((await ida.open('/shelf')).location).toBe('/sign-in');
    expect((await signIn(ida, { name: 'Ida', passphrase: 'quite another one' })).status).toBe(303);
  });
});

describe('an invitation', () => {
  test('lets one person in once, and not after a week', async () => {
    const ida = await owner();
    const link = await invited(ida, 'helper');
    const odo = new Visitor(app);
    const form = await odo.openLink(link);

    expect(
      (await odo.submit(form, { form: '/invitations/acceptance', fill: { name: 'Odo', passphrase } })).status,
    ).toBe(303);
    expect((await odo.open('/shelf')).status).toBe(200);
    expect((await new Visitor(app).openLink(link)).status).toBe(404);

    const late = await invited(ida, 'helper');
    at += 7 * 24 * 60 * 60_000 + 1;
    expect((await new Visitor(app).openLink(late)).status).toBe(404);
  });

  test('is kept only as a hash', async () => {
    const link = await invited(await owner(), 'reader');

    const kept = JSON.stringify(await cast.db.selectFrom('invitation').selectAll().execute());

    expect(kept).not.toContain(link.split('#').at(-1) ?? 'nothing');
  });

  test('takes nobody a household’s last owner', async () => {
    const ida = await owner();
    const members = await cast.db.selectFrom('membership').select('person_id').execute();

    const removed = await ida.submitOn('/people', { form: `/people/${members[0]?.person_id}/removal` });

    expect(removed.status).toBe(422);
    expect((await ida.open('/shelf')).status).toBe(200);
  });

  test('gives its role: a reader changes nothing, a helper records, a cook plans, and only owners invite', async () => {
    const ida = await owner();
    const may: Record<string, readonly boolean[]> = {};
    for (const role of ['reader', 'helper', 'cook', 'owner']) {
      const visitor = await joined(ida, role, `the ${role}`);
      const csrf = await visitor.open('/kitchen');
      const statusOf = async (url: string) => (await visitor.post(csrf, url)).status;
      may[role] = [
        (await statusOf('/shelf/oats/takes')) !== 403,
        (await statusOf('/kitchen/time')) !== 403,
        (await statusOf('/people/invitations')) !== 403,
      ];
    }

    expect(may).toEqual({
      reader: [false, false, false],
      helper: [true, false, false],
      cook: [true, true, false],
      owner: [true, true, true],
    });
  });

  test('that ends a membership ends the view of the household at once', async () => {
    const ida = await owner();
    const odo = await joined(ida, 'cook', 'Odo');
    const { id } = await cast.db
      .selectFrom('person')
      .select('id')
      .where('name', '=', 'Odo')
      .executeTakeFirstOrThrow();

    await ida.submitOn('/people', { form: `/people/${id}/removal` });

    expect((await odo.open('/shelf')).body).not.toContain('Plum jam');
  });
});

describe('a role', () => {
  const roleOf = async (name: string) =>
    (
      await cast.db
        .selectFrom('membership')
        .innerJoin('person', 'person.id', 'membership.person_id')
        .select('membership.role')
        .where('person.name', '=', name)
        .executeTakeFirst()
    )?.role;
  const idOf = async (name: string) =>
    (await cast.db.selectFrom('person').select('id').where('name', '=', name).executeTakeFirstOrThrow()).id;

  test('rises by an invitation; one to less is not used up and says so', async () => {
    const ida = await owner();
    const odo = await joined(ida, 'reader', 'Odo');
    const cook = await invited(ida, 'cook');
    const accept = async (link: string) =>
      odo.submit(await odo.openLink(link), { form: '/invitations/acceptance', fill: { as: 'signed-in' } });

    expect((await accept(cook)).status).toBe(303);
    expect(await roleOf('Odo')).toBe('cook');
    expect((await new Visitor(app).openLink(cook)).status).toBe(404);

    const helper = await invited(ida, 'helper');
    const kept = await accept(helper);
    expect([kept.status, await roleOf('Odo')]).toEqual([422, 'cook']);
    expect(wordsOf(kept.body)).toContain('You are cook');
    expect((await new Visitor(app).openLink(helper)).status).toBe(200);
  });

  test('is changed by an owner, never so that no owner is left, and by nobody else', async () => {
    const ida = await owner();
    const odo = await joined(ida, 'reader', 'Odo');
    const give = async (by: Visitor, name: string, role: string) =>
      by.post(await by.open('/people'), `/people/${await idOf(name)}/role`, { role });

    expect((await give(odo, 'Odo', 'owner')).status).toBe(403);
    const shown = await ida.submitOn('/people', {
      form: `/people/${await idOf('Odo')}/role`,
      fill: { role: 'cook' },
    });
    expect([shown.status, await roleOf('Odo')]).toEqual([303, 'cook']);
    expect((await give(ida, 'Ida', 'reader')).status).toBe(422);
    expect(await roleOf('Ida')).toBe('owner');
    expect((await give(ida, 'Odo', 'king')).status).toBe(422);
    expect((await ida.post(await ida.open('/people'), '/people/nobody/role', { role: 'cook' })).status).toBe(
      404,
    );
  });
});

describe('the calendar’s secret address', () => {
  const addressIn = (body: string): string | undefined => /\/calendar\/[\w-]{43}\.ics/.exec(body)?.[0];

  test('is shown to owners alone', async () => {
    const ida = await owner();
    await ida.submitOn('/calendar', { form: '/calendar/address' });
    const address = addressIn((await ida.open('/calendar')).body);
    expect(address).toBeDefined();

    for (const role of ['reader', 'helper', 'cook']) {
      const { status, body } = await (await joined(ida, role, `the ${role}`)).open('/calendar');
      expect([role, status, addressIn(body)]).toEqual([role, 200, undefined]);
      expect(wordsOf(body)).toContain('An owner can tell you');
    }
  });

  test('known till then opens nothing once a member is removed or an owner is one no longer', async () => {
    const ida = await owner();
    await ida.submitOn('/calendar', { form: '/calendar/address' });
    await joined(ida, 'owner', 'Odo');
    const odo = await cast.db
      .selectFrom('person')
      .select('id')
      .where('name', '=', 'Odo')
      .executeTakeFirstOrThrow();
    const known: string[] = [];
    const now = async () => addressIn((await ida.open('/calendar')).body) ?? '';

    known.push(await now());
    await ida.submitOn('/people', { form: `/people/${odo.id}/role`, fill: { role: 'cook' } });
    known.push(await now());
    const removed = await ida.submitOn('/people', { form: `/people/${odo.id}/removal` });

    expect(wordsOf((await ida.open(removed.location)).body)).toContain('The calendar has a new address');
    for (const address of known) expect((await new Visitor(app).open(address)).status).toBe(404);
    expect((await new Visitor(app).open(await now())).status).toBe(200);
    expect(new Set([...known, await now()]).size).toBe(3);
  });
});
