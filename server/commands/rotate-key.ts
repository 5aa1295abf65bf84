import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import { sealSeeds } from '../access/second-factor.ts';
import { addSeedKey, forgetOldSeedKeys, readSeedKeys, usualKeyFile } from '../access/seed-keys.ts';
import { openDatabase } from '../database/database.ts';
import { lockForServing } from '../database/serving-lock.ts';
import { readSettings } from '../settings.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const given = { 'forget-old': { type: 'boolean' }, database: { type: 'string' } } as const;

const schema = z.object({
  'forget-old': tickField(),
  database: optionalTextField('--database', 1000),
});

/**
 * Seals every second factor with a new key. The key file holds both keys until all is sealed anew, so that a power cut in
 * between loses nothing; the old ones stay for the sake of backups, unless told otherwise.
 */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  const settings = readSettings(process.env, process.cwd());
  if (!file.ok) return complain(file.problems, notUnderstood);
  if (!settings.ok) return complain(settings.problems, notUnderstood);
  // A server that runs knows the keys from before only.
  const lock = lockForServing(file.value);
  if (!lock.ok) return complain(lock.problems, couldNot);
  const db = await openDatabase(file.value);
  try {
    const keyFile = settings.value.keyFile || usualKeyFile(file.value);
    readSeedKeys(keyFile, { make: settings.value.keyFile === '' });
    const { sealed, lost } = await sealSeeds({ db, seedKeys: addSeedKey(keyFile) });
    console.log(
      `${counted(sealed, 'second factor is', 'second factors are')} sealed with a new key in ${keyFile}.`,
    );
    if (lost.length > 0)
      console.error(
        `No key there opens the second factor of ${lost.join(', ')}: they sign in with a recovery code, or passphrase-reset NAME --without-second-factor helps.`,
      );
    if (options.value['forget-old'] && lost.length === 0) {
      forgetOldSeedKeys(keyFile);
      console.log('The old keys are gone: second factors in earlier backups no longer open.');
    } else console.log('It keeps the old keys for earlier backups; --forget-old removes them.');
    return done;
  } finally {
    await db.destroy();
    lock.value.release();
  }
}
