import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../../shared/ids.ts';
import { found, type Outcome, refused, ShelfwardError } from '../../../shared/problems.ts';
import { addMember, addPerson, isNameTaken, nameTaken } from '../../access/members.ts';
import type { Database, Writing } from '../../database/database.ts';
import { ruleFault } from '../../faults.ts';
import { once } from '../once.ts';
import { refuse } from '../record.ts';

export interface NewHousehold {
  readonly name: string;
  readonly people: number;
  readonly timeZone: string;
  readonly units: 'us' | 'metric';
  readonly weekStartsOn: 'monday' | 'sunday';
  /** How dates and times are written; `en-US` when nothing was said. */
  readonly locale?: string;
  readonly currency?: string;
  readonly region: string | null;
}

/** How many households one file may hold; a family needs one, and the invented one to look around in. */
export const mostHouseholds = 12;
/** How many of them one person may have set up. */
export const mostPerPerson = 3;

/** Who sets a household up: somebody signed in, a new owner, or whoever sits at this machine, who leaves it open. */
export type Founder =
  | { readonly personId: string }
  | { readonly name: string; readonly passphraseHash: string }
  | null;

export interface SetUp {
  readonly householdId: HouseholdId;
  /** The owner; null for a household left open. */
  readonly ownerId: string | null;
  /** This form made it before; nobody was added. */
  readonly repeated: boolean;
}

/**
 * Begins a household of its own in this file, with its first owner, in one transaction. The same key of the same person
 * makes it once: sent again it answers with the household the first sending made and adds nobody.
 */
export async function createHousehold(
  db: Database,
  asked: { readonly key: string; readonly at: number; readonly founder?: Founder },
  household: NewHousehold,
): Promise<Outcome<SetUp>> {
  const first = await createdOnce(db, asked, household).catch((cause: unknown) => {
    if (cause instanceof NameTakenMeanwhile || ruleFault(cause) === 'unique')
      return refused<SetUp>(nameTaken);
    throw cause;
  });
  if (first.ok) return first;
  // The same form may have come twice at once, and the other sending was first: then this is a repetition.
  const made = await madeUnder(db, askerOf(asked.founder ?? null), asked.key);
  return made === null ? first : createdOnce(db, asked, household);
}

/** Ends the transaction without a trace. */
class NameTakenMeanwhile extends Error {}

const createdOnce = (
  db: Database,
  { key, at, founder = null }: { readonly key: string; readonly at: number; readonly founder?: Founder },
  household: NewHousehold,
): Promise<Outcome<SetUp>> =>
  db.transaction().execute(async (trx) => {
    const asker = askerOf(founder);
    const made = await madeUnder(trx, asker, key);
    if (made !== null) {
      const { outcome } = await once(trx, { householdId: made, key, at }, requestOf(household), async () =>
        found({ householdId: made }),
      );
      return outcome.ok ? found({ householdId: made, ownerId: null, repeated: true }) : outcome;
    }
    const room = await roomFor(trx, asker);
    if (!room.ok) return room;
    if (founder !== null && 'name' in founder && (await isNameTaken(trx, founder.name)))
      return refused(nameTaken);
    const id = randomUUID() as HouseholdId;
    await insert(trx, id, household, at);
    const { outcome } = await once(trx, { householdId: id, key, at }, requestOf(household), async () =>
      found({ householdId: id }),
    );
    // A key that will not do is the program's own fault; nothing of the household stays.
    if (!outcome.ok) throw new ShelfwardError('key-malformed', outcome.problems[0]?.message ?? 'no key');
    const keepKey = (by: string) =>
      trx.insertInto('household_setup').values({ asker: by, key, household_id: id, made_at: at }).execute();
    await keepKey(asker);
    const ownerId = await addFounder(trx, id, founder, at);
    // A new owner's browser is signed in by the answer, and may send the form again either way.
    if (ownerId !== null && ownerId !== asker) await keepKey(ownerId);
    return found({ householdId: id, ownerId, repeated: false });
  });

const requestOf = (household: NewHousehold) => ({ verb: 'create household', request: household });

/** Under whose name the keys of set-ups are kept; a new owner is nobody yet. */
const askerOf = (founder: Founder): string =>
  founder !== null && 'personId' in founder ? founder.personId : '';

/** Whether there is room, or why no further household may be set up. */
async function roomFor(trx: Writing, asker: string): Promise<Outcome<true>> {
  const taken = await trx.selectFrom('household').select('id').limit(mostHouseholds).execute();
  if (taken.length >= mostHouseholds)
    return refuse(
      'too-many-households',
      'name',
      `One file holds ${mostHouseholds} households, and there are ${taken.length}. Use one of them, or start the program with another file.`,
    );
  const own = await trx.selectFrom('household_setup').select('key').where('asker', '=', asker).execute();
  if (asker !== '' && own.length >= mostPerPerson)
    return refuse(
      'too-many-households',
      'name',
      `One person sets up ${mostPerPerson} households at most, and you have set up ${own.length}. Use one of them, or delete one first.`,
    );
  return found(true);
}

async function addFounder(
  trx: Writing,
  householdId: HouseholdId,
  founder: Founder,
  at: number,
): Promise<string | null> {
  if (founder === null) return null;
  if ('personId' in founder) {
    await addMember(trx, householdId, founder.personId, 'owner', at);
    return founder.personId;
  }
  const added = await addPerson(trx, householdId, 'owner', founder, at);
  if (!added.ok) throw new NameTakenMeanwhile();
  return added.value.personId;
}

/** The household that a form of this person set up already; null where it is sent for the first time. */
export async function madeUnder(
  trx: Database | Writing,
  asker: string,
  key: string,
): Promise<HouseholdId | null> {
  const row = await trx
    .selectFrom('household_setup')
    .select('household_id')
    .where('asker', '=', asker)
    .where('key', '=', key)
    .executeTakeFirst();
  return row === undefined ? null : (row.household_id as HouseholdId);
}

const insert = (trx: Writing, id: HouseholdId, household: NewHousehold, at: number) =>
  trx
    .insertInto('household')
    .values({
      id,
      name: household.name,
      people: household.people,
      time_zone: household.timeZone,
      units: household.units,
      week_starts_on: household.weekStartsOn,
      ...(household.locale === undefined ? {} : { locale: household.locale }),
      ...(household.currency === undefined ? {} : { currency: household.currency }),
      region: household.region,
      created_at: at,
    })
    .execute();
