import { readdir } from 'node:fs/promises';
import { type Kysely, type Migration, type MigrationProvider, Migrator, sql } from 'kysely';
import { ShelfwardError } from '../../shared/problems.ts';
import { moduleAt, moduleEnd, moduleFolder } from '../program.ts';
import type { Database } from './handle.ts';

/** A step, brought in only where it has to run. */
const step = (path: string): Migration => {
  const load = (): Promise<Migration> => import(moduleAt(`migrations/${path}`).href);
  return { up: async (db) => (await load()).up(db) };
};

/** Reads the steps of migrations/ in the order of their names. */
export const stepsInFolder: MigrationProvider = {
  async getMigrations() {
    const files = (await readdir(moduleFolder('migrations')))
      .filter((file) => file.endsWith(moduleEnd))
      .sort();
    return Object.fromEntries(
      files.map((file) => file.slice(0, -moduleEnd.length)).map((name) => [name, step(name)]),
    );
  },
};

/** The step that a database of PostgreSQL begins with; those before it are of files alone. */
const firstForPostgres = '2027-01-23-begin-in-postgres';

/** The steps of a PostgreSQL database: the whole schema as it was then, and what came since. */
export const stepsForPostgres: MigrationProvider = {
  async getMigrations() {
    const later = Object.entries(await stepsInFolder.getMigrations()).filter(
      ([name]) => name > firstForPostgres,
    );
    return { [firstForPostgres]: step('postgres/begin'), ...Object.fromEntries(later) };
  },
};

/** Names of the steps this file has not seen, in order. */
export async function missingSteps<Schema>(
  db: Kysely<Schema>,
  provider: MigrationProvider = stepsInFolder,
): Promise<readonly string[]> {
  const steps = await new Migrator({ db, provider }).getMigrations();
  return steps.filter((step) => step.executedAt === undefined).map((step) => step.name);
}

/** Brings the schema to the newest step; all missing steps run in one transaction, so a broken one changes nothing. */
export async function migrateToLatest<Schema>(
  db: Kysely<Schema>,
  provider: MigrationProvider = stepsInFolder,
): Promise<readonly string[]> {
  const { error, results } = await new Migrator({ db, provider }).migrateToLatest();
  const failed = results?.find((result) => result.status === 'Error');
  if (error !== undefined) {
    throw new ShelfwardError(
      'migration-failed',
      `migrateToLatest: ${failed ? `step ${failed.migrationName} failed` : 'the steps could not be read'}: ${error instanceof Error ? error.message : String(error)}`,
      { cause: error },
    );
  }
  return (results ?? [])
    .filter((result) => result.status === 'Success')
    .map((result) => result.migrationName);
}

/** Names of the steps this database has seen, in order. */
export async function appliedSteps(db: Database): Promise<readonly string[]> {
  const { rows } = await sql<{ name: string }>`SELECT name FROM kysely_migration ORDER BY name`.execute(db);
  return rows.map(({ name }) => name);
}
