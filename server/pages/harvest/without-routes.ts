import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import type { Season } from '../../../src/harvest/season.ts';
import type { Source } from '../../../src/household/source.ts';
import {
  seasonAhead,
  type YearWithout,
  yearWithout,
} from '../../../src/planning/explanation/without-harvest.ts';
import { WithoutPage } from '../../../views/pages/harvest/without-page.tsx';
import { yearOfRequest } from '../../year/year-of-request.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { askerLeft } from '../shared/asker-left.ts';
import { presentWithout } from './present-without.ts';

type OfSource = { Params: { source: string } };

/** What the year would be without a harvest: planned anew with nothing of it, and kept nowhere. */
const harvestsLost: FastifyPluginAsync = async (app) => {
  app.post<OfSource>('/harvest/:source/without', async (request, reply) => {
    const { today } = request;
    const picture = await yearOfRequest(request);
    const { facts, seasonsBySource } = picture.loaded;
    const source = facts.sources.find(({ id }) => id === request.params.source);
    if (!source) throw new ShelfwardError('not-found', `harvest: no source ${request.params.source}`);
    const season = seasonAhead(seasonsBySource.get(source.id) ?? [], today);
    const answer = season === null ? null : await planWithout(request, reply, picture, { source, season });
    return reply.page(WithoutPage, {
      frame: await reply.frame(),
      ...presentWithout(source, season, answer, request.reading),
    });
  });
};

export default harvestsLost;

/** Null without a plan of this week to compare with, a planner, or a plan without the harvest. */
async function planWithout(
  request: FastifyRequest,
  reply: FastifyReply,
  { loaded, plan }: YearPicture,
  { source, season }: { readonly source: Source; readonly season: Season },
): Promise<YearWithout | null> {
  const { planJob } = request.server;
  if (planJob === null || plan === null || plan.isOutOfDate) return null;
  const { weeks } = plan.year;
  if (weeks[0] !== loaded.year.weeks[0]) return null;
  const answer = await planJob.ask(
    request.household.id,
    plan,
    { about: 'without harvest', source: source.id, season },
    askerLeft(reply),
  );
  return answer === null ? null : yearWithout(loaded, weeks, answer);
}
