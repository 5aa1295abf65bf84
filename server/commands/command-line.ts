import { z } from 'zod';
import { couldNot, notUnderstood } from './exit-codes.ts';
import { faultLine } from './fault-line.ts';

interface Command {
  readonly does: string;
  /** Prints its own, longer help. */
  readonly helpsItself?: boolean;
  readonly load: () => Promise<{ readonly run: (args: readonly string[]) => Promise<number> }>;
}

export const commands: Readonly<Record<string, Command>> = {
  serve: {
    does: 'open the program in a browser; --port N, --database FILE, --demo-if-empty, --host ADDRESS --public-address URL, --without-work (pages alone: another program does the rest)',
    load: () => import('./serve.ts'),
  },
  work: {
    does: 'plan, do the night’s work and send letters for servers without work; --lanes now,soon,night (some of them), --solvers N (how many plans are solved at once), --nice N (how far it stands back on its machine, 5 unless said), --database FILE',
    load: () => import('./work.ts'),
  },
  migrate: {
    does: 'bring the schema of a file or a database up to date, and nothing else; --database FILE',
    load: () => import('./migrate.ts'),
  },
  plan: {
    does: 'plan the year; --minutes N (how long it may look for the best one, 1 unless said), --demo (a throw-away household), --as-of DATE, --json, --database FILE',
    load: () => import('./plan.ts'),
  },
  glut: {
    does: 'what too much of a crop can become: glut plums 40 lb; --demo, --as-of DATE, --json, --database FILE',
    load: () => import('./glut.ts'),
  },
  notices: {
    does: 'what needs attention; --demo, --as-of DATE, --json, --database FILE',
    load: () => import('./notices.ts'),
  },
  shelf: {
    does: 'what is on the shelf, first to eat first; --demo, --json, --database FILE',
    load: () => import('./shelf.ts'),
  },
  take: {
    does: 'take ITEM from the shelf; --units N, --lot BATCH, --on DATE, --kind KIND, --reason REASON, --for-promise, --by MEMBER, --database FILE',
    load: () => import('./take.ts'),
  },
  'canning-day': {
    does: 'what to fetch, set out and do on the next canning days; --week W, --demo, --json, --database FILE',
    load: () => import('./canning-day.ts'),
  },
  'process-time': {
    does: 'look up one published processing time',
    helpsItself: true,
    load: () => import('./process-time.ts'),
  },
  backup: {
    does: 'copy the household’s file to FILE, while it is in use or not; --database FILE',
    load: () => import('./backup.ts'),
  },
  restore: {
    does: 'check the backup FILE and put it in place, keeping what is there; --without-checksum, --database FILE',
    load: () => import('./restore.ts'),
  },
  move: {
    does: 'move everything from a file into an empty PostgreSQL database or back, while no server runs; --from FILE --to postgres://…',
    load: () => import('./move.ts'),
  },
  'row-rules': {
    does: 'let a PostgreSQL server hold households apart by itself for LOGIN, the user of it that the program is; --database FILE',
    load: () => import('./row-rules.ts'),
  },
  'passphrase-reset': {
    does: 'print a link to a new passphrase for NAME; --without-second-factor, --address URL, --database FILE',
    load: () => import('./passphrase-reset.ts'),
  },
  'allow-household': {
    does: 'let NAME, who owns no household, begin one where others reach the program; --no-longer, --database FILE',
    load: () => import('./allow-household.ts'),
  },
  'rotate-key': {
    does: 'seal second factors with a new key, while no server runs; --forget-old, --database FILE',
    load: () => import('./rotate-key.ts'),
  },
  'verify-table': {
    does: 'compare the processing table with another copy of it',
    helpsItself: true,
    load: () => import('./verify-table.ts'),
  },
};

const help = (): string =>
  [
    'Shelfward: plan a pantry for a year. Usage: npm run -s shelfward -- COMMAND [options]',
    '',
    ...Object.entries(commands).map(([name, { does }]) => `  ${name.padEnd(18)}${does}`),
    '',
    `The household's file is .shelfward/shelfward.sqlite unless --database or SHELFWARD_DATABASE names another.`,
  ].join('\n');

/**
 * Runs what was typed and answers the exit code: 0 done, 1 could not be done, 2 not understood. Whatever goes wrong is one
 * line on the error stream.
 */
export async function runCommandLine(args: readonly string[]): Promise<number> {
  try {
    return await run(args);
  } catch (cause) {
    console.error(faultLine(cause));
    return cause instanceof z.ZodError ? notUnderstood : couldNot;
  }
}

async function run([name, ...args]: readonly string[]): Promise<number> {
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    console.log(help());
    return 0;
  }
  const command = Object.entries(commands).find(([known]) => known === name)?.[1];
  if (!command) {
    const known = Object.keys(commands).join(', ');
    console.error(`There is no command “${name}”; there are ${known}. Use --help for a line about each.`);
    return 2;
  }
  if (!command.helpsItself && (args.includes('--help') || args.includes('-h'))) {
    console.log(`${name}: ${command.does}`);
    return 0;
  }
  const loaded = await command.load();
  return loaded.run(args);
}
