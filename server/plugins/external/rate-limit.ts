import rateLimit from '@fastify/rate-limit';
import fp from 'fastify-plugin';

/** Generous for a family of phones counting a shelf, far below what a runaway script would send. */
export const requestsPerMinute = 1200;

export default fp(
  async (app) => void (await app.register(rateLimit, { max: requestsPerMinute, timeWindow: '1 minute' })),
  { name: 'rate-limit' },
);
