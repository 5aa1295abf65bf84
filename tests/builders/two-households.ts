import type { FastifyInstance } from 'fastify';
import { type Role, roles } from '../../server/access/roles.ts';
import { buildApp } from '../../server/app.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { type AddressIds, furnish, furnishByPages, member } from './furnished-household.ts';

// Two households of one file, each with one of everything: Quince Yard with an owner, and Medlar Lane with a member of every
// role.

export const quinceYard = 'quince-yard' as HouseholdId;
export const medlarLane = 'medlar-lane' as HouseholdId;
/** Noon of Monday, 17 August 2026, where both lie. */
export const noon = Date.UTC(2026, 7, 17, 18);

export interface TwoHouseholds {
  readonly db: Database;
  readonly app: FastifyInstance;
  readonly quince: AddressIds;
  readonly medlar: AddressIds;
  /** Signs somebody in anew: `quince-owner`, or `medlar-` and a role. */
  readonly tokenOf: ReadonlyMap<string, string>;
  close(): Promise<void>;
}

/** `tickMs` is how far the clock goes on each time somebody looks at it. */
export async function twoHouseholds(tickMs = 1, file = ':memory:'): Promise<TwoHouseholds> {
  const db = await openDatabase(file);
  let ticks = 0;
  const app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => {
      ticks += tickMs;
      return noon + ticks;
    },
    requestsPerMinute: 100_000_000,
  });
  await app.ready();
  const quinceFurniture = await furnish(db, quinceYard, 'quince', '2026-12-07');
  const medlarFurniture = await furnish(db, medlarLane, 'medlar', '2026-12-14');
  const tokenOf = new Map<string, string>();
  tokenOf.set('quince-owner', await member(db, quinceYard, { id: 'quince-owner', role: 'owner' }, noon));
  for (const role of roles satisfies readonly Role[])
    tokenOf.set(`medlar-${role}`, await member(db, medlarLane, { id: `medlar-${role}`, role }, noon));
  const quince = await furnishByPages(app, quinceYard, quinceFurniture, tokenOf.get('quince-owner') ?? '');
  const medlar = await furnishByPages(app, medlarLane, medlarFurniture, tokenOf.get('medlar-owner') ?? '');
  return {
    db,
    app,
    quince,
    medlar,
    tokenOf,
    close: async () => {
      await app.close();
      await db.destroy();
    },
  };
}

export interface Route {
  readonly method: 'GET' | 'POST';
  readonly url: string;
}

/** Names in an address that mean different things on different routes. */
const renamed: readonly (readonly [begins: string, name: string, kind: string])[] = [
  ['/notices/:id', 'id', 'notice'],
  ['/invitations/', 'secret', 'invitation'],
  ['/passphrase/', 'secret', 'reset'],
  ['/mail-address/', 'secret', 'reset'],
];

/** What kind of thing each `:name` of a route stands for, in order. */
export const namesIn = (url: string): readonly { readonly name: string; readonly kind: string }[] =>
  [...url.matchAll(/:([A-Za-z]+)/g)].map(([, name = '']) => ({
    name,
    kind: renamed.find(([begins, of]) => of === name && url.startsWith(begins))?.[2] ?? name,
  }));

/** The address with an id for each name. */
export const filled = (url: string, idOf: (kind: string) => string): string =>
  namesIn(url).reduce((text, { name, kind }) => text.replace(`:${name}`, () => idOf(kind)), url);
