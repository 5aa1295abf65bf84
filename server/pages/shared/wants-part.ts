import type { FastifyRequest } from 'fastify';

/** True when htmx asks for one part of a page rather than for the whole document. */
export const wantsPart = (request: FastifyRequest): boolean =>
  request.headers['hx-request'] === 'true' && request.headers['hx-request-type'] !== 'full';
