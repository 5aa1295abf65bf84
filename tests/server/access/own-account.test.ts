import { InsertQueryNode } from 'kysely';
import { Secret, TOTP } from 'otpauth';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { failureLimits } from '../../../server/access/sign-in-check.ts';
import { signInLimits } from '../../../server/access/sign-ins.ts';
import { buildApp } from '../../../server/app.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { htmlProblems } from '../../builders/html-problems.ts';
import { type Cast, quinceYardHousehold } from '../../builders/quince-yard.ts';
import { type Answer, linkShown, Visitor, wordsOf } from '../../builders/visitor.ts';

const reference = loadReferenceTables();
const passphrase = 'nine jars of plum jam';
const firefox = 'Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0';

let cast: Cast;
let app: Awaited<ReturnType<typeof buildApp>>;
let at: number;
beforeEach(async () => {
  at = Date.UTC(2026, 7, 17, 18);
  cast = await quinceYardHousehold();
  app = await buildApp({ db: cast.db, reference, now: () => at });
});
afterEach(async () => {
  await app.close();
  await cast.db.destroy();
});

const owner = async (): Promise<Visitor> => {
  const visitor = new Visitor(app);
  await visitor.submitOn('/people/owner', { form: '/people/owner', fill: { name: 'Ida', passphrase } });
  return visitor;
};
const signIn = (visitor: Visitor, fill: { name: string; passphrase: string }) =>
  visitor.submitOn('/sign-in', { form: '/sign-in', fill });
const own = (visitor: Visitor, what: string, fill: Record<string, string>) =>
  visitor.submitOn('/people/self', { form: `/people/self/${what}`, fill });
const kindsKept = async (): Promise<readonly string[]> =>
  (
    await cast.db
      .selectFrom('security_event')
      .select('kind')
      .where((row) => row.or([row('person_id', 'is not', null), row('household_id', 'is not', null)]))
      .orderBy('seq')
      .execute()
  ).map(({ kind }) => kind);

describe('a new passphrase', () => {
  const closing = (name: string, chosen: string) =>
    new Visitor(app).submitOn('/people/owner', {
      form: '/people/owner',
      fill: { name, passphrase: chosen },
    });

  test.each([
    ['1qaz2wsx3edc', 'ten thousand most used'],
    ['Password1234', 'ten thousand most used'],
    ['plumplumplumplum', 'repeats the same few characters'],
    ['P@ssw0rd1234', 'ten thousand most used'],
    ['p@$$w0rd12345!', 'little of this one is left'],
    ['Sh31fward P@ntry', 'without your name, the household’s'],
    ['abcdefghijklmno', 'runs along the alphabet'],
    ['poiuytrewqasdfg', 'runs along the alphabet'],
    ['Quince Yard 26', 'without your name, the household’s'],
    ['marguerite 1987', 'without your name, the household’s'],
    ['shelfward pantry', 'without your name, the household’s'],
  ])('like “%s” is refused: %s', async (chosen, because) => {
    const answer = await closing('Marguerite', chosen);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(because);
    expect(await cast.db.selectFrom('person').selectAll().execute()).toEqual([]);
  });

  test('of a few words is taken as it was typed, up to 200 characters, spaces at its ends included', async () => {
    const chosen = `  ${'brass kettle, wet boots; '.repeat(7)}ü  `;
    expect((await closing('Odo', 'x1y2'.repeat(51))).status).toBe(422);
    expect((await closing('Marguerite', chosen)).status).toBe(303);

    const cut = await signIn(new Visitor(app), { name: 'Marguerite', passphrase: chosen.trim() });
    const whole = await signIn(new Visitor(app), { name: 'Marguerite', passphrase: chosen });

    expect([cut.status, whole.status]).toEqual([422, 303]);
  });
});

describe('the own sign-ins', () => {
  test('are listed with their device and last use, and each can be ended, with the passphrase', async () => {
    const ida = await owner();
    at += 60_000;
    const phone = new Visitor(app, {}, firefox);
    await signIn(phone, { name: 'Ida', passphrase });
    const page = await ida.open('/people/self');
    expect(wordsOf(page.body)).toContain('Firefox on Android');
    const ofPhone = await cast.db
      .selectFrom('sign_in')
      .select('token_hash')
      .where('device', '=', 'Firefox on Android')
      .executeTakeFirstOrThrow();

    const wrong = await own(ida, 'sign-ins', { present: 'not the present one', ended: ofPhone.token_hash });
    expect(wrong.status).toBe(422);
    expect((await phone.open('/shelf')).status).toBe(200);
    const right = await own(ida, 'sign-ins', { present: passphrase, ended: ofPhone.token_hash });

    expect(right.status).toBe(303);
    expect((await phone.open('/shelf')).location).toBe('/sign-in');
    expect((await ida.open('/shelf')).status).toBe(200);
  });

  test('of somebody else are left alone', async () => {
    const ida = await owner();
    await cast.db
      .insertInto('person')
      .values({ id: 'odo', name: 'Odo', name_key: 'odo', passphrase_hash: '', created_at: 0 })
      .execute();
    await cast.db
      .insertInto('sign_in')
      .values({ token_hash: 'of-odo', person_id: 'odo', began_at: at, seen_at: at })
      .execute();

    await own(ida, 'sign-ins', { present: passphrase, ended: 'of-odo' });

    const left = await cast.db
      .selectFrom('sign_in')
      .select('token_hash')
      .where('person_id', '=', 'odo')
      .execute();
    expect(left).toHaveLength(1);
  });

  test(`beyond ${signInLimits.perPerson} end with the one that was used least`, async () => {
    const first = await owner();
    for (let more = 0; more < signInLimits.perPerson; more += 1) {
      at += 60_000;
      await signIn(new Visitor(app), { name: 'Ida', passphrase });
    }

    expect((await first.open('/shelf')).location).toBe('/sign-in');
    expect(await cast.db.selectFrom('sign_in').selectAll().execute()).toHaveLength(signInLimits.perPerson);
  });
});

describe('a second factor', () => {
  /** What an authenticator shows; the seed as the page prints it. */
  const shownBy = (page: Answer) => {
    const seed = /<code>([A-Z2-7]{32})<\/code>/.exec(page.body)?.[1] ?? '';
    const totp = new TOTP({ secret: Secret.fromBase32(seed) });
    return (later = 0) => totp.generate({ timestamp: at + later });
  };
  const withFactor = async () => {
    const ida = await owner();
    await own(ida, 'second-factor', { present: passphrase });
    const code = shownBy(await ida.open('/people/self'));
    const confirmed = await own(ida, 'second-factor/code', { code: code() });
    const recovery = [...confirmed.body.matchAll(/<code>([a-z2-7-]{32})<\/code>/g)].map(
      ([, one]) => one ?? '',
    );
    return { ida, code, recovery };
  };
  const halfWay = async () => {
    const visitor = new Visitor(app);
    const first = await signIn(visitor, { name: 'Ida', passphrase });
    expect(first.location).toBe('/sign-in/code');
    return visitor;
  };
  const give = (visitor: Visitor, code: string) =>
    visitor.submitOn('/sign-in/code', { form: '/sign-in/code', fill: { code } });

  test('counts only once it was confirmed, and is asked for from then on; the passphrase alone shows nothing', async () => {
    const ida = await owner();
    await own(ida, 'second-factor', { present: passphrase });
    expect((await signIn(new Visitor(app), { name: 'Ida', passphrase })).location).toBe('/');
    const code = shownBy(await ida.open('/people/self'));
    expect((await own(ida, 'second-factor/code', { code: '000000' })).status).toBe(422);
    expect((await own(ida, 'second-factor/code', { code: code() })).status).toBe(200);

    const phone = await halfWay();
    expect((await phone.open('/shelf')).location).toBe('/sign-in');
    at += 30_000;
    expect((await give(phone, code())).location).toBe('/');
    expect((await phone.open('/shelf')).status).toBe(200);
  });

  // RFC 6238, section 5.2: a code is accepted once; one step of delay at most, and only where the operator lets it.
  test('takes each code once, and none that is older than its thirty seconds', async () => {
    const { code } = await withFactor();
    at += 30_000;
    const used = code();
    expect((await give(await halfWay(), used)).status).toBe(303);
    expect((await give(await halfWay(), used)).status).toBe(422);
    at += 60_000;
    expect((await give(await halfWay(), code(-60_000))).status).toBe(422);
    expect((await give(await halfWay(), code(-30_000))).status).toBe(422);
    app.codeSteps = 1;
    expect((await give(await halfWay(), code(-30_000))).status).toBe(303);
  });

  test('is replaced by a recovery code, once each; they are kept as hashes', async () => {
    const { recovery } = await withFactor();
    const [first = ''] = recovery;
    expect(recovery).toHaveLength(10);
    const kept = JSON.stringify(await cast.db.selectFrom('recovery_code').selectAll().execute());
    expect(kept).not.toContain(first.replaceAll('-', ''));

    expect((await give(await halfWay(), first.toUpperCase())).status).toBe(303);
    expect((await give(await halfWay(), first)).status).toBe(422);
    expect(await kindsKept()).toContain('signed-in-with-recovery-code');
  });

  test('cannot be guessed: after too many wrong codes the name has to wait', async () => {
    const { code } = await withFactor();
    at += 30_000;
    const guesser = await halfWay();
    for (let guess = 0; guess < failureLimits.account; guess += 1)
      expect((await give(guesser, `00000${guess}`)).status).toBe(422);

    expect((await give(guesser, code())).status).toBe(429);
  });

  test('has ten minutes after the passphrase', async () => {
    const { code } = await withFactor();
    const slow = await halfWay();
    const page = await slow.open('/sign-in/code');
    at += 10 * 60_000 + 1;

    const late = await slow.submit(page, { form: '/sign-in/code', fill: { code: code() } });

    expect(late.location).toBe('/sign-in');
    expect((await slow.open('/shelf')).location).toBe('/sign-in');
  });

  // OWASP ASVS 5.0.0, V6.4.4: whoever has the passphrase and an open page alone takes nothing away.
  test('is given up only with the passphrase and the factor itself', async () => {
    const { ida, recovery } = await withFactor();
    const [code = ''] = recovery;
    const end = (present: string, by: string) => own(ida, 'second-factor/removal', { present, code: by });
    expect((await end('not the present one', code)).status).toBe(422);
    expect((await end(passphrase, '')).status).toBe(422);
    expect((await end(passphrase, '000000')).status).toBe(422);
    await halfWay();

    expect((await end(passphrase, code)).status).toBe(303);

    expect((await signIn(new Visitor(app), { name: 'Ida', passphrase })).location).toBe('/');
  });
});

describe('recovery codes', () => {
  test('are made anew with passphrase and factor; the last ones open nothing any more', async () => {
    const ida = await owner();
    await own(ida, 'second-factor', { present: passphrase });
    const seed = /<code>([A-Z2-7]{32})<\/code>/.exec((await ida.open('/people/self')).body)?.[1] ?? '';
    const totp = new TOTP({ secret: Secret.fromBase32(seed) });
    const codesOf = ({ body }: Answer) =>
      [...body.matchAll(/<code>([a-z2-7-]{32})<\/code>/g)].map(([, one = '']) => one);
    const first = codesOf(await own(ida, 'second-factor/code', { code: totp.generate({ timestamp: at }) }));
    at += 30_000;
    const code = totp.generate({ timestamp: at });
    const anew = (present: string, by: string) =>
      own(ida, 'second-factor/recovery-codes', { present, code: by });
    expect((await anew(passphrase, '000000')).status).toBe(422);

    const second = codesOf(await anew(passphrase, code));

    expect(second).toHaveLength(10);
    expect(second.filter((one) => first.includes(one))).toEqual([]);
    expect((await anew(passphrase, first[0] ?? '')).status).toBe(422);
    expect(codesOf(await anew(passphrase, second[0] ?? ''))).toHaveLength(10);
  });
});

describe('what happened to accounts', () => {
  test('is shown to the owner, without anything that was typed', async () => {
    const ida = await owner();
    await signIn(new Visitor(app), { name: 'Ida', passphrase: 'a guess of somebody' });
    await signIn(new Visitor(app), { name: 'nobody here', passphrase: 'a guess of somebody' });
    await signIn(new Visitor(app, {}, firefox), { name: 'Ida', passphrase });
    await own(ida, 'passphrase', { present: 'not the present one', passphrase: 'quite another one' });
    await ida.submitOn('/people', { form: '/people/invitations', fill: { role: 'reader' } });

    const page = wordsOf((await ida.open('/people/events')).body);

    expect(await kindsKept()).toEqual([
      'household-closed',
      'sign-in-failed',
      'signed-in',
      'passphrase-not-changed',
      'invited',
    ]);
    expect(page).toContain('a sign-in failed: not the passphrase');
    expect(page).toContain('Firefox on Android, 127.0.0.1');
    const kept = JSON.stringify(await cast.db.selectFrom('security_event').selectAll().execute());
    expect(kept).not.toMatch(/a guess|nobody here|present one/);
  });

  test('tells of refusals too: a role that may not, a form without its token; a flood counts once a minute', async () => {
    const ida = await owner();
    const invited = await ida.submitOn('/people', { form: '/people/invitations', fill: { role: 'reader' } });
    const odo = new Visitor(app);
    await odo.submit(await odo.openLink(linkShown(invited)), {
      form: '/invitations/acceptance',
      fill: { name: 'Odo', name_key: 'odo', passphrase: 'wet boots by the door' },
    });
    const kitchen = await odo.open('/kitchen');
    for (let time = 0; time < 3; time += 1) await odo.post(kitchen, '/kitchen/time');
    await odo.post({ status: 200, body: '', location: '' }, '/glut');

    expect(await kindsKept()).toEqual([
      'household-closed',
      'invited',
      'joined',
      'not-allowed',
      'form-refused',
    ]);
    expect((await odo.open('/people/events')).status).toBe(403);
  });

  test('tells of requests that no page of the program sends: one far too large', async () => {
    const ida = await owner();

    const answer = await ida.post(await ida.open('/'), '/people/self', { present: 'a'.repeat(3_000_000) });

    expect(answer.status).toBe(413);
    expect(await kindsKept()).toEqual(['household-closed', 'not-understood']);
  });

  test('is kept for 90 days', async () => {
    const ida = await owner();
    at += 90 * 24 * 60 * 60_000 + 1;
    await signIn(ida, { name: 'Ida', passphrase });

    expect(await kindsKept()).toEqual(['signed-in']);
  });

  test('never gets in the way of an answer: a file that cannot be written still signs nobody out', async () => {
    // Whoever runs it, the owner of the tables or not: nothing is written down of what happened.
    const db = cast.db.withPlugin({
      transformQuery: ({ node }) => {
        if (InsertQueryNode.is(node) && node.into?.table.identifier.name === 'security_event')
          throw new Error('the file cannot be written');
        return node;
      },
      transformResult: async ({ result }) => result,
    });
    await app.close();
    app = await buildApp({ db, reference, now: () => at });
    const ida = await owner();

    expect((await ida.submitOn('/people', { form: '/people/invitations' })).status).toBe(200);
    expect(await kindsKept()).toEqual([]);
  });
});

test('the pages of accounts follow the HTML standard, with what can be wrong in them too', async () => {
  const ida = await owner();
  const wrong = await own(ida, 'sign-ins', { present: 'not the present one', ended: 'nothing' });
  await own(ida, 'second-factor', { present: passphrase });
  const toConfirm = await ida.open('/people/self');
  const notConfirmed = await own(ida, 'second-factor/code', { code: '000000' });
  const seed = /<code>([A-Z2-7]{32})<\/code>/.exec(toConfirm.body)?.[1] ?? '';
  const code = new TOTP({ secret: Secret.fromBase32(seed) }).generate({ timestamp: at });
  const codes = await own(ida, 'second-factor/code', { code });
  const phone = new Visitor(app);
  await signIn(phone, { name: 'Ida', passphrase });
  const asksCode = await phone.submitOn('/sign-in/code', { form: '/sign-in/code', fill: { code: '1' } });
  const events = await ida.open('/people/events');

  for (const { body } of [wrong, toConfirm, notConfirmed, codes, asksCode, events])
    expect(await htmlProblems(body)).toEqual([]);
});

describe('the passphrase asked for again', () => {
  // OWASP ASVS 5.0.0, V7.2.4: a new token, and the one before opens nothing, upon re-authentication too.
  test('gives the sign-in a new token; the one before opens nothing', async () => {
    const ida = await owner();
    const tokens = async () =>
      (await cast.db.selectFrom('sign_in').select('token_hash').execute()).map(
        ({ token_hash }) => token_hash,
      );
    const [before] = await tokens();

    expect((await own(ida, 'second-factor', { present: 'not the present one' })).status).toBe(422);
    expect(await tokens()).toEqual([before]);
    expect((await own(ida, 'second-factor', { present: passphrase })).status).toBe(303);

    const after = await tokens();
    expect(after).toHaveLength(1);
    expect(after).not.toEqual([before]);
    expect((await ida.open('/shelf')).status).toBe(200);
  });

  test('does not bring back the sign-in it is asked to end', async () => {
    const ida = await owner();
    const here = /name="ended" value="([^"]+)"/.exec((await ida.open('/people/self')).body)?.[1] ?? '';

    expect((await own(ida, 'sign-ins', { present: passphrase, ended: here })).location).toBe('/sign-in');
    expect((await ida.open('/shelf')).location).toBe('/sign-in');
  });
});

describe('a second factor that was begun', () => {
  const begun = async () => {
    const ida = await owner();
    await own(ida, 'second-factor', { present: passphrase });
    const seed = /<code>([A-Z2-7]{32})<\/code>/.exec((await ida.open('/people/self')).body)?.[1] ?? '';
    return {
      ida,
      codeAt: (when: number) => new TOTP({ secret: Secret.fromBase32(seed) }).generate({ timestamp: when }),
    };
  };

  test('shows its seed for ten minutes and no longer, nor can it be confirmed then', async () => {
    const { ida, codeAt } = await begun();
    const page = await ida.open('/people/self');
    at += 10 * 60_000 + 1;

    expect((await ida.open('/people/self')).body).not.toMatch(/<code>[A-Z2-7]{32}<\/code>/);
    const late = await ida.submit(page, {
      form: '/people/self/second-factor/code',
      fill: { code: codeAt(at) },
    });
    expect(late.status).toBe(422);
    expect(wordsOf(late.body)).not.toContain('Recovery codes');
  });

  // OWASP ASVS 5.0.0, V6.5.5: a code by time lasts 30 seconds at most.
  test('takes the code of these thirty seconds alone, unless the operator lets a step before and after count', async () => {
    const { ida, codeAt } = await begun();
    at = Math.ceil(at / 30_000) * 30_000;
    const confirm = (code: string) => own(ida, 'second-factor/code', { code });

    expect((await confirm(codeAt(at - 1))).status).toBe(422);
    expect((await confirm(codeAt(at + 30_000))).status).toBe(422);
    expect((await confirm(codeAt(at))).status).toBe(200);
  });
});
