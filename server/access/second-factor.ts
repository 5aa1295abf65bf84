import { randomBytes } from 'node:crypto';
import { Secret, TOTP } from 'otpauth';
import type { Database, Writing } from '../database/database.ts';
import { engineOf } from '../database/engine-of.ts';
import { isSealed, type SeedKeys } from './seed-keys.ts';
import { tokenHash } from './tokens.ts';

// Codes by time after RFC 6238 (six digits, 30 seconds, SHA-1, the setting every authenticator knows), each step once. The
// operator may let one step before and after count too, as its section 5.2 allows for clocks and typing.

const periodMs = 30_000;
/** So long a seed is shown and waits for its first code. */
const confirmWithinMs = 10 * 60_000;
const seedBytes = 20;
const recoveryCodes = 10;
/** 128 bits, so that a plain hash keeps them safe. */
const recoveryBytes = 16;

const totpOf = (seed: string, label: string): TOTP =>
  new TOTP({
    issuer: 'Shelfward',
    label,
    digits: 6,
    period: periodMs / 1000,
    secret: Secret.fromBase32(seed),
  });

/** Where second factors are kept, and what opens their seeds. */
export interface FactorStore {
  readonly db: Database | Writing;
  readonly seedKeys: SeedKeys;
}

/** The instant, and how many steps of 30 seconds before and after it count. */
export interface CodeTime {
  readonly now: number;
  readonly steps: number;
}

export interface FactorToConfirm {
  /** As typed into an authenticator by hand. */
  readonly seed: string;
  /** As read from a picture. */
  readonly address: string;
}

/** Whether the person has to give a code when signing in. */
export async function hasSecondFactor(db: Database | Writing, personId: string): Promise<boolean> {
  const row = await db
    .selectFrom('second_factor')
    .select('person_id')
    .where('person_id', '=', personId)
    .where('confirmed_at', 'is not', null)
    .executeTakeFirst();
  return row !== undefined;
}

/** A fresh seed to be confirmed with a first code; one that is confirmed already is left alone. */
export async function beginSecondFactor(
  { db, seedKeys }: { readonly db: Database; readonly seedKeys: SeedKeys },
  person: { readonly id: string; readonly name: string },
  now: number,
): Promise<FactorToConfirm | null> {
  const seed = new Secret({ buffer: new Uint8Array(randomBytes(seedBytes)).buffer }).base32;
  return db.transaction().execute(async (trx) => {
    await trx
      .deleteFrom('second_factor')
      .where('person_id', '=', person.id)
      .where('confirmed_at', 'is', null)
      .execute();
    const begun = await trx
      .insertInto('second_factor')
      .values({
        person_id: person.id,
        seed: seedKeys.seal(seed, person.id),
        begun_at: now,
        confirmed_at: null,
      })
      .onConflict((same) => same.column('person_id').doNothing())
      .executeTakeFirst();
    if (begun.numInsertedOrUpdatedRows !== 1n) return null;
    return { seed, address: totpOf(seed, person.name).toString() };
  });
}

/** The seed that waits for its first code; null when there is none, or when it has waited too long. */
export async function factorToConfirm(
  { db, seedKeys }: FactorStore,
  person: { readonly id: string; readonly name: string },
  now: number,
): Promise<FactorToConfirm | null> {
  const row = await db
    .selectFrom('second_factor')
    .select('seed')
    .where('person_id', '=', person.id)
    .where('confirmed_at', 'is', null)
    .where('begun_at', '>', now - confirmWithinMs)
    .executeTakeFirst();
  const seed = row ? seedKeys.open(row.seed, person.id) : null;
  return seed === null ? null : { seed, address: totpOf(seed, person.name).toString() };
}

/** The first code makes the factor count; answers the recovery codes, which are kept only as hashes, or null for a wrong code. */
export async function confirmSecondFactor(
  store: { readonly db: Database; readonly seedKeys: SeedKeys },
  personId: string,
  code: string,
  { now, steps }: CodeTime,
): Promise<readonly string[] | null> {
  const { db } = store;
  if (await hasSecondFactor(db, personId)) return null;
  const begun = await db
    .selectFrom('second_factor')
    .select('person_id')
    .where('person_id', '=', personId)
    .where('begun_at', '>', now - confirmWithinMs)
    .executeTakeFirst();
  if (!begun || !(await usesStep(store, personId, code, { now, steps }))) return null;
  return db.transaction().execute(async (trx) => {
    await trx
      .updateTable('second_factor')
      .set({ confirmed_at: now })
      .where('person_id', '=', personId)
      .execute();
    return newRecoveryCodes(trx, personId);
  });
}

/** Ten new recovery codes, shown once and kept only as hashes; those from before open nothing any more. */
export async function newRecoveryCodes(
  trx: Database | Writing,
  personId: string,
): Promise<readonly string[]> {
  const codes = Array.from({ length: recoveryCodes }, readableCode);
  await trx.deleteFrom('recovery_code').where('person_id', '=', personId).execute();
  await trx
    .insertInto('recovery_code')
    .values(codes.map((plain) => ({ person_id: personId, code_hash: codeHash(plain) })))
    .execute();
  return codes;
}

/** A code of 128 random bits that somebody reads from paper. */
export const readableCode = (): string => readable(randomBytes(recoveryBytes));

/** What is kept of such a code, however it is typed. */
export const codeHash = (code: string): string => tokenHash(bare(code));

/** Whether that is the code of now, or a recovery code that is left; either works once. */
export async function isSecondFactor(
  store: FactorStore,
  personId: string,
  code: string,
  time: CodeTime,
): Promise<'code' | 'recovery' | null> {
  if (await usesStep(store, personId, code, time)) return 'code';
  const used = await store.db
    .deleteFrom('recovery_code')
    .where('person_id', '=', personId)
    .where('code_hash', '=', codeHash(code))
    .executeTakeFirst();
  return used.numDeletedRows === 1n ? 'recovery' : null;
}

export const endSecondFactor = (db: Database | Writing, personId: string) =>
  db.deleteFrom('second_factor').where('person_id', '=', personId).execute();

export async function recoveryCodesLeft(db: Database, personId: string): Promise<number> {
  const { n } = await db
    .selectFrom('recovery_code')
    .select((row) => row.fn.countAll<number>().as('n'))
    .where('person_id', '=', personId)
    .executeTakeFirstOrThrow();
  return n;
}

/** The step is marked as used in the same statement that asks whether it was, so that two requests cannot share it. */
async function usesStep(
  { db, seedKeys }: FactorStore,
  personId: string,
  code: string,
  { now, steps }: CodeTime,
): Promise<boolean> {
  const row = await db
    .selectFrom('second_factor')
    .select('seed')
    .where('person_id', '=', personId)
    .executeTakeFirst();
  const digits = code.replaceAll(/\s/g, '');
  const seed = row ? seedKeys.open(row.seed, personId) : null;
  if (seed === null || !/^\d{6}$/.test(digits)) return false;
  const delta = totpOf(seed, '').validate({ token: digits, timestamp: now, window: steps });
  if (delta === null) return false;
  const step = Math.floor(now / periodMs) + delta;
  const marked = await db
    .updateTable('second_factor')
    .set({ last_step: step })
    .where('person_id', '=', personId)
    .where('last_step', '<', step)
    .executeTakeFirst();
  return marked.numUpdatedRows === 1n;
}

/** Letters and digits that are not taken for one another, in groups of four. */
const readable = (bytes: Buffer): string =>
  new Secret({ buffer: new Uint8Array(bytes).buffer }).base32.toLowerCase().replaceAll(/(.{4})(?=.)/g, '$1-');

const bare = (code: string): string => code.toLowerCase().replaceAll(/[\s-]/g, '');

export interface Sealing {
  /** How many seeds were sealed, or sealed anew with the first key. */
  readonly sealed: number;
  /** Who has a second factor that no key opens; their recovery codes still work. */
  readonly lost: readonly string[];
}

/**
 * Seals with the first key every seed that is not: those from before there were keys, and those of an older key. Nothing of a
 * plain seed stays in the file, its free pages and its log included.
 */
export async function sealSeeds({
  db,
  seedKeys,
}: {
  readonly db: Database;
  readonly seedKeys: SeedKeys;
}): Promise<Sealing> {
  const engine = engineOf(db);
  await engine.secureDeletes(db);
  const done = await db.transaction().execute(async (trx) => {
    const rows = await trx
      .selectFrom('second_factor')
      .innerJoin('person', 'person.id', 'second_factor.person_id')
      .select(['person_id', 'seed', 'person.name'])
      .execute();
    const lost: string[] = [];
    let plain = 0;
    let sealed = 0;
    for (const { person_id: personId, seed: kept, name } of rows) {
      const opened = isSealed(kept) ? seedKeys.open(kept, personId) : kept;
      if (opened === null) lost.push(name);
      else if (!seedKeys.isOfToday(kept)) {
        await trx
          .updateTable('second_factor')
          .set({ seed: seedKeys.seal(opened, personId) })
          .where('person_id', '=', personId)
          .execute();
        sealed += 1;
        if (!isSealed(kept)) plain += 1;
      }
    }
    return { lost, plain, sealed };
  });
  if (done.plain > 0) await engine.leaveNoTrace(db);
  return { sealed: done.sealed, lost: done.lost };
}
