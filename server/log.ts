import type { FastifyRequest, FastifyServerOptions } from 'fastify';

/** What a terminal, or a reader of lines, could take for more than text and JSON leaves as it is. */
const misreadable = /[\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/gu;
const escaped = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/**
 * What the server writes about itself, one JSON line each, to the error stream. A request is named by its route, never by its
 * address, cookies or body: tokens, passphrases and what a household typed do not get into it. What happens to
 * accounts is a line under `security`, with the person's id and where on the network it came from. Whatever the message of a
 * fault holds, its line stays one line and moves nothing on a terminal.
 */
export const serverLog: NonNullable<FastifyServerOptions['logger']> = {
  level: 'warn',
  stream: process.stderr,
  hooks: { streamWrite: (line) => line.replace(misreadable, escaped) },
  serializers: {
    req: (request: FastifyRequest) => ({
      method: request.method,
      route: request.routeOptions?.url ?? 'none',
    }),
  },
};
