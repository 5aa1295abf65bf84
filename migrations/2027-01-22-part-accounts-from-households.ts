import { createHash } from 'node:crypto';
import { type Kysely, sql } from 'kysely';

/** A table made anew with other words in its schema; what stands in it and its indexes stay. */
async function remake(
  db: Kysely<unknown>,
  table: string,
  changes: readonly (readonly [from: string, to: string])[],
  filled: { readonly columns?: string; readonly values?: string } = {},
): Promise<() => Promise<void>> {
  const { rows } = await sql<{ type: string; text: string }>`
    SELECT type, sql AS text FROM sqlite_master WHERE tbl_name = ${table} AND sql IS NOT NULL`.execute(db);
  const columns = await sql<{ name: string }>`SELECT name FROM pragma_table_info(${table})`.execute(db);
  const names = columns.rows.map(({ name }) => name).join(', ');
  let created = rows.find(({ type }) => type === 'table')?.text ?? '';
  for (const [from, to] of [
    [`CREATE TABLE ${table} (`, `CREATE TABLE ${table}_parted (`],
    ...changes,
  ] as const) {
    if (!created.includes(from)) throw new Error(`the schema of ${table} lacks “${from}”`);
    created = created.replace(from, to);
  }
  await sql.raw(created).execute(db);
  await sql
    .raw(
      `INSERT INTO ${table}_parted (${names}${filled.columns ?? ''}) SELECT ${names}${filled.values ?? ''} FROM ${table}`,
    )
    .execute(db);
  const numbers = await sql<{ seq: number }>`SELECT seq FROM sqlite_sequence WHERE name = ${table}`.execute(
    db,
  );
  return async () => {
    await sql.raw(`DROP TABLE ${table}`).execute(db);
    await sql.raw(`ALTER TABLE ${table}_parted RENAME TO ${table}`).execute(db);
    for (const { type, text } of rows) if (type !== 'table') await sql.raw(text).execute(db);
    for (const { seq } of numbers.rows)
      await sql`UPDATE sqlite_sequence SET seq = ${seq} WHERE name = ${table}`.execute(db);
  };
}

const ofPerson = [['REFERENCES person (id)', 'REFERENCES person_parted (id)']] as const;

// What belongs to accounts and what belongs to a household stand apart: a household's rows point at no person, and which
// household a secret is of is asked of one table. Names of people are told apart by a folded one of their own.
export async function up(db: Kysely<unknown>): Promise<void> {
  // Nothing may still point at a table when it goes: those that do are made anew first, and all take their names at the end.
  const person = await remake(
    db,
    'person',
    [
      ['name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK', 'name TEXT NOT NULL CHECK'],
      [', factor_due_at INTEGER)', ', factor_due_at INTEGER, name_key TEXT NOT NULL UNIQUE)'],
    ],
    { columns: ', name_key', values: ', id' },
  );
  const secondFactor = await remake(db, 'second_factor', ofPerson);
  const tables = [
    await remake(db, 'recovery_code', [
      ['REFERENCES second_factor (person_id)', 'REFERENCES second_factor_parted (person_id)'],
    ]),
    secondFactor,
    await remake(db, 'sign_in', ofPerson),
    await remake(db, 'half_sign_in', ofPerson),
    await remake(db, 'passphrase_reset', ofPerson),
    await remake(db, 'begin_permission', ofPerson),
    await remake(db, 'security_event', ofPerson),
    await remake(db, 'membership', [
      ['person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE', 'person_id TEXT NOT NULL'],
    ]),
    await remake(db, 'connected_thing', [
      ['made_by TEXT REFERENCES person (id) ON DELETE CASCADE', 'made_by TEXT'],
      ['token_hash TEXT NOT NULL UNIQUE', 'token_hash TEXT NOT NULL'],
    ]),
    person,
    await remake(db, 'invitation', [['token_hash TEXT NOT NULL UNIQUE', 'token_hash TEXT NOT NULL']]),
    await remake(db, 'mail_confirmation', [['token_hash TEXT UNIQUE', 'token_hash TEXT']]),
    await remake(db, 'calendar_feed', [['token TEXT NOT NULL UNIQUE CHECK', 'token TEXT NOT NULL CHECK']]),
  ];
  for (const takeName of tables) await takeName();

  // Names that were two so far, as “Zoë” and “ZOË”, stay two: one is known by the folded name, the other by its own letters.
  const people = await sql<{
    id: string;
    name: string;
  }>`SELECT id, name FROM person ORDER BY created_at, id`.execute(db);
  const fold = (name: string): string => name.normalize('NFC').toLowerCase();
  const taken = new Set(people.rows.map(({ name }) => name).filter((name) => name === fold(name)));
  for (const { id, name } of people.rows) {
    const key = taken.has(fold(name)) ? name : fold(name);
    taken.add(key);
    await sql`UPDATE person SET name_key = ${key} WHERE id = ${id}`.execute(db);
  }

  await sql`CREATE TABLE household_token (
    token_hash TEXT NOT NULL PRIMARY KEY,
    household_id TEXT NOT NULL REFERENCES household (id) ON DELETE CASCADE,
    opens TEXT NOT NULL CHECK (opens IN ('invitation', 'calendar', 'interface', 'mail address'))
  ) STRICT`.execute(db);
  await sql`CREATE INDEX household_token_of_household ON household_token (household_id, opens)`.execute(db);
  await sql`INSERT INTO household_token (token_hash, household_id, opens)
    SELECT token_hash, household_id, 'invitation' FROM invitation
    UNION ALL SELECT token_hash, household_id, 'interface' FROM connected_thing
    UNION ALL SELECT token_hash, household_id, 'mail address' FROM mail_confirmation WHERE token_hash IS NOT NULL`.execute(
    db,
  );
  const feeds = await sql<{
    household_id: string;
    token: string;
  }>`SELECT household_id, token FROM calendar_feed`.execute(db);
  for (const { household_id, token } of feeds.rows) {
    const hash = createHash('sha256').update(token).digest('hex');
    await sql`INSERT INTO household_token (token_hash, household_id, opens) VALUES (${hash}, ${household_id}, 'calendar')`.execute(
      db,
    );
  }
}
