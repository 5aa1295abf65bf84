import { type Kysely, sql } from 'kysely';

const numbered = [
  'recipe_way',
  'load_clock_event',
  'lot_standing_event',
  'stage_event',
  'store_event',
  'material_event',
  'empty_jar_event',
  'jar_event',
] as const;

/** The table as it was, its key led by the household. */
function ledByHousehold(table: string, created: string): string {
  const own = created
    .replace(`CREATE TABLE ${table} (`, `CREATE TABLE ${table}_numbered (`)
    .replace('seq INTEGER PRIMARY KEY AUTOINCREMENT', 'seq INTEGER NOT NULL')
    .replace('reverses_seq INTEGER UNIQUE REFERENCES jar_event (seq)', 'reverses_seq INTEGER');
  const keys = [
    'PRIMARY KEY (household_id, seq)',
    ...(table === 'jar_event'
      ? [
          'UNIQUE (household_id, reverses_seq)',
          'FOREIGN KEY (household_id, reverses_seq) REFERENCES jar_event_numbered (household_id, seq)',
        ]
      : []),
  ];
  // Rules of the table stand after its columns, wherever a column was added since.
  return own.replace(/\)\s*STRICT$/, `,\n    ${keys.join(',\n    ')}\n  ) STRICT`);
}

// What is written down in order is numbered household by household: 1, 2, 3 in the order of before. The household leads
// these keys like all others.
export async function up(db: Kysely<unknown>): Promise<void> {
  for (const table of numbered) {
    const { rows } = await sql<{ type: string; text: string }>`
      SELECT type, sql AS text FROM sqlite_master WHERE tbl_name = ${table} AND sql IS NOT NULL ORDER BY type, name`.execute(
      db,
    );
    const columns = await sql<{ name: string }>`SELECT name FROM pragma_table_info(${table})`.execute(db);
    const names = columns.rows.map(({ name }) => name).filter((name) => name !== 'seq');
    const created = rows.find(({ type }) => type === 'table')?.text ?? '';
    await sql.raw(ledByHousehold(table, created)).execute(db);
    const order = 'row_number() OVER (PARTITION BY household_id ORDER BY seq)';
    await sql
      .raw(
        table === 'jar_event'
          ? `INSERT INTO jar_event_numbered (seq, ${names.join(', ')})
      WITH place AS (SELECT seq, ${order} AS number FROM jar_event)
      SELECT own.number, ${names.map((name) => (name === 'reverses_seq' ? 'undone.number' : `event.${name}`)).join(', ')}
      FROM jar_event AS event JOIN place AS own ON own.seq = event.seq
      LEFT JOIN place AS undone ON undone.seq = event.reverses_seq ORDER BY event.seq`
          : `INSERT INTO ${table}_numbered (seq, ${names.join(', ')})
      SELECT ${order}, ${names.join(', ')} FROM ${table} ORDER BY seq`,
      )
      .execute(db);
    await sql.raw(`DROP TABLE ${table}`).execute(db);
    await sql.raw(`ALTER TABLE ${table}_numbered RENAME TO ${table}`).execute(db);
    for (const { type, text } of rows) if (type !== 'table') await sql.raw(text).execute(db);
  }
}
