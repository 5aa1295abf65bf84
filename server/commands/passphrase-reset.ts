import { z } from 'zod';
import { operatorAddress, operatorName } from '../../shared/schemas/account.ts';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import { linkPages, linkTo } from '../access/links.ts';
import { offerReset } from '../access/passphrase-change.ts';
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
 * Every sign-in of the person ends at once. A second factor is asked for beside the link; where that is lost, and only when told so,
 * a code of its own takes its place.
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
    const offered = await offerReset(db, { name, withoutFactor }, at);
    if (!offered.ok) return complain(offered.problems, couldNot);
    const { token, personId, secondCode } = offered.value;
    const event = { at, personId, householdId: null, address: 'operator', device: 'command line' } as const;
    await keepSecurityEvent(db, { ...event, kind: 'reset-offered' });
    const where = address === '' ? `http://127.0.0.1:${usualPort}` : address.replace(/\/+$/, '');
    console.log(linkTo(where, linkPages.reset, token));
    console.log(`Give this link to ${name} in a way you trust. It works once, within an hour.`);
    if (secondCode !== null) {
      console.log(secondCode);
      console.log(
        'Give this code separately from the link, best by word of mouth: the two together set the passphrase and end the second factor.',
      );
    }
    return done;
  } finally {
    await db.destroy();
  }
}
