import { randomUUID } from 'node:crypto';
import type { Expression, ExpressionBuilder, Selectable, SqlBool } from 'kysely';
import { counted } from '../../shared/counting.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import { type CalendarDate, dateInZone } from '../../shared/week.ts';
import type { Database, Writing } from '../database/database.ts';
import type { HouseholdTable, Tables } from '../database/tables.ts';
import { keepToken } from './household-tokens.ts';
import type { ThingNeed } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

// A connected thing is something of the household's own that is no browser: a display on the fridge, the automations of a home
// server. It shows its access token with each request and is let in by nothing else.

/** What a connected thing may do; whatever takes also reads. */
export const thingScopes = ['read', 'read and take'] as const;
export type ThingScope = (typeof thingScopes)[number];

/** Where the interface begins. Nothing under it looks at a cookie. */
export const interfaceAddress = '/api/v1';

/** So many may be connected to one household at a time. */
export const mostThings = 20;
/** Being used is written down at most this often, so that reading does not write all the time. */
const usedEveryMs = 10 * 60_000;

export interface ConnectedThing {
  readonly id: string;
  readonly name: string;
  readonly may: ThingScope;
  readonly householdId: HouseholdId;
}

/** A thing as owners see it in their list. */
export interface ThingOnList extends ConnectedThing {
  /** Null where nobody signs in, and anybody at the machine made it. */
  readonly madeBy: string | null;
  readonly madeAt: number;
  /** The last day on which it opens anything, where one was named. */
  readonly endsOn: CalendarDate | null;
  /** To the last ten minutes; null before the first time. */
  readonly usedAt: number | null;
}

export const mayThing = ({ may }: Pick<ConnectedThing, 'may'>, need: ThingNeed): boolean =>
  need === 'thing reads' || may === 'read and take';

/** The begin tells a person, and programs that look for secrets in the wrong place, what this is. */
const newAccessToken = (): string => `shelfward_${newToken()}`;

export const nameInUse = (name: string): Problem => ({
  code: 'thing-name-taken',
  path: ['name'],
  message: `Name cannot be “${name}”, which is connected already. Choose another, so that you can tell the two apart.`,
});

/** The token is answered this once and kept only as its hash. */
export async function connectThing(
  db: Database,
  householdId: HouseholdId,
  said: { readonly name: string; readonly may: ThingScope; readonly endsOn: CalendarDate | null },
  by: { readonly personId: string | null; readonly now: number },
): Promise<Outcome<{ readonly token: string; readonly id: string }>> {
  return db.transaction().execute(async (trx) => {
    const standing = await trx
      .selectFrom('connected_thing')
      .select('name')
      .where('household_id', '=', householdId)
      .execute();
    if (standing.length >= mostThings)
      return refused({
        code: 'things-too-many',
        path: [''],
        message: `${counted(mostThings, 'thing')} are connected already. Withdraw one that is no longer used, then connect this one.`,
      });
    if (standing.some(({ name }) => name === said.name)) return refused(nameInUse(said.name));
    const token = newAccessToken();
    const id = randomUUID();
    await trx
      .insertInto('connected_thing')
      .values({
        household_id: householdId,
        id,
        name: said.name,
        may: said.may,
        token_hash: tokenHash(token),
        made_by: by.personId,
        made_at: by.now,
        ends_on: said.endsOn,
        used_at: null,
      })
      .execute();
    await keepToken(trx, householdId, 'interface', token);
    return found({ token, id });
  });
}

/** From now on its token opens nothing; false for one that is not this household's. */
export async function withdrawThing(db: Database, householdId: HouseholdId, id: string): Promise<boolean> {
  return db
    .transaction()
    .execute(async (trx) => (await withdraw(trx, householdId, (row) => row('id', '=', id))) > 0);
}

/** Withdraws what fits; answers how many. */
async function withdraw(
  trx: Writing,
  householdId: HouseholdId,
  fits: (row: ExpressionBuilder<Tables, 'connected_thing'>) => Expression<SqlBool>,
): Promise<number> {
  await trx
    .deleteFrom('household_token')
    .where('household_id', '=', householdId)
    .where('token_hash', 'in', (gone) =>
      gone
        .selectFrom('connected_thing')
        .select('token_hash')
        .where('household_id', '=', householdId)
        .where(fits),
    )
    .execute();
  const { numDeletedRows } = await trx
    .deleteFrom('connected_thing')
    .where('household_id', '=', householdId)
    .where(fits)
    .executeTakeFirstOrThrow();
  return Number(numDeletedRows);
}

/** What one member connected; null: what was connected while nobody signed in. Answers how many were withdrawn. */
export async function withdrawThingsOf(
  trx: Writing,
  householdId: HouseholdId,
  personId: string | null,
): Promise<number> {
  return withdraw(trx, householdId, (row) => row('made_by', personId === null ? 'is' : '=', personId));
}

/**
 * Whose token this is, and the household’s row; null for one that was never given, was withdrawn or has ended, and while the household is
 * deleted. Its last day is a day where the household lives.
 */
export async function thingOf(
  db: Database,
  token: string,
  now: number,
): Promise<{ readonly thing: ConnectedThing; readonly household: Selectable<HouseholdTable> } | null> {
  const row = await db
    .selectFrom('household_token as key')
    .innerJoin('connected_thing as thing', (join) =>
      join
        .onRef('thing.household_id', '=', 'key.household_id')
        .onRef('thing.token_hash', '=', 'key.token_hash'),
    )
    .innerJoin('household', 'household.id', 'key.household_id')
    .selectAll('household')
    .select([
      'thing.id as thing_id',
      'thing.name as thing_name',
      'thing.may',
      'thing.ends_on',
      'thing.used_at',
    ])
    .where('key.token_hash', '=', tokenHash(token))
    .where('thing.household_id', 'not in', (deleted) =>
      deleted.selectFrom('household_deletion').select('household_id'),
    )
    .executeTakeFirst();
  if (!row) return null;
  if (row.ends_on !== null && row.ends_on < dateInZone(now, row.time_zone)) return null;
  if (row.used_at === null || now - row.used_at > usedEveryMs)
    await db
      .updateTable('connected_thing')
      .set({ used_at: now })
      .where('household_id', '=', row.id)
      .where('id', '=', row.thing_id)
      .execute();
  const thing = {
    id: row.thing_id,
    name: row.thing_name,
    may: row.may,
    householdId: row.id as HouseholdId,
  };
  return { thing, household: row };
}

/** What is connected, by name; what has ended stays on the list until it is withdrawn. */
export async function thingsOf(db: Database, householdId: HouseholdId): Promise<readonly ThingOnList[]> {
  const rows = await db
    .selectFrom('connected_thing as thing')
    .leftJoin('person', 'person.id', 'thing.made_by')
    .selectAll('thing')
    .select('person.name as maker')
    .where('thing.household_id', '=', householdId)
    .orderBy('thing.name')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    name: row.name,
    may: row.may,
    householdId,
    madeBy: row.maker,
    madeAt: row.made_at,
    endsOn: row.ends_on as CalendarDate | null,
    usedAt: row.used_at,
  }));
}
