import type { FastifyRequest } from 'fastify';
import { measuresIn } from '../../../src/preserving/foods/trade-measures.ts';
import type { PlannedNames } from '../../words/planned-words.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';

/** The names a plan's ids stand for in the household that asks. */
export async function plannedNames(request: FastifyRequest): Promise<PlannedNames> {
  const { items, recipes, sources, supplies, canners } = await factsOfRequest(request);
  return {
    items,
    recipes,
    sources,
    supplies,
    canners,
    reading: request.reading,
    measuresOf: measuresIn(request.server.reference),
  };
}
