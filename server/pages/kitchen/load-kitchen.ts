import type { FastifyRequest } from 'fastify';
import { weekOf } from '../../../shared/week.ts';
import { recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { itemsOf } from '../../queries/household/items.ts';
import {
  cannersOf,
  daysOffOf,
  jarStockOf,
  kitchenHoursOf,
  lidStockOf,
  placesOf,
  seasonFundOf,
} from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { unfitValues } from '../../queries/household/unfit-values.ts';
import { decisionsOf } from '../../queries/year/plans.ts';
import { regionNames } from '../../words/regions.ts';
import { upkeepNow } from '../shared/upkeep-words.ts';
import type { KitchenPicture } from './kitchen-picture.ts';

/** Everything the household cans with. */
export async function kitchenPicture(request: FastifyRequest): Promise<KitchenPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [canners, hours, daysOff, fund, jars, lids, places, decisions, recipes, items, unfit, upkeep] =
    await Promise.all([
      cannersOf(db, household.id),
      kitchenHoursOf(db, household.id),
      daysOffOf(db, household.id),
      seasonFundOf(db, household.id),
      jarStockOf(db, household.id),
      lidStockOf(db, household.id),
      placesOf(db, household.id),
      decisionsOf(db, household.id),
      recipesOf(db, household.id),
      itemsOf(db, household.id),
      unfitValues(db, household.id),
      upkeepNow(request),
    ]);
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
    kept: decisions,
    recipes,
    leftOut: recipesHere(recipes, {
      household,
      canners,
      items,
      weeks: [weekOf(today)],
      asOf: today,
      sessionWeekday: hours.sessionWeekday,
      reference,
    }).leftOut,
    unfit,
    upkeep,
    cannerFacts: request.server.reference.cannerFacts,
    today,
    reading,
  };
}
