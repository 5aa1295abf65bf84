import { found, type Outcome } from '../../shared/problems.ts';
import type { Database } from '../database/database.ts';
import { refuse } from './members.ts';
import { personNamed } from './people.ts';
import type { Person } from './sign-ins.ts';

/**
 * Whether somebody may begin a further household: on this machine alone whoever sits there, for others an owner of one that
 * is there, or somebody the operator allowed.
 */
export async function mayBegin(
  db: Database,
  person: Person | null,
  beyondLoopback: boolean,
): Promise<boolean> {
  if (!beyondLoopback) return true;
  if (person === null) return false;
  if ([...person.roleIn.values()].includes('owner')) return true;
  const allowed = await db
    .selectFrom('begin_permission')
    .select('person_id')
    .where('person_id', '=', person.id)
    .executeTakeFirst();
  return allowed !== undefined;
}

/** The operator lets somebody begin a household of the own, or no longer. */
export async function allowToBegin(
  db: Database,
  name: string,
  allowed: boolean,
  now: number,
): Promise<Outcome<{ readonly personId: string }>> {
  const person = await personNamed(db, name);
  if (!person)
    return refuse('person-unknown', 'name', `Nobody here is called “${name}”. Look at the spelling.`);
  await db.deleteFrom('begin_permission').where('person_id', '=', person.id).execute();
  if (allowed)
    await db.insertInto('begin_permission').values({ person_id: person.id, allowed_at: now }).execute();
  return found({ personId: person.id });
}
