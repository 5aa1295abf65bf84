import type { Selectable } from 'kysely';

/** A row as it comes out of SQLite. */
export type Row<Table> = Readonly<Selectable<Table>>;
