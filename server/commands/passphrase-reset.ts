import { z } from 'zod';
import { operatorAddress, operatorName } from '../../shared/schemas/account.ts';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import { offerReset } from '../access/passphrase-change.ts';
import { endSecondFactor } from '../access/second-factor.ts';
import { keepSecurityEvent } from '../access/security-events.ts';
import { wallClock } from '../clock.ts';
import { openDatabase } from '../database/database.ts';
import { usualPort } from '../settings.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const given = {
  address: { type: 'string' },
  'without-second-factor': { type: 'boolean' },
  database: { type: 'string' },
} as const;

const schema = z.object({
  NAME: operatorName,
  address: operatorAddress,
  'without-second-factor': tickField(),
  database: optionalTextField('--database', 1000),
});

/**
 * A link to a new passphrase for somebody who forgot it, an only owner too. Whoever can run this can read the file anyway.
 * Every sign-in of the person ends at once; a second factor goes only when told so.
 */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema, ['NAME']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { NAME: name, address, 'without-second-factor': withoutFactor, database } = options.value;
  const file = databaseFile(database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const db = await openDatabase(file.value);
  try {
    const at = wallClock();
    const offered = await offerReset(db, name, at);
    if (!offered.ok) return complain(offered.problems, couldNot);
    const { token, personId } = offered.value;
    const event = { at, personId, householdId: null, address: 'operator', device: 'command line' } as const;
    await keepSecurityEvent(db, { ...event, kind: 'reset-offered' });
    if (withoutFactor) {
      await endSecondFactor(db, personId);
      await keepSecurityEvent(db, { ...event, kind: 'second-factor-off' });
    }
    const where = address === '' ? `http://127.0.0.1:${usualPort}` : address.replace(/\/+$/, '');
    console.log(`${where}/passphrase/${token}`);
    console.log(`Give this link to ${name} by a way you trust. It works once, within an hour.`);
    if (withoutFactor) console.log('No second factor is asked for any more.');
    return done;
  } finally {
    await db.destroy();
  }
}
