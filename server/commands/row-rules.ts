import { z } from 'zod';
import { optionalTextField, textField } from '../../shared/schemas/form-fields.ts';
import { holdApart, loginOf } from '../database/apart/row-rules.ts';
import { openDatabase } from '../database/database.ts';
import { isAddress, shownPlace } from '../database/place.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const given = { database: { type: 'string' } } as const;

const schema = z.object({
  LOGIN: textField('LOGIN', 63),
  database: optionalTextField('--database', 1000),
});

/** Lets a PostgreSQL server hold households apart by itself for whoever signs in there as LOGIN; run as the owner of the tables. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema, ['LOGIN']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { LOGIN: login, database } = options.value;
  const place = databaseFile(database);
  if (!place.ok) return complain(place.problems, notUnderstood);
  if (!isAddress(place.value)) {
    console.error(
      `${place.value} is a file, and rules about rows are for a PostgreSQL database. Name one with --database.`,
    );
    return couldNot;
  }
  const db = await openDatabase(place.value);
  try {
    const standing = await loginOf(db, login);
    if (standing !== 'fit') {
      console.error(
        standing === 'unknown'
          ? `The server knows nobody called “${login}”. Make that user first: createuser ${login}`
          : `“${login}” owns the tables or is a superuser, and no rule holds for those. Make another user for the program: createuser shelfward_web`,
      );
      return couldNot;
    }
    const tables = await holdApart(db, login);
    console.log(
      `The server holds households apart by itself in ${tables} tables of ${shownPlace(place.value)}. From now on start the program as ${login}; bring it up to date as the owner of the tables, with migrate.`,
    );
    return done;
  } finally {
    await db.destroy();
  }
}
