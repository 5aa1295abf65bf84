import type { FastifyRequest } from 'fastify';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import { type YearPicture, yearPicture } from './year-picture.ts';

/** Asked once for a page that is looked at, however many of its parts need it; a request that changes something asks anew each time. */
export function oncePerLook<Answer>(
  ask: (request: FastifyRequest) => Promise<Answer>,
): (request: FastifyRequest) => Promise<Answer> {
  const asked = new WeakMap<FastifyRequest, Promise<Answer>>();
  return (request) => {
    if (request.method !== 'GET') return ask(request);
    const known = asked.get(request) ?? ask(request);
    asked.set(request, known);
    return known;
  };
}

/** The picture of the year of the household that asks, as of its today. */
export const yearOfRequest: (request: FastifyRequest) => Promise<YearPicture> = oncePerLook((request) =>
  yearPicture(request.server.db, request.household.id, request.today, request.server.reference),
);

/** What that household said and did up to today, as its picture has it: read once for all pages until something of it changes. */
export const factsOfRequest = async (request: FastifyRequest): Promise<HouseholdFacts> =>
  (await yearOfRequest(request)).loaded.facts;

/**
 * What hangs on nothing but the household's facts and the day: read or worked out once for all pages until something of them changes, and let
 * go with the picture. Who asks and what was typed is none of it.
 */
export function oncePerPicture<Answer>(
  ask: (picture: YearPicture, request: FastifyRequest) => Promise<Answer> | Answer,
): (request: FastifyRequest) => Promise<Answer> {
  const asked = new WeakMap<YearPicture, Promise<Answer>>();
  const askAnew = async (picture: YearPicture, request: FastifyRequest) => ask(picture, request);
  return async (request) => {
    const picture = await yearOfRequest(request);
    const known = asked.get(picture);
    if (known !== undefined) return known;
    const answer = askAnew(picture, request);
    asked.set(picture, answer);
    // What went wrong is asked again.
    answer.catch(() => asked.delete(picture));
    return answer;
  };
}
