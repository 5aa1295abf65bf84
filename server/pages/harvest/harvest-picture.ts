import type { FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { asDate, weekOf, weeksFrom, yearOf } from '../../../shared/week.ts';
import { groundOf } from '../../../src/harvest/known-ground.ts';
import { sourceYears } from '../../../src/harvest/source-years.ts';
import { latenessOf } from '../../../src/household/ground.ts';
import type { Source } from '../../../src/household/source.ts';
import { writtenYears } from '../../../src/planning/year/household-year.ts';
import { itemsOf } from '../../queries/household/items.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { seasonLateness, statedGround } from '../../queries/year/ground.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { standingPlanOf } from '../../queries/year/plans.ts';
import type { HarvestPicture } from './present-harvest.ts';

const weeksOfTwoYears = 105;

/** The sources of the household that asks, with this year's and next year's seasons. */
export async function harvestPicture(request: FastifyRequest): Promise<HarvestPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [sources, recipes, items, newest, stated, lateness] = await Promise.all([
    sourcesOf(db, household.id),
    recipesOf(db, household.id),
    itemsOf(db, household.id),
    standingPlanOf(db, household.id),
    statedGround(db, household.id),
    seasonLateness(db, household.id),
  ]);
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
    items,
    plan: newest?.plan ?? null,
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
