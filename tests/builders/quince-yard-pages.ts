import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { type Cast, quinceYardHousehold } from './quince-yard.ts';
import { Visitor } from './visitor.ts';

/** Noon of 2026-08-17 where Quince Yard lies. */
const noon = Date.UTC(2026, 7, 17, 18);

const reference = loadReferenceTables();

export interface QuinceYardPages extends Cast {
  readonly app: FastifyInstance;
  readonly visitor: Visitor;
  close(): Promise<void>;
}

/** Quince Yard with its pages, and somebody looking at them on Monday, 17 August 2026. */
export async function quinceYardPages(file = ':memory:'): Promise<QuinceYardPages> {
  const cast = await quinceYardHousehold(file);
  let ticks = 0;
  const now = () => {
    ticks += 1;
    return noon + ticks;
  };
  const app = await buildApp({ db: cast.db, reference, now });
  await app.ready();
  return {
    ...cast,
    app,
    visitor: new Visitor(app),
    close: async () => {
      await app.close();
      await cast.db.destroy();
    },
  };
}
