import type { FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { asDate, weekOf, weeksFrom, yearOf } from '../../../shared/week.ts';
import { groundOf } from '../../../src/harvest/known-ground.ts';
import { sourceYears } from '../../../src/harvest/source-years.ts';
import { latenessOf } from '../../../src/household/ground.ts';
import type { Source } from '../../../src/household/source.ts';
import { writtenYears } from '../../../src/planning/year/year-supply.ts';
import { statedGround } from '../../queries/year/ground.ts';
import { oncePerPicture, yearOfRequest } from '../../year/year-of-request.ts';
import type { HarvestPicture } from './present-harvest.ts';

const weeksOfTwoYears = 105;

/** The sources of the household that asks, with this year's and next year's seasons. */
export async function harvestPicture(request: FastifyRequest): Promise<HarvestPicture> {
  const { household, today, reading } = request;
  const { reference } = request.server;
  const [{ loaded, plan }, { stated, known, yearsBySource }] = await Promise.all([
    yearOfRequest(request),
    groundAndSeasons(request),
  ]);
  const { sources, recipes, lateness } = loaded.facts;
  return {
    sources,
    yearsBySource,
    recipes,
    items: loaded.facts.items.filter(({ retiredOn }) => retiredOn === null),
    plan: plan?.plan ?? null,
    ground: {
      household,
      stated,
      known,
      lateness,
      sources,
      reference,
      today,
      reading,
    },
    published: reference.harvestWindows,
    today,
    reading,
  };
}

const groundAndSeasons = oncePerPicture(async ({ loaded: { facts }, asOf }, { server }) => {
  const { household, sources, lateness } = facts;
  const stated = await statedGround(server.db, household.id);
  const thisYear = yearOf(asOf);
  const weeks = weeksFrom(weekOf(asDate(`${thisYear}-01-01`)), weeksOfTwoYears);
  const inTheseYears = (source: Source) =>
    sourceYears(writtenYears(source), weeks, latenessOf(lateness, source.crop)).filter(
      ({ season }) => season.year === thisYear || season.year === thisYear + 1,
    );
  return {
    stated,
    known: groundOf(household, stated, server.reference),
    yearsBySource: new Map(sources.map((source) => [source.id, inTheseYears(source)])),
  };
});

/** The source a path names; an unknown one is a page that does not exist. */
export function sourceOf(picture: HarvestPicture, sourceId: string): Source {
  const found = picture.sources.find((source) => source.id === sourceId);
  if (!found) throw new ShelfwardError('not-found', `sourceOf: no source ${sourceId}`);
  return found;
}
