import type { Database, Writing } from '../database/database.ts';

/** What names of people are told apart by: “Élodie” and “ÉLODIE” are one. */
export const nameKey = (name: string): string => name.normalize('NFC').toLowerCase();

export interface NamedPerson {
  readonly id: string;
  readonly passphrase_hash: string;
}

/**
 * Who signs in with this name, however it is written; null for nobody. Two whose names differ only so, from before that was
 * looked at, are each known by their own letters.
 */
export async function personNamed(db: Database | Writing, name: string): Promise<NamedPerson | null> {
  const found = await db
    .selectFrom('person')
    .select(['id', 'passphrase_hash', 'name_key'])
    .where('name_key', 'in', [nameKey(name), name])
    .execute();
  return found.find((person) => person.name_key === name) ?? found[0] ?? null;
}
