import type { Database } from '../../server/database/database.ts';

/** As if somebody at the address that was named had opened the link of its letter. */
export async function confirmWithoutLetter(db: Database): Promise<void> {
  await db.deleteFrom('mail_confirmation').execute();
  await db.deleteFrom('household_token').where('opens', '=', 'mail address').execute();
  await db.updateTable('mail_wish').set({ confirmed_at: 0 }).execute();
}
