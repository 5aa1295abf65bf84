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
const linkPrinted = (): string => new URL(printed[0] ?? '').pathname;

test('the operator makes a link by which a lone owner sets a new passphrase, once; every sign-in has ended', async () => {
  const lane = await lonelyOwner();

  expect(await run(['Ida', '--database', file, '--address', 'https://pantry.example'])).toBe(0);

  expect(printed[0]).toMatch(/^https:\/\/pantry\.example\/passphrase\/[\w-]{43}$/);
  expect((await lane.signedIn.open('/shelf')).location).toBe('/sign-in');
  const link = linkPrinted();
  const weak = await lane.visitor.submitOn(link, { form: link, fill: { passphrase: '1qaz2wsx3edc' } });
  expect(weak.status).toBe(422);
  const form = await lane.visitor.open(link);
  const set = await lane.visitor.submit(form, { form: link, fill: { passphrase: fresh } });
  expect(set.location).toBe('/sign-in');
  expect((await lane.visitor.submit(form, { form: link, fill: { passphrase: fresh } })).status).toBe(404);
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
  expect(kept).not.toContain(first.split('/').at(-1) ?? 'nothing');
  printed = [];
  await run(['Ida', '--database', file]);

  expect((await lane.visitor.open(first)).status).toBe(404);
  expect((await lane.visitor.open(linkPrinted())).status).toBe(200);
  lane.later(60 * 60_000 + 1_000);
  expect((await lane.visitor.open(linkPrinted())).status).toBe(404);
  await lane.close();
});

test('a second factor stays, unless the operator is told that it is lost', async () => {
  const lane = await lonelyOwner();
  const begun = await beginSecondFactor(lane.app, { id: 'Ida', name: 'Ida' }, Date.now());
  const code = new TOTP({ secret: Secret.fromBase32(begun?.seed ?? '') }).generate();
  await confirmSecondFactor(lane.app, 'Ida', code, { now: Date.now(), steps: 1 });

  await run(['Ida', '--database', file]);
  const link = linkPrinted();
  await lane.visitor.submitOn(link, { form: link, fill: { passphrase: fresh } });
  const signIn = await lane.visitor.submitOn('/sign-in', {
    form: '/sign-in',
    fill: { name: 'Ida', passphrase: fresh },
  });
  expect(signIn.location).toBe('/sign-in/code');

  await run(['Ida', '--without-second-factor', '--database', file]);
  expect(await hasSecondFactor(lane.db, 'Ida')).toBe(false);
  await lane.close();
});

test('a name nobody has is refused with what was expected', async () => {
  const lane = await lonelyOwner();

  expect(await run(['Ada', '--database', file])).toBe(1);

  expect(printed.join(' ')).toContain('nobody here is called “Ada”');
  await lane.close();
});
