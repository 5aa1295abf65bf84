import rateLimit from '@fastify/rate-limit';
import fp from 'fastify-plugin';
import { countedAs } from '../../access/network.ts';

/** Generous for a family of phones behind one address, far below what a runaway script would send. */
const usualRequestsPerMinute = 6000;

export interface RateLimit {
  readonly requestsPerMinute?: number;
}

export default fp<RateLimit>(
  async (app, { requestsPerMinute = usualRequestsPerMinute }) => {
    await app.register(rateLimit, {
      global: false,
      max: requestsPerMinute,
      timeWindow: '1 minute',
      keyGenerator: ({ ip }) => countedAs(ip),
      // How much is left of it helps nobody but a guesser; when to come back is said once it is used up.
      addHeadersOnExceeding: {
        'x-ratelimit-limit': false,
        'x-ratelimit-remaining': false,
        'x-ratelimit-reset': false,
      },
    });
    // Before anything is read from the file, and for addresses no route has, too.
    app.addHook('onRequest', app.rateLimit());
  },
  { name: 'rate-limit' },
);
