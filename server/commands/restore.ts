import { z } from 'zod';
import { counted } from '../../shared/counting.ts';
import { optionalTextField, textField, tickField } from '../../shared/schemas/form-fields.ts';
import { wallClock } from '../clock.ts';
import { restore } from '../database/restore.ts';
import { stampOf } from '../database/rotation.ts';
import { complain, couldNot, databaseFile, done, notUnderstood, readOptions } from './options.ts';

const given = { database: { type: 'string' }, 'without-checksum': { type: 'boolean' } } as const;

const schema = z.object({
  FILE: textField('FILE', 1000),
  database: optionalTextField('--database', 1000),
  'without-checksum': tickField(),
});

/** Checks a backup and puts it in the place of the household's file, which is kept. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema, ['FILE']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const file = databaseFile(options.value.database);
  if (!file.ok) return complain(file.problems, notUnderstood);
  const restored = await restore({
    backup: options.value.FILE,
    file: file.value,
    withoutChecksum: options.value['without-checksum'],
    stamp: stampOf(wallClock()),
  });
  if (!restored.ok) return complain(restored.problems, couldNot);
  const { keptAs, households, events } = restored.value;
  console.log(`Restored: ${counted(households, 'household')}, ${counted(events, 'event')} of jars.`);
  if (keptAs !== null) console.log(`The file that was there is kept as ${keptAs}.`);
  return done;
}
