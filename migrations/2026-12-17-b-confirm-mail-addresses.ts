import { type Kysely, sql } from 'kysely';

// Letters go to an address only once somebody there said so by a link. An address that letters of the household, trials aside,
// have reached before counts as confirmed; any other is asked.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`ALTER TABLE mail_wish ADD COLUMN confirmed_at INTEGER`.execute(db);
  await sql`UPDATE mail_wish SET confirmed_at = (
    SELECT min(letter.sent_at) FROM letter
    WHERE letter.household_id = mail_wish.household_id AND letter.recipient = mail_wish.address
      AND letter.sent_at IS NOT NULL AND letter.about NOT LIKE 'trial %')`.execute(db);

  await sql`CREATE TABLE mail_confirmation (
    household_id TEXT NOT NULL PRIMARY KEY REFERENCES household (id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    address TEXT NOT NULL CHECK (length(address) BETWEEN 3 AND 254),
    token_hash TEXT UNIQUE,
    expires_at INTEGER
  ) STRICT`.execute(db);
  await sql`INSERT INTO mail_confirmation (household_id, id, address)
    SELECT household_id, 'first', address FROM mail_wish WHERE confirmed_at IS NULL`.execute(db);
}
