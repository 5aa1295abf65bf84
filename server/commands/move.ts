import { existsSync } from 'node:fs';
import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { textField } from '../../shared/schemas/form-fields.ts';
import { usualKeyFile } from '../access/seed-keys.ts';
import { move } from '../database/move.ts';
import { isAddress, shownPlace } from '../database/place.ts';
import { readSettings } from '../settings.ts';
import { complain, couldNot, done, notUnderstood, readOptions } from './options.ts';

const given = { from: { type: 'string' }, to: { type: 'string' } } as const;

const schema = z.object({ from: textField('--from', 1000), to: textField('--to', 1000) });

/** Moves everything a file holds into a PostgreSQL database, or everything such a database holds into a new file. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { from, to } = options.value;
  const settings = readSettings(process.env, process.cwd());
  if (!settings.ok) return complain(settings.problems, notUnderstood);
  const moved = await move({ from, to });
  if (!moved.ok) return complain(moved.problems, couldNot);
  const tables = moved.value;
  const filled = tables.filter(({ rows }) => rows > 0);
  for (const { name, rows, digest } of filled)
    console.log(`${name.replaceAll('_', ' ').padEnd(28)}${String(rows).padStart(9)}  ${digest.slice(0, 16)}`);
  const rows = filled.reduce((sum, table) => sum + table.rows, 0);
  console.log(
    `Moved ${counted(rows, 'row')} of ${counted(filled.length, 'table')} into ${shownPlace(to)}; each table was read again there and is the same. ${counted(tables.length - filled.length, 'table is', 'tables are')} empty.`,
  );
  console.log(
    `${shownPlace(from)} is as it was. From now on start with ${isAddress(to) ? 'SHELFWARD_DATABASE set to that address' : `--database ${to}`}, and leave the other alone.`,
  );
  const key = settings.value.keyFile === '' ? usualKeyFile(from) : '';
  if (key !== '' && existsSync(key))
    console.log(
      `Second factors open only with the key in ${key}: before you start, copy it to ${usualKeyFile(to)}.`,
    );
  return done;
}
