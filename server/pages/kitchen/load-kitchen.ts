import type { FastifyRequest } from 'fastify';
import { weekOf } from '../../../shared/week.ts';
import { recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { items } from '../../queries/household/items.ts';
import {
  canners,
  daysOff,
  jarStock,
  kitchenHours,
  lidStock,
  places,
  seasonFund,
} from '../../queries/household/kitchen.ts';
import { recipes } from '../../queries/household/recipes.ts';
import { unfitValues } from '../../queries/household/unfit-values.ts';
import { keptDecisions } from '../../queries/year/plans.ts';
import { regionNames } from '../../words/regions.ts';
import type { KitchenPicture } from './kitchen-picture.ts';

/** Everything the household cans with. */
export async function kitchenPicture(request: FastifyRequest): Promise<KitchenPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [own, hours, off, fund, jars, lids, stands, kept, book, things, unfit] = await Promise.all([
    canners(db, household.id),
    kitchenHours(db, household.id),
    daysOff(db, household.id),
    seasonFund(db, household.id),
    jarStock(db, household.id),
    lidStock(db, household.id),
    places(db, household.id),
    keptDecisions(db, household.id),
    recipes(db, household.id),
    items(db, household.id),
    unfitValues(db, household.id),
  ]);
  return {
    household,
    processTimes: reference.processTimes,
    canners: own,
    hours,
    daysOff: off,
    fund,
    jars,
    lids,
    places: stands,
    regions: regionNames(reference.harvestWindows),
    kept,
    recipes: book,
    leftOut: recipesHere(book, {
      household,
      canners: own,
      items: things,
      weeks: [weekOf(today)],
      asOf: today,
      sessionWeekday: hours.sessionWeekday,
      reference,
    }).leftOut,
    unfit,
    cannerFacts: request.server.reference.cannerFacts,
    today,
    reading,
  };
}
