import { sql } from 'kysely';
import type { SchemaTable } from '../engine.ts';
import { engineOf } from '../engine-of.ts';
import type { Database } from '../handle.ts';
import { householdSetting, roles } from './roles.ts';

// Rules by which a PostgreSQL server holds households apart by itself, whatever a statement says: a second wall behind the
// `where household_id = …` of each. Only the owner of the tables, who brings the schema up to date, stands outside of them.

/** Tables of households that say who may come in; among them a household is found. */
const ofAccounts: ReadonlySet<string> = new Set([
  'household',
  'membership',
  'household_token',
  'household_setup',
  'household_deletion',
  'factor_requirement',
  'invitation',
  'security_event',
  'connected_thing',
  // By what a link or an address opens.
  'calendar_feed',
  'mail_confirmation',
  // A form that sets a household up, sent again.
  'idempotency',
]);

const isOfHouseholds = ({ name, columns }: SchemaTable): boolean =>
  name === 'household' || columns.includes('household_id');

/** Whether this connection is of somebody whom the rules hold apart. */
export async function isHeldApart(db: Database): Promise<boolean> {
  const { rows } = await sql<{ apart: boolean }>`
    SELECT c.relrowsecurity AND NOT pg_has_role(current_user, c.relowner, 'usage')
      AND pg_has_role(current_user, r.oid, 'member') AS apart
    FROM pg_class AS c JOIN pg_roles AS r ON r.rolname = ${roles.household}
    WHERE c.relname = 'household' AND c.relnamespace = current_schema()::regnamespace`.execute(db);
  return rows[0]?.apart ?? false;
}

/** Whether the rules were made in this database. */
export async function hasRowRules(db: Database): Promise<boolean> {
  const { rows } =
    await sql`SELECT 1 FROM pg_policies WHERE schemaname = current_schema() AND tablename = 'household'`.execute(
      db,
    );
  return rows.length > 0;
}

/** Makes the rules anew, for every table there is by now: as its owner, in one transaction. The roles are there. */
export const makeRowRules = (db: Database): Promise<void> =>
  db.transaction().execute(async (trx) => {
    const tables = await engineOf(trx).tables(trx);
    const run = (statement: string) => sql.raw(statement).execute(trx);
    const all = Object.values(roles).join(', ');
    const { rows } = await sql<{ name: string }>`SELECT current_schema() AS name`.execute(trx);
    await sql`GRANT USAGE ON SCHEMA ${sql.id(rows[0]?.name ?? 'public')} TO ${sql.raw(all)}`.execute(trx);
    const stands = await whatStands(trx);
    for (const table of tables) {
      const { name } = table;
      await run(`REVOKE ALL ON "${name}" FROM ${all}`);
      const update = stands.has(`${name}_no_update`) ? '' : ', UPDATE';
      // What is only ever added goes with its household, or when the household is put in its place again.
      await run(`GRANT SELECT, INSERT, DELETE${update} ON "${name}" TO ${roles.everybody}`);
      const remove = stands.has(`${name}_no_delete`) ? '' : ', DELETE';
      await run(`GRANT SELECT, INSERT${update}${remove} ON "${name}" TO ${roles.household}`);
      if (!isOfHouseholds(table) || ofAccounts.has(name))
        await run(`GRANT SELECT, INSERT, UPDATE, DELETE ON "${name}" TO ${roles.accounts}`);
      if (isOfHouseholds(table)) await rule(run, table);
    }
    for (const table of ['kysely_migration', 'kysely_migration_lock'])
      await run(`GRANT SELECT ON "${table}" TO ${roles.everybody}`);
  });

/** Names of the rules by which rows of a table are neither changed nor deleted. */
async function whatStands(db: Database): Promise<ReadonlySet<string>> {
  const { rows } = await sql<{ name: string }>`
    SELECT t.tgname AS name FROM pg_trigger AS t JOIN pg_class AS c ON c.oid = t.tgrelid
    WHERE c.relnamespace = current_schema()::regnamespace AND NOT t.tgisinternal`.execute(db);
  return new Set(rows.map(({ name }) => name));
}

async function rule(run: (statement: string) => Promise<unknown>, { name }: SchemaTable): Promise<void> {
  const own = `"${name === 'household' ? 'id' : 'household_id'}" = current_setting('${householdSetting}', true)`;
  await run(`ALTER TABLE "${name}" ENABLE ROW LEVEL SECURITY`);
  for (const policy of ['of_one_household', 'of_all'])
    await run(`DROP POLICY IF EXISTS ${policy} ON "${name}"`);
  await run(
    `CREATE POLICY of_one_household ON "${name}" TO ${roles.household} USING (${own}) WITH CHECK (${own})`,
  );
  const seesAll = ofAccounts.has(name) ? `${roles.everybody}, ${roles.accounts}` : roles.everybody;
  await run(`CREATE POLICY of_all ON "${name}" TO ${seesAll} USING (true) WITH CHECK (true)`);
}

/**
 * Makes the three roles where they are missing, lets `login` act as each of them and as nothing else, and makes the rules. Answers of
 * how many tables.
 */
export async function holdApart(db: Database, login: string): Promise<number> {
  for (const role of Object.values(roles)) {
    const { rows } = await sql`SELECT 1 FROM pg_roles WHERE rolname = ${role}`.execute(db);
    if (rows.length === 0) await sql.raw(`CREATE ROLE ${role} NOLOGIN`).execute(db);
  }
  // What it may do it has to say first, by becoming one of them.
  await sql`ALTER ROLE ${sql.id(login)} NOINHERIT`.execute(db);
  for (const role of Object.values(roles)) await sql`GRANT ${sql.raw(role)} TO ${sql.id(login)}`.execute(db);
  await makeRowRules(db);
  return (await engineOf(db).tables(db)).filter(isOfHouseholds).length;
}

/** Whether rules would hold for somebody of that name. */
export async function loginOf(db: Database, login: string): Promise<'fit' | 'unknown' | 'above the rules'> {
  const { rows } = await sql<{ above: boolean }>`
    SELECT r.rolsuper OR r.rolbypassrls OR pg_has_role(r.oid, c.relowner, 'member') AS above FROM pg_roles AS r, pg_class AS c
    WHERE r.rolname = ${login} AND c.relname = 'household' AND c.relnamespace = current_schema()::regnamespace`.execute(
    db,
  );
  const [found] = rows;
  return found === undefined ? 'unknown' : found.above ? 'above the rules' : 'fit';
}
