import rateLimit from '@fastify/rate-limit';
import fp from 'fastify-plugin';

/** Generous for a family of phones behind one address, far below what a runaway script would send. */
export const usualRequestsPerMinute = 6000;

export interface RateLimit {
  readonly requestsPerMinute?: number;
}

export default fp<RateLimit>(
  async (app, { requestsPerMinute = usualRequestsPerMinute }) =>
    void (await app.register(rateLimit, { max: requestsPerMinute, timeWindow: '1 minute' })),
  { name: 'rate-limit' },
);
