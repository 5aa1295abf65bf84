import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { optionalTextField } from '../../shared/schemas/form-fields.ts';
import { openDatabase } from '../database/database.ts';
import { appliedSteps } from '../database/migrate.ts';
import { shownPlace } from '../database/place.ts';
import { complain, databaseFile, done, notUnderstood, readOptions } from './options.ts';

/** Brings the schema of a file or a database up to date, so that what is started afterwards finds it so. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(
    args,
    { database: { type: 'string' } },
    z.object({ database: optionalTextField('--database', 1000) }),
  );
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const db = await openDatabase(file.value);
  try {
    const steps = await appliedSteps(db);
    console.log(`${shownPlace(file.value)} is up to date: ${counted(steps.length, 'step')}.`);
    return done;
  } finally {
    await db.destroy();
  }
}
