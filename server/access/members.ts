import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, type Problem, refused, ShelfwardError } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';

import { withdrawThingsOf } from './connected-things.ts';
import { renewCalendarToken } from './household-tokens.ts';
import { hashPassphrase } from './passphrase.ts';
import { nameKey, personNamed } from './people.ts';
import { type Role, roles } from './roles.ts';
import { weakness } from './weak-passphrase.ts';

export interface Member {
  readonly personId: string;
  readonly name: string;
  readonly role: Role;
}

export async function membersOf(db: Database, householdId: HouseholdId): Promise<readonly Member[]> {
  const rows = await db
    .selectFrom('membership')
    .innerJoin('person', 'person.id', 'membership.person_id')
    .select(['person.id', 'person.name', 'membership.role'])
    .where('membership.household_id', '=', householdId)
    .orderBy('person.name_key')
    .execute();
  return rows.map(({ id, name, role }) => ({ personId: id, name, role }));
}

/** The member meant by a name, as that member writes it; null where none was named. */
export async function memberNamed(
  db: Database,
  householdId: HouseholdId,
  named: string,
): Promise<Outcome<string | null>> {
  if (named === '') return found(null);
  const members = (await membersOf(db, householdId)).map(({ name }) => name);
  const member = members.find((name) => name.toLowerCase() === named.toLowerCase());
  if (member !== undefined) return found(member);
  return refuse(
    'member-unknown',
    'takenBy',
    members.length === 0
      ? `Who took it is a member of this household, and it has none yet. Leave “${named}” out.`
      : `Who took it is a member of this household, not “${named}”. Choose one of: ${members.join(', ')}.`,
  );
}

/** A household that has a member is closed to everybody else. */
export const isClosed = async (db: Database, householdId: string): Promise<boolean> =>
  (await db
    .selectFrom('membership')
    .select('person_id')
    .where('household_id', '=', householdId)
    .limit(1)
    .executeTakeFirst()) !== undefined;

/** Whether anybody owns any household of the file. */
export const hasMembers = async (db: Database): Promise<boolean> =>
  (await db.selectFrom('membership').select('person_id').limit(1).executeTakeFirst()) !== undefined;

export const refuse = (code: string, field: string, message: string): Outcome<never> =>
  refused({ code, path: [field], message });

/** Why somebody could not become an owner of a household of that name: a passphrase easy to guess, a name in use. */
export async function unfitOwner(
  db: Database,
  { name, passphrase }: { readonly name: string; readonly passphrase: string },
  householdName: string,
): Promise<Problem | null> {
  const weak = weakness(passphrase, [name, householdName]);
  return weak ?? ((await isNameTaken(db, name)) ? nameTaken : null);
}

export const nameTaken: Problem = {
  code: 'name-taken',
  path: ['name'],
  message: 'Somebody signs in with this name already. Choose another.',
};

export const isNameTaken = async (db: Database | Writing, name: string): Promise<boolean> =>
  (await personNamed(db, name)) !== null;

/** The first member of an open household; from then on it is closed. */
export async function closeHousehold(
  db: Database,
  householdId: HouseholdId,
  said: { readonly name: string; readonly passphrase: string },
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  const { name: householdName } = await db
    .selectFrom('household')
    .select('name')
    .where('id', '=', householdId)
    .executeTakeFirstOrThrow();
  const hash = await hashPassphrase(said.passphrase, [said.name, householdName]);
  if (!hash.ok) return hash;
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const taken = await trx
      .selectFrom('membership')
      .select('person_id')
      .where('household_id', '=', householdId)
      .executeTakeFirst();
    if (taken)
      return refuse('household-closed', 'name', 'This household has an owner already. Sign in instead.');
    // Whoever sat at the machine until now may have connected something; what is closed is closed to that as well.
    await withdrawThingsOf(trx, householdId, null);
    return addPerson(trx, householdId, 'owner', { name: said.name, passphraseHash: hash.value }, now);
  });
}

/** A new person with a passphrase, and what that person is in the household. */
export async function addPerson(
  trx: Writing,
  householdId: HouseholdId,
  role: Role,
  { name, passphraseHash }: { readonly name: string; readonly passphraseHash: string },
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  if (await isNameTaken(trx, name)) return refused(nameTaken);
  const personId = randomUUID();
  const { numInsertedOrUpdatedRows } = await trx
    .insertInto('person')
    .values({ id: personId, name, name_key: nameKey(name), passphrase_hash: passphraseHash, created_at: now })
    .onConflict((same) => same.column('name_key').doNothing())
    .executeTakeFirstOrThrow();
  // Somebody took the name in this very moment.
  if (numInsertedOrUpdatedRows !== 1n) return refused(nameTaken);
  await addMember(trx, householdId, personId, role, now);
  return found({ personId });
}

export async function addMember(
  db: Writing,
  householdId: HouseholdId,
  personId: string,
  role: Role,
  now: number,
): Promise<void> {
  const person = await db.selectFrom('person').select('id').where('id', '=', personId).executeTakeFirst();
  if (!person) throw new ShelfwardError('person-unknown', `addMember: nobody has the id ${personId}`);
  await db
    .insertInto('membership')
    .values({ household_id: householdId, person_id: personId, role, since_at: now })
    .onConflict((same) => same.columns(['household_id', 'person_id']).doNothing())
    .execute();
  await db.updateTable('household').set({ is_open: 0 }).where('id', '=', householdId).execute();
}

/** Becomes a member, or a member with more to do; who may do as much already is told so and keeps what there is. */
export async function joinOrRise(
  trx: Writing,
  householdId: HouseholdId,
  personId: string,
  role: Role,
  now: number,
): Promise<Outcome<true>> {
  const present = (await membersOf(trx, householdId)).find((member) => member.personId === personId);
  if (present === undefined) await addMember(trx, householdId, personId, role, now);
  else if (roles.indexOf(present.role) <= roles.indexOf(role))
    return refuse(
      'member-already',
      '',
      `You are ${present.role} here already, and the link would make you ${role}. It was not used up; give it to whom it is meant for.`,
    );
  else await setRole(trx, householdId, personId, role);
  return found(true);
}

const setRole = (trx: Writing, householdId: HouseholdId, personId: string, role: Role) =>
  trx
    .updateTable('membership')
    .set({ role })
    .where('household_id', '=', householdId)
    .where('person_id', '=', personId)
    .execute();

/** Gives a member another role; the last owner stays owner. */
export async function changeRole(
  db: Database,
  householdId: HouseholdId,
  personId: string,
  role: Role,
): Promise<Outcome<{ readonly thingsWithdrawn: number }>> {
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const members = await membersOf(trx, householdId);
    const member = members.find((one) => one.personId === personId);
    if (!member) return memberUnknown();
    if (role !== 'owner' && isLastOwner(members, member)) return lastOwner();
    await setRole(trx, householdId, personId, role);
    let thingsWithdrawn = 0;
    if (member.role === 'owner' && role !== 'owner') {
      await renewCalendarToken(trx, householdId);
      thingsWithdrawn = await withdrawThingsOf(trx, householdId, personId);
    }
    return found({ thingsWithdrawn });
  });
}

const memberUnknown = () =>
  refuse('member-unknown', '', 'Nobody like that is a member of this household now. Load the page again.');
const lastOwner = () => refuse('last-owner', '', 'This is the only owner. Invite another owner first.');
const isLastOwner = (members: readonly Member[], { role }: Member): boolean =>
  role === 'owner' && members.filter((member) => member.role === 'owner').length === 1;

/**
 * Somebody no longer belongs to the household. The calendar's address known till then opens nothing, nor do the things that the
 * leaving member connected; the last owner stays.
 */
export async function removeMember(
  db: Database,
  householdId: HouseholdId,
  personId: string,
): Promise<Outcome<{ readonly calendarRenewed: boolean; readonly thingsWithdrawn: number }>> {
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    const members = await membersOf(trx, householdId);
    const leaving = members.find((member) => member.personId === personId);
    if (!leaving) return memberUnknown();
    if (isLastOwner(members, leaving)) return lastOwner();
    await trx
      .deleteFrom('membership')
      .where('household_id', '=', householdId)
      .where('person_id', '=', personId)
      .execute();
    await trx.deleteFrom('begin_permission').where('person_id', '=', personId).execute();
    const thingsWithdrawn = await withdrawThingsOf(trx, householdId, personId);
    return found({ calendarRenewed: await renewCalendarToken(trx, householdId), thingsWithdrawn });
  });
}
