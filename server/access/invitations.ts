import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome } from '../../shared/problems.ts';
import type { Database } from '../database/database.ts';
import { holdHousehold } from '../database/hold-household.ts';

import { forgetToken, keepToken } from './household-tokens.ts';
import { addPerson, joinOrRise, refuse } from './members.ts';
import { hashPassphrase } from './passphrase.ts';
import type { Role } from './roles.ts';
import { newToken, tokenHash } from './tokens.ts';

const invitationLastsMs = 7 * 24 * 60 * 60_000;

/** A link that lets one person join; answers the token, which is kept nowhere. Links that have run out are swept away. */
export async function invite(
  db: Database,
  householdId: HouseholdId,
  role: Role,
  now: number,
): Promise<string> {
  const token = newToken();
  await db.transaction().execute(async (trx) => {
    await holdHousehold(trx, householdId);
    await trx
      .deleteFrom('household_token')
      .where('token_hash', 'in', (ended) =>
        ended.selectFrom('invitation').select('token_hash').where('expires_at', '<=', now),
      )
      .execute();
    await trx.deleteFrom('invitation').where('expires_at', '<=', now).execute();
    await trx
      .insertInto('invitation')
      .values({
        household_id: householdId,
        token_hash: tokenHash(token),
        role,
        made_at: now,
        expires_at: now + invitationLastsMs,
      })
      .execute();
    await keepToken(trx, householdId, 'invitation', token);
  });
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
    .selectFrom('household_token as key')
    .innerJoin('invitation', (join) =>
      join
        .onRef('invitation.household_id', '=', 'key.household_id')
        .onRef('invitation.token_hash', '=', 'key.token_hash'),
    )
    .innerJoin('household', 'household.id', 'key.household_id')
    .select(['household.id', 'household.name', 'invitation.role'])
    .where('key.token_hash', '=', tokenHash(token))
    .where('invitation.expires_at', '>', now)
    .executeTakeFirst();
  return row ? { householdId: row.id as HouseholdId, householdName: row.name, role: row.role } : null;
}

const linkGone = (): Outcome<never> =>
  refuse('invitation-used', '', 'This link has been used already. Ask for a new one.');

/** Joins as a new person, or as the one who is signed in. A link works once. */
export async function acceptInvitation(
  db: Database,
  token: string,
  who: { readonly personId: string } | { readonly name: string; readonly passphrase: string },
  now: number,
): Promise<Outcome<{ readonly personId: string; readonly householdId: HouseholdId }>> {
  const offered = await invitationOf(db, token, now);
  if (offered === null) return linkGone();
  const hash =
    'passphrase' in who ? await hashPassphrase(who.passphrase, [who.name, offered.householdName]) : found('');
  if (!hash.ok) return hash;
  return db.transaction().execute(async (trx) => {
    await holdHousehold(trx, offered.householdId);
    const invitation = await invitationOf(trx, token, now);
    if (invitation === null) return linkGone();
    const { householdId, role } = invitation;
    let personId: string;
    if ('personId' in who) {
      personId = who.personId;
      const raised = await joinOrRise(trx, householdId, personId, role, now);
      if (!raised.ok) return raised;
    } else {
      const person = { name: who.name, passphraseHash: hash.value };
      const added = await addPerson(trx, householdId, role, person, now);
      if (!added.ok) return added;
      personId = added.value.personId;
    }
    await trx
      .deleteFrom('invitation')
      .where('household_id', '=', householdId)
      .where('token_hash', '=', tokenHash(token))
      .execute();
    await forgetToken(trx, householdId, tokenHash(token));
    return found({ personId, householdId });
  });
}
