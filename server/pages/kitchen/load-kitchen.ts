import type { FastifyRequest } from 'fastify';
import { unfitValuesNow } from '../../queries/household/unfit-values.ts';
import { regionNames } from '../../words/regions.ts';
import { leftOutToday } from '../../year/left-out-today.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { upkeepNow } from '../shared/upkeep-words.ts';
import type { KitchenPicture } from './kitchen-picture.ts';

/** Everything the household cans with. */
export async function kitchenPicture(request: FastifyRequest): Promise<KitchenPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [facts, unfit, upkeep] = await Promise.all([
    factsOfRequest(request),
    unfitValuesNow(db, household),
    upkeepNow(request),
  ]);
  const { canners, hours, daysOff, fund, jars, lids, places, kept, recipes } = facts;
  return {
    household,
    processTimes: reference.processTimes,
    canners,
    hours,
    daysOff,
    fund,
    jars,
    lids,
    places,
    regions: regionNames(reference.harvestWindows),
    kept,
    recipes,
    leftOut: leftOutToday(facts, household, today, reference),
    unfit,
    upkeep,
    cannerFacts: request.server.reference.cannerFacts,
    today,
    reading,
  };
}
