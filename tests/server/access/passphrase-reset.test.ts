import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Secret, TOTP } from 'otpauth';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import {
  beginSecondFactor,
  confirmSecondFactor,
  hasSecondFactor,
} from '../../../server/access/second-factor.ts';
import { failureLimits } from '../../../server/access/sign-in-check.ts';
import { buildApp } from '../../../server/app.ts';
import { run } from '../../../server/commands/passphrase-reset.ts';
import { openDatabase } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { medlarLane } from '../../builders/two-households.ts';
import { Visitor } from '../../builders/visitor.ts';

let folder: string;
let file: string;
let printed: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pantry-'));
  file = join(folder, 'medlar-lane.sqlite');
  printed = [];
  vi.spyOn(console, 'log').mockImplementation((line: string) => void printed.push(line));
  vi.spyOn(console, 'error').mockImplementation((line: string) => void printed.push(line));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true, force: true });
});

const fresh = 'wet boots by the back door';

/** Medlar Lane with Ida, its only owner, signed in; pages of the file, the clock an hour and a bit ahead when asked. */
async function lonelyOwner() {
  const db = await openDatabase(file);
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  const token = await member(db, medlarLane, { id: 'Ida', role: 'owner' }, Date.now());
  let ahead = 0;
  const app = await buildApp({ db, reference: loadReferenceTables(), now: () => Date.now() + ahead });
  return {
    db,
    signedIn: new Visitor(app, { 'sign-in': token }),
    visitor: new Visitor(app),
    app,
    later: (ms: number) => {
      ahead = ms;
    },
    close: async () => {
      await app.close();
      await db.destroy();
    },
  };
}
const linkPrinted = (): string => printed[0] ?? '';
const renew = async (visitor: Visitor, link: string, fill: Record<string, string>) =>
  visitor.submit(await visitor.openLink(link), { form: '/passphrase/renewal', fill });

test('the operator makes a link by which a lone owner sets a new passphrase, once; every sign-in has ended', async () => {
  const lane = await lonelyOwner();

  expect(await run(['Ida', '--database', file, '--address', 'https://pantry.example'])).toBe(0);

  expect(printed[0]).toMatch(/^https:\/\/pantry\.example\/passphrase#[\w-]{43}$/);
  expect((await lane.signedIn.open('/shelf')).location).toBe('/sign-in');
  const link = linkPrinted();
  const weak = await renew(lane.visitor, link, { passphrase: '1qaz2wsx3edc' });
  expect(weak.status).toBe(422);
  const form = await lane.visitor.openLink(link);
  const sent = { form: '/passphrase/renewal', fill: { passphrase: fresh } };
  const set = await lane.visitor.submit(form, sent);
  expect(set.location).toBe('/sign-in');
  expect((await lane.visitor.submit(form, sent)).status).toBe(404);
  const signIn = (passphrase: string) =>
    new Visitor(lane.app).submitOn('/sign-in', { form: '/sign-in', fill: { name: 'Ida', passphrase } });
  expect((await signIn(memberPassphrase)).status).toBe(422);
  expect((await signIn(fresh)).status).toBe(303);
  const kept = await lane.db.selectFrom('security_event').select(['kind', 'address']).execute();
  expect(kept.slice(0, 2)).toEqual([
    { kind: 'reset-offered', address: 'operator' },
    { kind: 'passphrase-reset', address: '127.0.0.1' },
  ]);
  await lane.close();
});

test('the link is kept as a hash, works for an hour, and a newer one takes its place', async () => {
  const lane = await lonelyOwner();
  await run(['Ida', '--database', file]);
  const first = linkPrinted();
  const kept = JSON.stringify(await lane.db.selectFrom('passphrase_reset').selectAll().execute());
  expect(kept).not.toContain(first.split('#').at(-1) ?? 'nothing');
  printed = [];
  await run(['Ida', '--database', file]);

  expect((await lane.visitor.openLink(first)).status).toBe(404);
  expect((await lane.visitor.openLink(linkPrinted())).status).toBe(200);
  lane.later(60 * 60_000 + 1_000);
  expect((await lane.visitor.openLink(linkPrinted())).status).toBe(404);
  await lane.close();
});

/** Ida's second factor; answers the code of an instant and her recovery codes. */
async function withFactor(lane: Awaited<ReturnType<typeof lonelyOwner>>) {
  const begun = await beginSecondFactor(lane.app, { id: 'Ida', name: 'Ida' }, Date.now());
  const totp = new TOTP({ secret: Secret.fromBase32(begun?.seed ?? '') });
  const recovery = await confirmSecondFactor(lane.app, 'Ida', totp.generate(), { now: Date.now(), steps: 1 });
  return { recovery: recovery ?? [] };
}

const signInAs = (lane: Awaited<ReturnType<typeof lonelyOwner>>, passphrase: string) =>
  new Visitor(lane.app).submitOn('/sign-in', { form: '/sign-in', fill: { name: 'Ida', passphrase } });

// OWASP ASVS 5.0.0, V6.4.3 and V6.4.4: no single link and no single code takes over an account with a second factor.
test('the link alone changes nothing for somebody with a second factor, who is asked for it too', async () => {
  const lane = await lonelyOwner();
  const { recovery } = await withFactor(lane);
  await run(['Ida', '--database', file]);
  const link = linkPrinted();

  for (const code of ['', '000000', 'abcd-efgh'])
    expect((await renew(lane.visitor, link, { passphrase: fresh, code })).status).toBe(422);
  expect((await signInAs(lane, fresh)).status).toBe(422);
  expect((await signInAs(lane, memberPassphrase)).location).toBe('/sign-in/code');
  const set = await renew(lane.visitor, link, { passphrase: fresh, code: recovery[0] ?? '' });

  expect(set.location).toBe('/sign-in');
  expect((await signInAs(lane, fresh)).location).toBe('/sign-in/code');
  await lane.close();
});

test('where the factor is lost, the operator gives link and code by two ways: either alone opens nothing, both end it', async () => {
  const lane = await lonelyOwner();
  await withFactor(lane);

  await run(['Ida', '--without-second-factor', '--database', file]);

  const [link = '', , code = ''] = printed;
  expect(code).toMatch(/^[a-z2-7]{4}(-[a-z2-7]{2,4})+$/);
  expect(await hasSecondFactor(lane.db, 'Ida')).toBe(true);
  const kept = JSON.stringify(await lane.db.selectFrom('passphrase_reset').selectAll().execute());
  expect(kept).not.toContain(code);
  expect((await renew(lane.visitor, link, { passphrase: fresh, code: '' })).status).toBe(422);
  expect((await signInAs(lane, memberPassphrase)).location).toBe('/sign-in/code');
  expect((await renew(lane.visitor, link, { passphrase: fresh, code })).location).toBe('/sign-in');

  expect(await hasSecondFactor(lane.db, 'Ida')).toBe(false);
  expect((await signInAs(lane, fresh)).location).toBe('/');
  await lane.close();
});

test('the code beside a link cannot be guessed: after too many the name has to wait', async () => {
  const lane = await lonelyOwner();
  await withFactor(lane);
  await run(['Ida', '--without-second-factor', '--database', file]);
  const [link = '', , code = ''] = printed;
  for (let guess = 0; guess < failureLimits.account; guess += 1)
    await renew(lane.visitor, link, { passphrase: fresh, code: `guess-${guess}` });

  expect((await renew(lane.visitor, link, { passphrase: fresh, code })).status).toBe(429);
  await lane.close();
});

test('a name nobody has is refused with what was expected', async () => {
  const lane = await lonelyOwner();

  expect(await run(['Ada', '--database', file])).toBe(1);

  expect(printed.join(' ')).toContain('Nobody here is called “Ada”');
  await lane.close();
});
