import type { HouseholdId } from '../../shared/ids.ts';
import { ofAccounts } from '../database/apart/whose-rows.ts';
import type { Database } from '../database/database.ts';

/** What happens to accounts and is kept, in words for those who read it. */
export const securityEventWords = {
  'signed-in': 'signed in',
  'signed-in-with-code': 'signed in with a second factor',
  'signed-in-with-recovery-code': 'signed in with a recovery code',
  'sign-in-failed': 'a sign-in failed: not the passphrase',
  'second-factor-failed': 'a sign-in failed: not the code',
  'sign-in-waits': 'too many sign-ins failed; the name or address has to wait',
  'signed-out': 'signed out',
  'signed-out-everywhere': 'signed out everywhere',
  'sign-ins-ended': 'ended other sign-ins',
  'passphrase-changed': 'changed the passphrase',
  'passphrase-not-changed': 'a change of the passphrase failed: not the present one',
  'reset-offered': 'the operator made a link to a new passphrase',
  'passphrase-reset': 'set a new passphrase by a link',
  'second-factor-on': 'a second factor is asked for from now on',
  'second-factor-off': 'no second factor is asked for any more',
  'recovery-codes-made': 'made new recovery codes',
  'mail-address-confirmed': 'an address for letters was confirmed there',
  'factor-required': 'asked a second factor of every member',
  'factor-not-required': 'asks no second factor of members any more',
  'household-closed': 'became the owner; the household is closed to others',
  invited: 'made an invitation',
  joined: 'joined by an invitation',
  'household-deleted': 'deleted the household; it can come back for seven days',
  'household-returned': 'brought the deleted household back',
  'role-changed': 'gave a member another role',
  'member-removed': 'a member was removed',
  'thing-connected': 'connected a thing that may read',
  'thing-connected-to-take': 'connected a thing that may read and take',
  'thing-withdrawn': 'withdrew a connected thing',
  'token-refused': 'an access token that opens nothing was refused',
  'thing-not-allowed': 'a connected thing was refused: it may only read',
  'not-allowed': 'was refused: the role does not allow it',
  'form-refused': 'a form without a valid token was refused',
  'not-understood': 'a request that no page of this program sends was refused',
  'asked-too-often': 'too many requests; asked to wait',
} as const;

export type SecurityEventKind = keyof typeof securityEventWords;

/** Refusals can come in floods: one of a kind, person and address a minute is enough to know. */
const onceAMinute: ReadonlySet<SecurityEventKind> = new Set([
  'token-refused',
  'thing-not-allowed',
  'not-allowed',
  'form-refused',
  'not-understood',
  'asked-too-often',
  'sign-in-waits',
]);
const minuteMs = 60_000;
/** So many events of names nobody has stay in the file. */
const keptOfNobody = 1000;
const keptMs = 90 * 24 * 60 * minuteMs;

export interface SecurityEvent {
  readonly at: number;
  readonly kind: SecurityEventKind;
  readonly personId: string | null;
  readonly householdId: HouseholdId | null;
  /** Where on the network it came from; `operator` for the command line. */
  readonly address: string;
  readonly device: string;
}

/** Keeps an event for 90 days. Nothing of what was typed is part of it. */
export async function keepSecurityEvent(db: Database, event: SecurityEvent): Promise<void> {
  await ofAccounts(db, () =>
    db.transaction().execute(async (trx) => {
      await trx
        .deleteFrom('security_event')
        .where('at', '<=', event.at - keptMs)
        .execute();
      // Of guesses at names nobody has, the last ones are enough; looked after for every event, so that none takes longer.
      const oldest = await trx
        .selectFrom('security_event')
        .select('seq')
        .where('person_id', 'is', null)
        .where('household_id', 'is', null)
        .orderBy('seq', 'desc')
        .offset(keptOfNobody)
        .limit(1)
        .executeTakeFirst();
      if (oldest)
        await trx
          .deleteFrom('security_event')
          .where('person_id', 'is', null)
          .where('household_id', 'is', null)
          .where('seq', '<=', oldest.seq)
          .execute();
      if (onceAMinute.has(event.kind)) {
        const same = await trx
          .selectFrom('security_event')
          .select('seq')
          .where('kind', '=', event.kind)
          .where('person_id', event.personId === null ? 'is' : '=', event.personId)
          .where('household_id', event.householdId === null ? 'is' : '=', event.householdId)
          .where('address', '=', event.address)
          .where('at', '>', event.at - minuteMs)
          .where('at', '<=', event.at + minuteMs)
          .executeTakeFirst();
        if (same) return;
      }
      await trx
        .insertInto('security_event')
        .values({
          at: event.at,
          kind: event.kind,
          person_id: event.personId,
          household_id: event.householdId,
          address: event.address,
          device: event.device,
        })
        .execute();
    }),
  );
}

export interface ShownEvent {
  readonly seq: number;
  readonly at: number;
  readonly words: string;
  readonly who: string | null;
  readonly address: string;
  readonly device: string;
}

/** What happened to a household and to its members, the newest first. */
export async function securityEventsOf(
  db: Database,
  householdId: HouseholdId,
  most: number,
): Promise<readonly ShownEvent[]> {
  // What happened to a member stands with no household.
  const rows = await ofAccounts(db, () =>
    db
      .selectFrom('security_event as event')
      .leftJoin('person', 'person.id', 'event.person_id')
      .select(['event.seq', 'event.at', 'event.kind', 'event.address', 'event.device', 'person.name as who'])
      .where((row) =>
        row.or([
          row('event.household_id', '=', householdId),
          row.and([
            row('event.household_id', 'is', null),
            row('event.person_id', 'in', (members) =>
              members.selectFrom('membership').select('person_id').where('household_id', '=', householdId),
            ),
          ]),
        ]),
      )
      .orderBy('event.seq', 'desc')
      .limit(most)
      .execute(),
  );
  const words: Readonly<Record<string, string>> = securityEventWords;
  return rows.map((row) => ({
    seq: row.seq,
    at: row.at,
    words: words[row.kind] ?? row.kind,
    who: row.who,
    address: row.address,
    device: row.device,
  }));
}
