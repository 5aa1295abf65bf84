import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { programsOfPostgres } from './cluster.ts';

/** `npm run bench:postgres`: the whole of the server's tests, and not only what every run takes in. */
const isWhole = process.env.EVERY_TEST === '1';

/** The tests that run on PostgreSQL too; where there is none, one that says so. */
export const postgresTests: string[] =
  programsOfPostgres() === null
    ? ['tests/postgres/without.test.ts']
    : ['tests/postgres/**/*.test.ts', 'tests/server/**/*.test.ts'];

/** Tests of the server that try a file itself, each with the reason. */
const ofFiles: Readonly<Record<string, string>> = {
  'tests/server/database/**': 'they try its pragmas, its steps, its backups and its plan of a query',
  'tests/server/durability/**': 'they cut the power of a file',
  'tests/server/commands/**': 'they start the program with a file',
  'tests/server/pages/kitchen/{every-unfit-column,unfit-values}.test.ts':
    'they put values past the rules of a file’s schema, which a database of PostgreSQL does not let by',
  'tests/server/columns/household-columns.test.ts':
    'it asks a file for its schema, which another test holds against that of a database',
  'tests/server/pages/trade-measures-walk.test.ts':
    'it finds the newest row by a number that only a file gives it',
  'tests/server/pages/kitchen/storage.test.ts': 'it fills up the file',
};

/** What is left out of every run, for its time, and taken in by `npm run bench:postgres`. */
const whenAllAreRun: Readonly<Record<string, string>> = {
  'tests/server/pages/**': 'the demo’s pages are held against those of a file instead',
  'tests/server/access/{answers,behind-tls,every-route,factor-requirement,foreign-requests,fuzz,limits,log-lines,network,seed-keys,settings}.test.ts':
    'they go by routes, headers and settings',
  'tests/server/files/{csv-text,list-import,reading-process,recipes-at-the-gate,spoilt-files}.test.ts':
    'they read files',
  'tests/server/{columns,words}/**': 'they ask next to nothing of a database',
};

export const onFilesAlone: readonly string[] = Object.keys(
  isWhole ? ofFiles : { ...ofFiles, ...whenAllAreRun },
);

const own = fileURLToPath(new URL('database.ts', import.meta.url));

/** Whoever opens a database in memory is given one of PostgreSQL. */
export const onPostgres: Plugin = {
  name: 'on-postgres',
  enforce: 'pre',
  async resolveId(source, importer, options) {
    if (!source.endsWith('/database.ts') || importer === undefined || importer === own) return null;
    // What opens a file or a server by itself goes on doing so.
    if (importer.includes('/server/database/')) return null;
    const found = await this.resolve(source, importer, { ...options, skipSelf: true });
    return found?.id.endsWith('/server/database/database.ts') ? own : null;
  },
};
