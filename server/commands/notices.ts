import { z } from 'zod';
import { formatDate } from '../../views/words/format.ts';
import { readingOf } from '../../views/words/reading.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { yearPicture } from '../year/year-picture.ts';
import {
  complain,
  done,
  notUnderstood,
  readOptions,
  usualFields,
  usualOptions,
  withHousehold,
} from './options.ts';

const schema = z.object({
  ...usualFields,
});

/** Prints what needs attention, the most pressing first. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, usualOptions, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { demo, json, database, 'as-of': asOf } = options.value;
  return withHousehold({ demo, asOf, database }, async ({ db, household, today }) => {
    const reading = readingOf(household, today);
    const { notices } = await yearPicture(db, household.id, today, loadReferenceTables());
    if (json) console.log(JSON.stringify({ asOf: today, notices }, null, 1));
    else if (notices.length === 0) console.log(`Nothing needs attention on ${formatDate(today, reading)}.`);
    else
      for (const { reason, dueOn } of notices)
        console.log(`${(dueOn === null ? 'now' : formatDate(dueOn, reading)).padEnd(12)}  ${reason}`);
    return done;
  });
}
