import { readdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { type Kysely, type Migration, type MigrationProvider, Migrator } from 'kysely';
import { ShelfwardError } from '../../shared/problems.ts';

const folder = new URL('../../migrations/', import.meta.url);

/** Reads the steps of migrations/ in the order of their names. */
export const stepsInFolder: MigrationProvider = {
  async getMigrations() {
    const files = (await readdir(fileURLToPath(folder))).filter((file) => file.endsWith('.ts')).sort();
    const steps: Record<string, Migration> = {};
    for (const file of files) {
      steps[file.replace(/\.ts$/, '')] = (await import(new URL(file, folder).href)) as Migration;
    }
    return steps;
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
    const begin = (await import(new URL('postgres/begin.ts', folder).href)) as Migration;
    return { [firstForPostgres]: begin, ...Object.fromEntries(later) };
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
