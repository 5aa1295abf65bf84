import { createHash } from 'node:crypto';
import { LRUCache } from 'lru-cache';
import pg from 'pg';

// A statement that is asked again and again is read and planned once by each connection and kept there under a name: for a short
// one that is most of what the server has to do.

/** One that was asked so often in this process has a name. */
const askedBefore = 20;
/** A connection keeps at most so many, each some ten to fifty kilobytes on the server. */
const mostKept = 150;
/** So many texts are counted at once; one that is asked rarely is forgotten again. */
const mostCounted = 1000;
/** A text longer than this is a list of its own, and hardly comes again. */
const longestKept = 4000;

/** What the server says of a kept statement whose rows look otherwise since the schema changed. */
const looksOtherwise = (cause: unknown): boolean =>
  cause instanceof pg.DatabaseError && cause.code === '0A000' && cause.routine === 'RevalidateCachedQuery';

/** Of one that is not there, or there already: something between lends its connections to others meanwhile. */
const isAnothers = (cause: unknown): boolean =>
  cause instanceof pg.DatabaseError && (cause.code === '26000' || cause.code === '42P05');

/** Which statements of a process have a name. */
export class KeptStatements {
  #isOn = false;
  #generation = 0;
  readonly #asked = new LRUCache<string, number>({ max: mostCounted });
  readonly #names = new Map<string, string>();

  /** From now on: while the schema is brought up to date none is kept. */
  begin(): void {
    this.#isOn = true;
  }

  /** The name of a statement; null for one that is not kept. */
  nameOf(text: string): string | null {
    if (!this.#isOn) return null;
    const known = this.#names.get(text);
    if (known !== undefined) return known;
    if (text.length > longestKept || this.#names.size >= mostKept) return null;
    const asked = (this.#asked.get(text) ?? 0) + 1;
    this.#asked.set(text, asked);
    if (asked < askedBefore) return null;
    this.#asked.delete(text);
    const name = `${this.#generation}-${createHash('sha256').update(text).digest('base64url')}`;
    this.#names.set(text, name);
    return name;
  }

  /** Takes notice of what went wrong with one; true where it would go well without its name. */
  isToBlame(cause: unknown): boolean {
    if (isAnothers(cause)) {
      this.#isOn = false;
      return true;
    }
    if (!looksOtherwise(cause)) return false;
    this.#generation += 1;
    this.#names.clear();
    return true;
  }
}

/** Nothing was done, and the same goes well when it is done again: what a server says of two writers in each other's way. */
class AskedAnew extends Error {
  readonly code = '40001';
}

type Asked = (text: string, values: unknown[]) => Promise<pg.QueryResult>;

/** Connections that keep statements. */
export const clientKeeping = (kept: KeptStatements): typeof pg.Client =>
  class extends pg.Client {
    // Kysely asks in this way alone, and the pool in none.
    override query = (async (text: string, values: unknown[]) => {
      const ask: Asked = (...asked) => super.query(...asked);
      const name = values.length === 0 ? null : kept.nameOf(text);
      if (name === null) return ask(text, values);
      try {
        return await super.query({ name, text, values });
      } catch (cause) {
        if (!kept.isToBlame(cause)) throw cause;
        // Outside of a transaction nothing was done; within one nothing more is answered.
        if (this.getTransactionStatus() === 'I') return ask(text, values);
        throw new AskedAnew('a kept statement is asked anew', { cause });
      }
    }) as typeof pg.Client.prototype.query;
  };
