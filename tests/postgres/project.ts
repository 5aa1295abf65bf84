import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { programsOfPostgres } from './cluster.ts';

/** The tests that run on PostgreSQL too; where there is none, one that says so. */
export const postgresTests: string[] =
  programsOfPostgres() === null
    ? ['tests/postgres/without.test.ts']
    : [
        'tests/postgres/**/*.test.ts',
        'tests/server/{calendar,interface,jobs,queries,records,year}/**/*.test.ts',
        'tests/server/access/{accounts,chosen-sign-ins,memberships,own-account,ownership,races}.test.ts',
      ];

/** Tests of the server that are left out on PostgreSQL, each with the reason. */
export const onFilesAlone: Readonly<Record<string, string>> = {
  'tests/server/database/**':
    'they try the file itself: its pragmas, its steps, its backups and its plan of a query',
  'tests/server/durability/**': 'they cut the power of a file',
  'tests/server/commands/**': 'they start the program with a file',
  'tests/server/access/{household-deletion,scoping}.test.ts':
    'they find the tables of a file by its own schema',
  'tests/server/files/**':
    'they find the tables of a file by its own schema, or read lists and ask no database',
  'tests/server/pages/**':
    'they take longer than all the others; the demo’s pages are held against those of a file instead',
};

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
