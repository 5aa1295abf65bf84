import type { FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';
import { dateInZone } from '../../../shared/week.ts';
import { type Reading, usReading } from '../../../views/words/reading.ts';
import { type Household, households } from '../../queries/household.ts';

/** Thrown when a page needs a household and none has been set up. */
export class NoHousehold extends ShelfwardError {
  constructor() {
    super('no-household', 'expected a household in the database, found none');
  }
}

/** How a household reads numbers, units, dates and weeks. */
export const readingOf = ({ locale, units, weekStartsOn }: Household): Reading => ({
  locale,
  units,
  weekStartsOn,
});

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
    app.decorateRequest('reading', {
      getter() {
        const household = found.get(this);
        return household === undefined ? usReading : readingOf(household);
      },
    });
    app.decorateRequest('today', {
      getter() {
        return dateInZone(app.now(), found.get(this)?.timeZone ?? 'UTC');
      },
    });
    app.addHook('onRequest', async (request) => {
      if (request.url.startsWith('/assets/')) return;
      const [household] = await households(app.db);
      if (household !== undefined) found.set(request, household);
    });
  },
  { name: 'household' },
);
