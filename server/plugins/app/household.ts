import type { FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import type { HouseholdId } from '../../../shared/ids.ts';
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

/** Cookie that remembers which household of this file a browser looks at. */
export const chosenCookie = 'household';

/** From now on this browser looks at that household. */
export const chooseHousehold = (reply: FastifyReply, id: HouseholdId): FastifyReply =>
  reply.setCookie(chosenCookie, id, {
    path: '/',
    httpOnly: true,
    sameSite: 'lax',
    maxAge: 366 * 24 * 60 * 60,
  });

/** Addresses that are about no household. */
const standsAlone = (url: string): boolean =>
  url.startsWith('/assets/') || url === '/health' || url === '/ready';

/**
 * Finds whose year this request is about: the household the browser has chosen, if this file holds it, otherwise the
 * first one of one's own. Every query and record then works for that one alone. `request.household` throws for a request outside of one, so that no query can run without a household.
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
      if (standsAlone(request.url)) return;
      const all = await households(app.db);
      const household = all.find(({ id }) => id === request.cookies[chosenCookie]) ?? all[0];
      if (household !== undefined) found.set(request, household);
    });
  },
  { name: 'household', dependencies: ['cookies'] },
);
