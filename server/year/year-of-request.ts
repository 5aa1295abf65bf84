import type { FastifyRequest } from 'fastify';
import { type YearPicture, yearPicture } from './year-picture.ts';

const looked = new WeakMap<FastifyRequest, Promise<YearPicture>>();

/**
 * The picture of the year of the household that asks, as of its today. For a page that is looked at it is asked for once, however
 * many of its parts show something of it; a request that changes something asks anew each time.
 */
export const yearOfRequest = (request: FastifyRequest): Promise<YearPicture> => {
  const { db, reference } = request.server;
  const ask = () => yearPicture(db, request.household.id, request.today, reference);
  if (request.method !== 'GET') return ask();
  const known = looked.get(request) ?? ask();
  looked.set(request, known);
  return known;
};
