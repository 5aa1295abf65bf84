import { z } from 'zod';
import { operatorName } from '../../shared/schemas/account.ts';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import { allowToBegin } from '../access/begin-permission.ts';
import { wallClock } from '../clock.ts';
import { openDatabase } from '../database/database.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const given = { 'no-longer': { type: 'boolean' }, database: { type: 'string' } } as const;

const schema = z.object({
  NAME: operatorName,
  'no-longer': tickField(),
  database: optionalTextField('--database', 1000),
});

/** Lets somebody who owns no household begin one, where others reach the program. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema, ['NAME']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { NAME: name, 'no-longer': noLonger, database } = options.value;
  const file = databaseFile(database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const db = await openDatabase(file.value);
  try {
    const told = await allowToBegin(db, name, !noLonger, wallClock());
    if (!told.ok) return complain(told.problems, couldNot);
    console.log(
      noLonger ? `${name} can no longer set up a household.` : `${name} can set up a household now.`,
    );
    return done;
  } finally {
    await db.destroy();
  }
}
