import { parseArgs } from 'node:util';
import type { z } from 'zod';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';
import {
  optionalDateField,
  optionalTextField,
  readForm,
  tickField,
} from '../../shared/schemas/form-fields.ts';
import { type CalendarDate, firstYear, lastYear } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { type Moment, momentIn, wallClock } from '../clock.ts';
import { type Database, openDatabase } from '../database/database.ts';
import { shownPlace } from '../database/place.ts';
import { makeDemoHousehold } from '../demo/make-demo.ts';
import { firstHousehold, householdById } from '../queries/household/household.ts';
import { readSettings } from '../settings.ts';
import { couldNot, done, notUnderstood } from './exit-codes.ts';

export { couldNot, done, notUnderstood };

type Given = Readonly<Record<string, { readonly type: 'string' | 'boolean' }>>;

/** Reads `--name value` options through a schema; what is not known, or not as expected, is refused with what is. */
export function readOptions<Schema extends z.ZodType>(
  args: readonly string[],
  given: Given,
  schema: Schema,
  positionals: readonly string[] = [],
): Outcome<z.output<Schema>> {
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({ args: [...args], options: given, allowPositionals: true, strict: true });
  } catch (cause) {
    const known = Object.keys(given).map((name) => `--${name}`);
    const reason = cause instanceof Error ? cause.message.split('.')[0] : String(cause);
    return refused({
      code: 'option-unknown',
      path: [],
      message: `The options are ${known.join(', ')}; ${reason}. Look at the spelling.`,
    });
  }
  if (parsed.positionals.length > positionals.length) {
    return refused({
      code: 'argument-unexpected',
      path: [],
      message: `“${parsed.positionals.join(' ')}” is not what goes beside the options, which is ${positionals.length === 0 ? 'nothing' : positionals.join(' ')}. Put a name of several words in quotes.`,
    });
  }
  const named = Object.fromEntries(positionals.map((name, at) => [name, parsed.positionals[at]]));
  return readForm(schema, { ...named, ...parsed.values });
}

export function complain(problems: readonly Problem[], exitCode: number): number {
  for (const { message } of problems) console.error(message);
  return exitCode;
}

/** A household to work on, and the date to work for. */
export interface Opened extends Moment {
  readonly db: Database;
  readonly household: Household;
  readonly isThrowAway: boolean;
}

export interface Which {
  readonly demo: boolean;
  readonly asOf: CalendarDate | null;
  /** Empty: the usual file. */
  readonly database: string;
}

export const usualOptions = {
  demo: { type: 'boolean' },
  'as-of': { type: 'string' },
  database: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** A household is worked on with a year behind it and two before it, and all of them are years of the calendar. */
const asOfYears = { first: firstYear + 2, last: lastYear - 3 };

/** The fields those options are read into. */
export const usualFields = {
  demo: tickField(),
  'as-of': optionalDateField('--as-of', asOfYears),
  database: optionalTextField('--database', 1000),
  json: tickField(),
};

/** Where the household's file is: named on the command line, in the environment, or the usual place. */
export function databaseFile(named: string): Outcome<string> {
  if (named !== '') return found(named);
  const settings = readSettings(process.env, process.cwd());
  return settings.ok ? found(settings.value.databaseFile) : settings;
}

/** Opens the household of the file, or with `demo` a throw-away household that lives in memory; close it with `db.destroy()`. */
async function openHousehold({ demo, asOf, database }: Which): Promise<Outcome<Opened>> {
  if (demo) {
    const { at, today } = momentIn(demoZone, wallClock);
    const db = await openDatabase(':memory:');
    const id: HouseholdId = await makeDemoHousehold(db, asOf ?? today);
    return found({ db, household: await householdById(db, id), at, today: asOf ?? today, isThrowAway: true });
  }
  const file = databaseFile(database);
  if (!file.ok) return file;
  const db = await openDatabase(file.value);
  const household = await firstHousehold(db);
  if (!household) {
    await db.destroy();
    return refused({
      code: 'household-missing',
      path: ['database'],
      message: `${shownPlace(file.value)} has no household. Run "serve" first to set one up, or use --demo.`,
    });
  }
  const { at, today } = momentIn(household.timeZone, wallClock);
  return found({ db, household, at, today: asOf ?? today, isThrowAway: false });
}

const demoZone = 'America/New_York';

/** Opens, works, and closes whatever happens. */
export async function withHousehold(
  which: Which,
  work: (opened: Opened) => Promise<number>,
): Promise<number> {
  const opened = await openHousehold(which);
  if (!opened.ok) return complain(opened.problems, couldNot);
  try {
    return await work(opened.value);
  } finally {
    await opened.value.db.destroy();
  }
}
