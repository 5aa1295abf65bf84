import { isDeepStrictEqual } from 'node:util';
import { whileTheSame } from '../../shared/remembering.ts';
import { type CalendarDate, weekOf } from '../../shared/week.ts';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import type { Household } from '../../src/household/household.ts';
import { type Kitchen, type LeftOutRecipe, recipesHere } from '../../src/planning/year/planned-recipes.ts';

type Asked = Pick<Kitchen, 'household' | 'canners' | 'items' | 'asOf' | 'reference'> &
  Pick<HouseholdFacts, 'recipes'>;

/**
 * The household as it is now: where nothing of it is otherwise, the very object of the facts, by which answers are remembered. What may be
 * processed is never asked for an altitude that was, whoever changed it.
 */
export const householdNow = ({ household }: Pick<HouseholdFacts, 'household'>, now: Household): Household =>
  (Object.keys(household) as (keyof Household)[]).every((name) =>
    isDeepStrictEqual(household[name], now[name]),
  )
    ? household
    : now;

/** Recipes that may not be put up in a household's kitchen today, whatever a plan counts on. */
export const leftOutToday = (
  facts: HouseholdFacts,
  now: Household,
  asOf: CalendarDate,
  reference: Kitchen['reference'],
): readonly LeftOutRecipe[] =>
  leftOut({
    household: householdNow(facts, now),
    canners: facts.canners,
    items: facts.items.filter(({ retiredOn }) => retiredOn === null),
    recipes: facts.recipes,
    asOf,
    reference,
  });

// The weekday of a session says when a batch is made, not whether it may be.
const leftOut = whileTheSame(
  'recipes',
  ({ recipes, ...kitchen }: Asked) =>
    recipesHere(recipes, { ...kitchen, weeks: [weekOf(kitchen.asOf)], sessionWeekday: 6 }).leftOut,
);
