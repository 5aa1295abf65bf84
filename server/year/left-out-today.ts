import { whileTheSame } from '../../shared/remembering.ts';
import { type CalendarDate, weekOf } from '../../shared/week.ts';
import type { HouseholdFacts } from '../../src/household/facts.ts';
import { type Kitchen, type LeftOutRecipe, recipesHere } from '../../src/planning/year/planned-recipes.ts';

type Asked = Pick<Kitchen, 'household' | 'canners' | 'items' | 'asOf' | 'reference'> &
  Pick<HouseholdFacts, 'recipes'>;

/** Recipes that may not be put up in a household's kitchen today, whatever a plan counts on. */
export const leftOutToday = (
  { household, canners, items, recipes }: HouseholdFacts,
  asOf: CalendarDate,
  reference: Kitchen['reference'],
): readonly LeftOutRecipe[] =>
  leftOut({
    household,
    canners,
    items: items.filter(({ retiredOn }) => retiredOn === null),
    recipes,
    asOf,
    reference,
  });

// The weekday of a session says when a batch is made, not whether it may be.
const leftOut = whileTheSame(
  'recipes',
  ({ recipes, ...kitchen }: Asked) =>
    recipesHere(recipes, { ...kitchen, weeks: [weekOf(kitchen.asOf)], sessionWeekday: 6 }).leftOut,
);
