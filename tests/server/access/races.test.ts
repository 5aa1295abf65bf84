import type { FastifyInstance } from 'fastify';
import { Secret, TOTP } from 'otpauth';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { offerReset } from '../../../server/access/passphrase-change.ts';
import { failureLimits } from '../../../server/access/sign-in-check.ts';
import { buildApp } from '../../../server/app.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { worked } from '../../builders/outcomes.ts';
import { type Cast, plumJam, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';
import { type Answer, linkShown, Visitor } from '../../builders/visitor.ts';

// Many at once for what there is only once. Every one of them holds the page before the first of them sends it.

const reference = loadReferenceTables();
const passphrase = 'nine jars of plum jam';

let cast: Cast;
let app: FastifyInstance;
let at: number;
let ida: Visitor;
beforeEach(async () => {
  at = Date.UTC(2026, 7, 17, 18);
  cast = await quinceYardHousehold();
  app = await buildApp({ db: cast.db, reference, now: () => at, requestsPerMinute: 100_000 });
  ida = new Visitor(app);
  await ida.submitOn('/people/owner', { form: '/people/owner', fill: { name: 'Ida', passphrase } });
});
afterEach(async () => {
  await app.close();
  await cast.db.destroy();
});

const many = <T>(count: number, one: (nth: number) => Promise<T>): Promise<T[]> =>
  Promise.all(Array.from({ length: count }, (_, nth) => one(nth)));

const signedIn = async (from = '203.0.113.1'): Promise<Visitor> => {
  const visitor = new Visitor(app, {}, '', { 'x-forwarded-for': from });
  await visitor.submitOn('/sign-in', { form: '/sign-in', fill: { name: 'Ida', passphrase } });
  return visitor;
};

/** How many answers there were of each status. */
function counted(answers: readonly Answer[]): Record<number, number> {
  const counts: Record<number, number> = {};
  for (const { status } of answers) counts[status] = (counts[status] ?? 0) + 1;
  return counts;
}

/** What was written of the last jar after it came, in units. */
const unitsWritten = async (): Promise<readonly number[]> =>
  (await cast.db.selectFrom('jar_event').select(['kind', 'units']).where('lot_id', '=', 'last').execute())
    .filter(({ kind }) => kind !== 'put up')
    .map(({ units }) => units);
/** Jars that were taken though none was left, and are asked about. */
const asked = async (): Promise<number> =>
  (await cast.db.selectFrom('jar_conflict').selectAll().execute()).length;

const lastJar = () =>
  shelve(cast.db, {
    id: 'last',
    itemId: plumJam,
    units: 1,
    madeOn: '2026-08-01',
    bestQualityUntil: '2027-08-01',
  });

describe('the last jar', () => {
  test('taken by fifty at once, of three people, is eaten once; each other take is asked about, none is lost', async () => {
    await lastJar();
    const people = [ida, await signedIn(), await signedIn()];
    const pages = await Promise.all(people.map((one) => one.open(`/shelf/${plumJam}`)));

    const answers = await many(50, (nth) => {
      const [who, page] = [people[nth % 3], pages[nth % 3]];
      if (who === undefined || page === undefined) throw new Error('expected three people');
      return who.submit(page, {
        form: `/shelf/${plumJam}/takes`,
        fill: { outcome: 'took-one', key: `the-last-jar-${nth}` },
      });
    });

    expect(counted(answers)).toEqual({ 303: 50 });
    expect(await unitsWritten()).toEqual([-1]);
    expect(await asked()).toBe(49);
  });

  test('taken fifty times by one press is one, and put back fifty times is put back once', async () => {
    await lastJar();
    const page = await ida.open(`/shelf/${plumJam}`);
    await many(50, () =>
      ida.submit(page, {
        form: `/shelf/${plumJam}/takes`,
        fill: { outcome: 'took-one', key: 'one-press-alone' },
      }),
    );
    expect(await unitsWritten()).toEqual([-1]);
    expect(await asked()).toBe(0);

    const shelf = await ida.open(`/shelf/${plumJam}`);
    await many(50, (nth) =>
      ida.submit(shelf, { form: '/shelf/reversals', fill: { key: `put-back-${nth}` } }),
    );
    expect(await unitsWritten()).toEqual([-1, 1]);
  });
});

describe('a secret that works once', () => {
  test('an invitation opened by twenty makes one member', async () => {
    const link = linkShown(
      await ida.submitOn('/people', { form: '/people/invitations', fill: { role: 'cook' } }),
    );
    const guests = await many(20, async () => {
      const visitor = new Visitor(app);
      return { visitor, page: await visitor.openLink(link) };
    });

    const answers = await many(20, (nth) => {
      const guest = guests[nth];
      if (guest === undefined) throw new Error('expected twenty');
      return guest.visitor.submit(guest.page, {
        form: '/invitations/acceptance',
        fill: { name: `Guest ${nth}`, passphrase },
      });
    });

    expect(answers.filter(({ status }) => status === 303)).toHaveLength(1);
    expect(await cast.db.selectFrom('membership').selectAll().execute()).toHaveLength(2);
    expect(await cast.db.selectFrom('person').selectAll().execute()).toHaveLength(2);
  });

  test('a link to a new passphrase used by ten sets one', async () => {
    const { token } = worked(await offerReset(cast.db, { name: 'Ida', withoutFactor: false }, at));
    const finders = await many(10, async () => {
      const visitor = new Visitor(app);
      return { visitor, page: await visitor.openLink(`http://localhost/passphrase#${token}`) };
    });

    const answers = await many(10, (nth) => {
      const finder = finders[nth];
      if (finder === undefined) throw new Error('expected ten');
      return finder.visitor.submit(finder.page, {
        form: '/passphrase/renewal',
        fill: { passphrase: `brass kettle number ${nth}` },
      });
    });

    const won = answers.findIndex(({ status }) => status === 303);
    expect(answers.filter(({ status }) => status === 303)).toHaveLength(1);
    for (const nth of [won, (won + 1) % 10]) {
      const { status } = await new Visitor(app).submitOn('/sign-in', {
        form: '/sign-in',
        fill: { name: 'Ida', passphrase: `brass kettle number ${nth}` },
      });
      expect(status).toBe(nth === won ? 303 : 422);
    }
  });

  test.each([
    ['a code', 5],
    ['a recovery code', 4],
  ])('%s of the second factor given by several opens one sign-in', async (what, several) => {
    const own = (form: string, fill: Record<string, string>) =>
      ida.submitOn('/people/self', { form: `/people/self/${form}`, fill });
    await own('second-factor', { present: passphrase });
    const seed = /<code>([A-Z2-7]{32})<\/code>/.exec((await ida.open('/people/self')).body)?.[1] ?? '';
    const totp = new TOTP({ secret: Secret.fromBase32(seed) });
    const confirmed = await own('second-factor/code', { code: totp.generate({ timestamp: at }) });
    const recovery = /<code>([a-z2-7-]{32})<\/code>/.exec(confirmed.body)?.[1] ?? '';
    at += 30_000;
    const code = what === 'a code' ? totp.generate({ timestamp: at }) : recovery;
    const halfWay: Visitor[] = [];
    for (let nth = 0; nth < several; nth += 1) halfWay.push(await signedIn());
    const pages = await Promise.all(halfWay.map((one) => one.open('/sign-in/code')));

    const answers = await many(several, (nth) => {
      const [who, page] = [halfWay[nth], pages[nth]];
      if (who === undefined || page === undefined) throw new Error('expected so many');
      return who.submit(page, { form: '/sign-in/code', fill: { code } });
    });

    expect(counted(answers)).toEqual({ 303: 1, 422: several - 1 });
  });
});

test(`a name guessed at sixty times at once is looked at ${failureLimits.account} times`, async () => {
  const guessers = await many(60, async (nth) => {
    const visitor = new Visitor(app, {}, '', { 'x-forwarded-for': `203.0.113.${nth + 1}` });
    return { visitor, page: await visitor.open('/sign-in') };
  });

  const answers = await many(60, (nth) => {
    const guesser = guessers[nth];
    if (guesser === undefined) throw new Error('expected sixty');
    return guesser.visitor.submit(guesser.page, {
      form: '/sign-in',
      fill: { name: 'Ida', passphrase: `not the present one ${nth}` },
    });
  });

  const { 422: looked = 0, 429: told = 0, 503: late = 0, ...other } = counted(answers);
  expect(other).toEqual({});
  expect(looked).toBe(failureLimits.account);
  expect(told + late).toBe(60 - failureLimits.account);
});
