import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import type { Database, Writing } from '../database/database.ts';
import { hashPassphrase } from './passphrase.ts';
import type { Role } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

const invitationLastsMs = 7 * 24 * 60 * 60_000;

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
    .orderBy('person.name')
    .execute();
  return rows.map(({ id, name, role }) => ({ personId: id, name, role }));
}

/** Households that have a member are closed to everybody else. */
export async function closedHouseholds(db: Database): Promise<ReadonlySet<string>> {
  const rows = await db.selectFrom('membership').select('household_id').distinct().execute();
  return new Set(rows.map((row) => row.household_id));
}

const refuse = (code: string, field: string, message: string): Outcome<never> =>
  refused({ code, path: [field], message });

/** The first member of an open household; from then on it is closed. */
export async function closeHousehold(
  db: Database,
  householdId: HouseholdId,
  said: { readonly name: string; readonly passphrase: string },
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  const passphraseHash = await hashPassphrase(said.passphrase);
  return db.transaction().execute(async (trx) => {
    const taken = await trx
      .selectFrom('membership')
      .select('person_id')
      .where('household_id', '=', householdId)
      .executeTakeFirst();
    if (taken)
      return refuse(
        'household-closed',
        'name',
        'Expected a household without an owner; this one has one. Sign in instead.',
      );
    return addPerson(trx, householdId, 'owner', { name: said.name, passphraseHash }, now);
  });
}

async function addPerson(
  trx: Writing,
  householdId: HouseholdId,
  role: Role,
  { name, passphraseHash }: { readonly name: string; readonly passphraseHash: string },
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  const same = await trx.selectFrom('person').select('id').where('name', '=', name).executeTakeFirst();
  if (same)
    return refuse(
      'name-taken',
      'name',
      'Expected a name nobody here signs in with; this one is taken. Choose another.',
    );
  const personId = randomUUID();
  await trx
    .insertInto('person')
    .values({ id: personId, name, passphrase_hash: passphraseHash, created_at: now })
    .execute();
  await addMember(trx, householdId, personId, role, now);
  return found({ personId });
}

export const addMember = (
  db: Database,
  householdId: HouseholdId,
  personId: string,
  role: Role,
  now: number,
) =>
  db
    .insertInto('membership')
    .values({ household_id: householdId, person_id: personId, role, since_at: now })
    .onConflict((same) => same.columns(['household_id', 'person_id']).doNothing())
    .execute();

/** A link that lets one person join; answers the token, which is kept nowhere. */
export async function invite(
  db: Database,
  householdId: HouseholdId,
  role: Role,
  now: number,
): Promise<string> {
  const token = newToken();
  await db
    .insertInto('invitation')
    .values({
      household_id: householdId,
      token_hash: tokenHash(token),
      role,
      made_at: now,
      expires_at: now + invitationLastsMs,
    })
    .execute();
  return token;
}

export interface Invitation {
  readonly householdId: HouseholdId;
  readonly householdName: string;
  readonly role: Role;
}

/** What an unused link is for; null when it was used, has expired or never was. */
export async function invitationOf(db: Database, token: string, now: number): Promise<Invitation | null> {
  const row = await db
    .selectFrom('invitation')
    .innerJoin('household', 'household.id', 'invitation.household_id')
    .select(['household.id', 'household.name', 'invitation.role'])
    .where('invitation.token_hash', '=', tokenHash(token))
    .where('invitation.expires_at', '>', now)
    .executeTakeFirst();
  return row ? { householdId: row.id as HouseholdId, householdName: row.name, role: row.role } : null;
}

const linkGone = (): Outcome<never> =>
  refuse(
    'invitation-used',
    '',
    'Expected a link that has not been used; this one has been. Ask for a new one.',
  );

/** Joins as a new person, or as the one who is signed in. A link works once. */
export async function acceptInvitation(
  db: Database,
  token: string,
  who: { readonly personId: string } | { readonly name: string; readonly passphrase: string },
  now: number,
): Promise<Outcome<{ readonly personId: string; readonly householdId: HouseholdId }>> {
  const passphraseHash = 'passphrase' in who ? await hashPassphrase(who.passphrase) : '';
  return db.transaction().execute(async (trx) => {
    const invitation = await invitationOf(trx, token, now);
    if (invitation === null) return linkGone();
    const { householdId, role } = invitation;
    let personId: string;
    if ('personId' in who) {
      personId = who.personId;
      await addMember(trx, householdId, personId, role, now);
    } else {
      const added = await addPerson(trx, householdId, role, { name: who.name, passphraseHash }, now);
      if (!added.ok) return added;
      personId = added.value.personId;
    }
    await trx.deleteFrom('invitation').where('token_hash', '=', tokenHash(token)).execute();
    return found({ personId, householdId });
  });
}

/** Somebody no longer belongs to the household; the last owner stays. */
export async function removeMember(
  db: Database,
  householdId: HouseholdId,
  personId: string,
): Promise<Outcome<true>> {
  return db.transaction().execute(async (trx) => {
    const members = await membersOf(trx, householdId);
    const leaving = members.find((member) => member.personId === personId);
    if (!leaving)
      return refuse(
        'member-unknown',
        '',
        'Expected a member of this household; found none. Load the page again.',
      );
    if (leaving.role === 'owner' && members.filter(({ role }) => role === 'owner').length === 1)
      return refuse(
        'last-owner',
        '',
        'Expected another owner to stay; this is the only one. Invite another owner first.',
      );
    await trx
      .deleteFrom('membership')
      .where('household_id', '=', householdId)
      .where('person_id', '=', personId)
      .execute();
    return found(true);
  });
}

/** A new passphrase ends every sign-in of the person. */
export async function changePassphrase(db: Database, personId: string, passphrase: string): Promise<void> {
  const passphrase_hash = await hashPassphrase(passphrase);
  await db.transaction().execute(async (trx) => {
    await trx.updateTable('person').set({ passphrase_hash }).where('id', '=', personId).execute();
    await trx.deleteFrom('sign_in').where('person_id', '=', personId).execute();
  });
}
