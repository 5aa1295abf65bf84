import type { Kysely, Transaction } from 'kysely';
import type { Tables } from './tables.ts';

export type Database = Kysely<Tables>;
/** Inside a transaction only this may be used: a file has one connection, and waiting for it from within would never end. */
export type Writing = Transaction<Tables>;
