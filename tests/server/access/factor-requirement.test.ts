import { Secret, TOTP } from 'otpauth';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type FactorRule, factorWithinMs } from '../../../server/access/factor-requirement.ts';
import {
  beginSecondFactor,
  confirmSecondFactor,
  endSecondFactor,
} from '../../../server/access/second-factor.ts';
import { passingSeedKeys } from '../../../server/access/seed-keys.ts';
import { beginSignIn } from '../../../server/access/sign-ins.ts';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { readSettings } from '../../../server/settings.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { htmlProblems } from '../../builders/html-problems.ts';
import { worked } from '../../builders/outcomes.ts';
import { medlarLane, noon } from '../../builders/two-households.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// OWASP ASVS 5.0.0, V6.3.3: a second factor must be used. A household's owners may ask it of every member; where others reach
// the program the operator's usual rule asks it of everybody within two weeks.

const seedKeys = passingSeedKeys();
let db: Database;
let app: Awaited<ReturnType<typeof buildApp>>;
let at: number;
let tokens: Record<'Ida' | 'Odo', string>;
beforeEach(async () => {
  at = noon;
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  tokens = {
    Ida: await member(db, medlarLane, { id: 'Ida', role: 'owner' }, at),
    Odo: await member(db, medlarLane, { id: 'Odo', role: 'helper' }, at),
  };
  app = await built('by-household');
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

const built = (factorRule: FactorRule) =>
  buildApp({ db, reference: loadReferenceTables(), now: () => at, seedKeys, factorRule });
const by = (name: 'Ida' | 'Odo') => new Visitor(app, { 'sign-in': tokens[name] });
async function giveFactor(id: string): Promise<void> {
  const begun = await beginSecondFactor({ db, seedKeys }, { id, name: id }, at);
  const code = new TOTP({ secret: Secret.fromBase32(begun?.seed ?? '') }).generate({ timestamp: at });
  expect(await confirmSecondFactor({ db, seedKeys }, id, code, { now: at, steps: 0 })).not.toBeNull();
}
const say = async (present = memberPassphrase) =>
  by('Ida').submitOn('/people', { form: '/people/second-factor', fill: { present } });
const setUp = '/people/self?said=needed#factor';

describe('an owner who asks a second factor of every member', () => {
  test('has one first, so that nobody locks everybody out, and says it with the passphrase', async () => {
    const refused = await say();
    expect(refused.status).toBe(422);
    expect(wordsOf(refused.body)).toContain('Set up your own second factor first, under How you sign in');
    expect((await by('Odo').open('/shelf')).status).toBe(200);
    await giveFactor('Ida');

    expect((await say('not the present one')).status).toBe(422);
    expect((await say()).status).toBe(303);

    const page = await by('Ida').open('/people');
    expect(wordsOf(page.body)).toContain('A second factor is asked of every member, as Ida said on');
    expect(await htmlProblems(page.body)).toEqual([]);
    const events = await db.selectFrom('security_event').select(['kind', 'person_id']).execute();
    expect(events).toContainEqual({ kind: 'factor-required', person_id: 'Ida' });
  });

  test('leads a member without one to it before anything else, at the next page; afterwards all opens', async () => {
    await giveFactor('Ida');
    await say();
    const odo = by('Odo');

    for (const url of ['/', '/shelf', '/people', '/households', '/files/shelf.csv', '/shelf/waiting'])
      expect(await odo.open(url), url).toMatchObject({ status: 303, location: setUp });
    const own = await odo.open('/people/self?said=needed');
    expect(wordsOf(own.body)).toContain('A second factor is asked for here.');
    expect((await odo.post(own, '/shelf/medlar-jam/takes', { units: '1' })).location).toBe(setUp);
    expect(await db.selectFrom('jar_event').selectAll().where('kind', '=', 'taken').execute()).toEqual([]);

    await giveFactor('Odo');
    expect((await odo.open('/shelf')).status).toBe(200);
    expect((await by('Ida').open('/shelf')).status).toBe(200);
  });

  test('keeps calendar programs and the way out as they are, and may leave it to each again', async () => {
    await by('Ida').submitOn('/calendar', { form: '/calendar/address' });
    const { token } = await db.selectFrom('calendar_feed').select('token').executeTakeFirstOrThrow();
    await giveFactor('Ida');
    await say();
    const odo = by('Odo');

    expect((await new Visitor(app).open(`/calendar/${token}.ics`)).status).toBe(200);
    expect((await odo.submitOn('/people/self', { form: '/sign-out' })).location).toBe('/sign-in');
    await say();
    tokens.Odo = await signInAnew();
    expect((await by('Odo').open('/shelf')).status).toBe(200);
    const kinds = await db.selectFrom('security_event').select('kind').execute();
    expect(kinds.map(({ kind }) => kind)).toContain('factor-not-required');
  });

  test('who gives the own one up is led to another one like everybody', async () => {
    await giveFactor('Ida');
    await say();
    await endSecondFactor(db, 'Ida');

    expect((await by('Ida').open('/people')).location).toBe(setUp);
    await giveFactor('Ida');
    expect((await by('Ida').open('/people')).status).toBe(200);
  });

  test('is no cook and no helper', async () => {
    const page = await by('Odo').open('/people');

    expect(page.body).not.toContain('/people/second-factor');
    expect((await by('Odo').post(page, '/people/second-factor', { wanted: 'no' })).status).toBe(403);
  });
});

const signInAnew = async (): Promise<string> => {
  return beginSignIn(db, 'Odo', at);
};

describe('the operator’s rule', () => {
  test('for everybody asks it at once; the usual one beyond this machine within two weeks of the first page', async () => {
    await app.close();
    app = await built('two-weeks');

    expect(wordsOf((await by('Odo').open('/shelf')).body)).toContain(
      'A second factor is asked of everybody here from',
    );
    at += factorWithinMs - 60_000;
    tokens.Odo = await signInAnew();
    expect((await by('Odo').open('/shelf')).status).toBe(200);
    at += 60_000;
    expect((await by('Odo').open('/shelf')).location).toBe(setUp);

    await app.close();
    app = await built('everyone');
    at = noon;
    expect((await by('Ida').open('/shelf')).location).toBe(setUp);
  });

  test('is said by the environment, and nothing else is taken for it', () => {
    const from = (given: Record<string, string>) => worked(readSettings(given, '/srv')).secondFactor;

    expect(from({})).toBeNull();
    expect(from({ SHELFWARD_SECOND_FACTOR: 'everyone' })).toBe('everyone');
    expect(from({ SHELFWARD_SECOND_FACTOR: 'by-household' })).toBe('by-household');
    expect(readSettings({ SHELFWARD_SECOND_FACTOR: 'never' }, '/srv').ok).toBe(false);
  });
});
