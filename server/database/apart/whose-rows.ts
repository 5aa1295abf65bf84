import { AsyncLocalStorage } from 'node:async_hooks';
import type { Database } from '../handle.ts';
import { holdsApart } from './adapters.ts';

// Whose rows the work at hand may see. A database that holds households apart by itself is told so with every statement; a file
// and any other database look at nothing of this.

/**
 * One household's; those of accounts, among which a household is first found; nobody's, where somebody forgot to say. Where
 * nothing is said at all it is everybody's: the commands' and the work of the night.
 */
export type Whose = { readonly household: string } | 'accounts' | 'nobody' | 'everybody';

/** What a request may see, which narrows down when its household is found. */
export interface Sight {
  whose: Whose;
}

const storage = new AsyncLocalStorage<Sight>();

export const whoseRows = (): Whose => storage.getStore()?.whose ?? 'everybody';

/** Whatever the work asks sees what `sight` says at that moment. */
export const seeing = <T>(sight: Sight, work: () => T): T => storage.run(sight, work);

const seen = <T>(db: Database, whose: Whose, work: () => T): T =>
  holdsApart(db) ? storage.run({ whose }, work) : work();

/** The work is about that household, whoever began it. */
export const ofHousehold = <T>(db: Database, household: string, work: () => T): T =>
  seen(db, { household }, work);

/** The work is about accounts: who may come into which household. */
export const ofAccounts = <T>(db: Database, work: () => T): T => seen(db, 'accounts', work);

/** Whatever the work leads to says for itself whose rows it is about, or sees none: what a server is asked from then on. */
export const ofNobody = <T>(db: Database, work: () => T): T => seen(db, 'nobody', work);

/** The work is the program's own, about every household there is. */
export const ofEverybody = <T>(db: Database, work: () => T): T => seen(db, 'everybody', work);
