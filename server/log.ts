import type { FastifyRequest, FastifyServerOptions } from 'fastify';

/**
 * What the server writes about itself, one JSON line each, to the error stream. A request is named by its route, never by its
 * address, cookies or body: tokens, passphrases and what a household typed do not get into it. What happens to
 * accounts is a line under `security`, with the person's id and where on the network it came from.
 */
export const serverLog: NonNullable<FastifyServerOptions['logger']> = {
  level: 'warn',
  stream: process.stderr,
  serializers: {
    req: (request: FastifyRequest) => ({
      method: request.method,
      route: request.routeOptions?.url ?? 'none',
    }),
  },
};
