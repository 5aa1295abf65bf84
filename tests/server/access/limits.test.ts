import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { hashInTurn, hashingLimits } from '../../../server/access/hashing.ts';
import { shownAddress } from '../../../server/access/network.ts';
import { failureLimits } from '../../../server/access/sign-in-check.ts';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { medlarLane, noon } from '../../builders/two-households.ts';
import { formOf, Visitor, wordsOf } from '../../builders/visitor.ts';

// How often anybody may try, and how much may be asked for at once, wherever it comes from.

const reference = loadReferenceTables();
const publicAddress = 'https://pantry.example';

let db: Database;
let app: FastifyInstance;
let idasToken: string;
beforeEach(async () => {
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  idasToken = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, noon);
  app = await buildApp({ db, reference, now: () => noon, publicAddress });
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

const through = (from: string) => ({
  host: 'pantry.example',
  'x-forwarded-proto': 'https',
  'x-forwarded-for': from,
});

/** Guesses as a program does: one page for the token, then the form again and again. */
async function guesser() {
  const page = await app.inject({ url: '/sign-in', headers: through('203.0.113.1') });
  const form = page.cookies.find(({ name }) => name === '__Host-form')?.value ?? '';
  const { values } = formOf(page.body, '/sign-in');
  return (from: string, name: string, passphrase = 'wet gloves and a kettle') =>
    app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: { ...through(from), 'content-type': 'application/x-www-form-urlencoded' },
      cookies: { '__Host-form': form },
      payload: new URLSearchParams({ ...values, name, passphrase }).toString(),
    });
}

describe('an address', () => {
  test('that is none is neither kept nor shown', async () => {
    const guess = await guesser();
    await guess('x'.repeat(3000), 'Ida');

    const [event] = await db.selectFrom('security_event').select('address').execute();
    expect(event?.address).toBe('unknown');
    expect(shownAddress('2001:DB8::0001')).toBe('2001:db8::1');
  });
});

describe('guessing', () => {
  test('from many addresses of one IPv6 network is guessing from one', async () => {
    const guess = await guesser();
    const statuses: number[] = [];
    for (let at = 0; at <= failureLimits.address; at += 1)
      statuses.push((await guess(`2001:db8:5:5::${(at + 1).toString(16)}`, `nobody ${at}`)).statusCode);

    expect(statuses.slice(0, -1)).toEqual(new Array(failureLimits.address).fill(422));
    expect(statuses.at(-1)).toBe(429);
    expect((await guess('2001:db8:5:6::1', 'Ida')).statusCode).toBe(422);
  });

  test('at a name from elsewhere bars nobody signed in from the own page', async () => {
    const guess = await guesser();
    for (let at = 0; at <= failureLimits.account; at += 1) await guess(`203.0.113.${at + 1}`, 'Ida');
    expect((await guess('198.51.100.1', 'Ida', memberPassphrase)).statusCode).toBe(429);

    const ida = new Visitor(app, { '__Host-sign-in': idasToken }, '', through('198.51.100.1'));
    const changed = await ida.submitOn('/people/self', {
      form: '/people/self/passphrase',
      fill: { present: memberPassphrase, passphrase: 'quite another one' },
    });

    expect([changed.status, changed.location]).toEqual([303, '/sign-in']);
  });

  test('with a sign-in that was left open waits too, and only that sign-in', async () => {
    const left = new Visitor(app, { '__Host-sign-in': idasToken }, '', through('198.51.100.1'));
    const change = (visitor: Visitor, present: string) =>
      visitor.submitOn('/people/self', {
        form: '/people/self/passphrase',
        fill: { present, passphrase: 'quite another one' },
      });
    for (let at = 0; at < failureLimits.present; at += 1)
      expect((await change(left, `guess number ${at}`)).status).toBe(422);
    expect((await change(left, memberPassphrase)).status).toBe(429);

    const here = new Visitor(app, {}, '', through('198.51.100.2'));
    await here.submitOn('/sign-in', {
      form: '/sign-in',
      fill: { name: 'Ida', passphrase: memberPassphrase },
    });
    expect((await change(here, memberPassphrase)).status).toBe(303);
  });

  test('dated ahead by a clock that was wrong bars nobody afterwards', async () => {
    await db
      .insertInto('sign_in_failure')
      .values(
        Array.from({ length: failureLimits.account }, () => ({
          subject: 'account ida',
          failed_at: noon + 700 * 86_400_000,
        })),
      )
      .execute();
    const guess = await guesser();

    expect((await guess('203.0.113.9', 'Ida', memberPassphrase)).statusCode).toBe(303);
    expect(await db.selectFrom('sign_in_failure').selectAll().execute()).toEqual([]);
  });

  test('by many at once waits in a short queue; the rest is told to come back and counts as no guess', async () => {
    const guess = await guesser();
    const many = hashingLimits.atOnce + hashingLimits.waiting + 30;

    const answers = await Promise.all(
      Array.from({ length: many }, (_, at) => guess(`203.0.113.${at + 1}`, `nobody ${at}`)),
    );

    const count = (status: number) => answers.filter(({ statusCode }) => statusCode === status).length;
    expect(count(422) + count(503)).toBe(many);
    expect(count(422)).toBeGreaterThanOrEqual(hashingLimits.waiting);
    expect(count(503)).toBeGreaterThan(0);
    const told = answers.find(({ statusCode }) => statusCode === 503);
    expect(told?.headers['retry-after']).toBe('5');
    expect(wordsOf(told?.body ?? '')).toContain('Wait a few seconds');
    const { n } = await db
      .selectFrom('sign_in_failure')
      .select((row) => row.fn.countAll<number>().as('n'))
      .executeTakeFirstOrThrow();
    expect(n).toBe(2 * count(422));
  });

  // Two hundred at once used to have everybody else wait behind two hundred refusals, each a page of its own.
  test('beyond that queue is refused in a few words before anything of it is read, form and file alike', async () => {
    const passphrases = Array.from({ length: hashingLimits.atOnce + hashingLimits.waiting }, () =>
      hashInTurn('wet gloves and a kettle', { memoryCost: 19_456, timeCost: 2, parallelism: 1 }),
    );

    const told = await app.inject({
      method: 'POST',
      url: '/sign-in',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: 'no=form',
    });
    await Promise.all(passphrases);

    expect(told.statusCode).toBe(503);
    expect(told.headers['retry-after']).toBe('5');
    expect(told.headers['content-type']).toContain('text/plain');
    expect(told.body).toContain('Wait a few seconds');
  });
});

describe('requests', () => {
  test('to addresses no route has are counted like others, before the file is read', async () => {
    const strict = await buildApp({ db, reference, now: () => noon, requestsPerMinute: 3 });
    const statuses: number[] = [];
    for (let at = 0; at < 5; at += 1) statuses.push((await strict.inject(`/nothing-${at}`)).statusCode);
    statuses.push((await strict.inject('/sign-in')).statusCode);
    await strict.close();

    expect(statuses).toEqual([404, 404, 404, 429, 429, 429]);
  });

  test('whose body does not come end', async () => {
    const impatient = await buildApp({ db, reference, now: () => noon, requestTimeoutMs: 200 });
    await impatient.listen({ host: '127.0.0.1', port: 0 });
    const { port } = impatient.server.address() as AddressInfo;

    const answer = await new Promise<string>((resolve, reject) => {
      let text = '';
      const socket = connect(port, '127.0.0.1', () =>
        socket.write('POST /sign-in HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\na'),
      );
      socket.on('data', (chunk) => {
        text += chunk.toString();
      });
      socket.on('close', () => resolve(text));
      socket.on('error', reject);
    });
    await impatient.close();

    expect(answer).toContain('408');
  });
});
