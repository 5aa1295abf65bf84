import { sql } from 'kysely';
import type { TestProject } from 'vitest/node';
import { holdApart } from '../../server/database/apart/row-rules.ts';
import { openDatabase } from '../../server/database/database.ts';
import { openPostgres } from '../../server/database/postgres.ts';
import { programsOfPostgres, startCluster } from './cluster.ts';

/** Who is held apart by the server itself. */
export const apartLogin = 'shelfward_web';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Addresses of a PostgreSQL for these tests; null where there is none on this machine. */
    readonly postgres: { readonly any: string; readonly template: string } | null;
  }
}

/** One database with every table and no row, from which each test's own is made. */
export default async function (project: TestProject): Promise<() => void> {
  const programs = programsOfPostgres();
  if (programs === null) {
    console.log('There is no PostgreSQL on this machine: the tests of the server were not run on it.');
    project.provide('postgres', null);
    return () => {};
  }
  const cluster = startCluster(programs);
  const first = await openPostgres(cluster.address('postgres'), { getMigrations: async () => ({}) });
  await sql`CREATE DATABASE template`.execute(first);
  await sql`CREATE ROLE ${sql.id(apartLogin)} LOGIN`.execute(first);
  await first.destroy();
  const template = await openDatabase(cluster.address('template'));
  await holdApart(template, apartLogin);
  await template.destroy();
  project.provide('postgres', { any: cluster.address('postgres'), template: cluster.address('template') });
  return () => cluster.stop();
}
