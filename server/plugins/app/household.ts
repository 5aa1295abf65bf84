import type { FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import type { HouseholdId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import { dateInZone } from '../../../shared/week.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { Database } from '../../database/database.ts';

export interface Household {
  readonly id: HouseholdId;
  readonly name: string;
  readonly people: number;
  readonly timeZone: string;
  readonly region: string | null;
  readonly altitudeFt: number | null;
  readonly isDemo: boolean;
  /** Grows with every fact written; a plan made at a lower version is out of date. */
  readonly factsVersion: number;
  readonly reading: Reading;
}

/** Thrown when a page needs a household and none has been set up. */
export class NoHousehold extends ShelfwardError {
  constructor() {
    super('no-household', 'expected a household in the database, found none');
  }
}

const onlyHousehold = async (db: Database): Promise<Household | null> => {
  const row = await db.selectFrom('household').selectAll().orderBy('created_at').limit(1).executeTakeFirst();
  if (row === undefined) return null;
  return {
    id: row.id as HouseholdId,
    name: row.name,
    people: row.people,
    timeZone: row.time_zone,
    region: row.region,
    altitudeFt: row.altitude_ft,
    isDemo: row.is_demo === 1,
    factsVersion: row.facts_version,
    reading: { locale: row.locale, units: row.units, weekStartsOn: row.week_starts_on },
  };
};

const found = new WeakMap<FastifyRequest, Household>();

/**
 * Finds whose year this request is about, for now the only household there is, never from what the request says.
 * `request.household` throws for a request outside of one, so that no query can run without a household.
 */
export default fp(
  async (app) => {
    app.decorateRequest('household', {
      getter() {
        const household = found.get(this);
        if (household === undefined) throw new NoHousehold();
        return household;
      },
    });
    app.decorateRequest('today', {
      getter() {
        return dateInZone(app.now(), found.get(this)?.timeZone ?? 'UTC');
      },
    });
    app.addHook('onRequest', async (request) => {
      if (request.url.startsWith('/assets/')) return;
      const household = await onlyHousehold(app.db);
      if (household !== null) found.set(request, household);
    });
  },
  { name: 'household' },
);
