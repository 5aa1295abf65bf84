import type { FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { asDate, weekOf, weeksFrom, yearOf } from '../../../shared/week.ts';
import { groundOf } from '../../../src/harvest/known-ground.ts';
import { sourceYears } from '../../../src/harvest/source-years.ts';
import { latenessOf } from '../../../src/household/ground.ts';
import type { Source } from '../../../src/household/source.ts';
import { writtenYears } from '../../../src/planning/year/year-supply.ts';
import { statedGround } from '../../queries/year/ground.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import type { HarvestPicture } from './present-harvest.ts';

const weeksOfTwoYears = 105;

/** The sources of the household that asks, with this year's and next year's seasons. */
export async function harvestPicture(request: FastifyRequest): Promise<HarvestPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [{ loaded, plan }, stated] = await Promise.all([
    yearOfRequest(request),
    statedGround(db, household.id),
  ]);
  const { sources, recipes, lateness } = loaded.facts;
  const thisYear = yearOf(today);
  const weeks = weeksFrom(weekOf(asDate(`${thisYear}-01-01`)), weeksOfTwoYears);
  const inTheseYears = (source: Source) =>
    sourceYears(writtenYears(source), weeks, latenessOf(lateness, source.crop)).filter(
      ({ season }) => season.year === thisYear || season.year === thisYear + 1,
    );
  return {
    sources,
    yearsBySource: new Map(sources.map((source) => [source.id, inTheseYears(source)])),
    recipes,
    items: loaded.facts.items.filter(({ retiredOn }) => retiredOn === null),
    plan: plan?.plan ?? null,
    ground: {
      household,
      stated,
      known: groundOf(household, stated, reference),
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

/** The source a path names; an unknown one is a page that does not exist. */
export function sourceOf(picture: HarvestPicture, sourceId: string): Source {
  const found = picture.sources.find((source) => source.id === sourceId);
  if (!found) throw new ShelfwardError('not-found', `sourceOf: no source ${sourceId}`);
  return found;
}
