import { existsSync } from 'node:fs';
import { z } from 'zod';
import { optionalTextField, textField } from '../../shared/schemas/form-fields.ts';
import { usualKeyFile } from '../access/seed-keys.ts';
import { backUpFile } from '../database/backup.ts';
import { readSettings } from '../settings.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const schema = z.object({
  FILE: textField('FILE', 1000),
  database: optionalTextField('--database', 1000),
});

/** Copies the household's file, in use or not. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, { database: { type: 'string' } }, schema, ['FILE']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const settings = readSettings(process.env, process.cwd());
  if (!settings.ok) return complain(settings.problems, notUnderstood);
  const backedUp = await backUpFile(file.value, options.value.FILE);
  if (!backedUp.ok) return complain(backedUp.problems, couldNot);
  const { keyFile } = settings.value;
  console.log(`${backedUp.value.backup} holds everything up to now; keep its .sha256 file with it.`);
  const key = keyFile || usualKeyFile(file.value);
  if (existsSync(key))
    console.log(`Second factors open only with the key in ${key}. Keep a copy of it too, somewhere else.`);
  return done;
}
