import { asDate } from '../../../shared/week.ts';
import type { RecipeBatches } from '../../../src/household/begun.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { type BatchDaysAsked, batchDays } from '../../../src/planning/days/batch-days.ts';
import type { Plan, PlannedWeek } from '../../../src/planning/plan.ts';
import { copyOf, householdAt, itemOf, kettle, ownRecipe } from '../../preserving/own-kitchen.ts';
import { tables } from '../../preserving/tables.ts';

// Canning on Saturdays, seen on Wednesday, August 19, 2026. Quick dill pickles stand 12 hours in salt water before their load (USDA
// Complete Guide 6, p6-10): for Saturday they are begun on Friday evening.

export const today = asDate('2026-08-19');
export const saturday = asDate('2026-08-22');
export const dill = copyOf('quick-dill-pickles', {}, { itemId: 'dill' as never });
export const peaches = copyOf('peaches-pints', {}, { itemId: 'peaches' as never });
export const leather = ownRecipe('Plum leather', {
  id: 'leather' as never,
  itemId: 'leather' as never,
  readyAfterDays: 2,
});
const items = [
  itemOf('Dill pickles', { id: 'dill' as never }),
  itemOf('Peaches', { id: 'peaches' as never }),
  itemOf('Plum leather', { id: 'leather' as never, keeping: 'dried' }),
];

export const weekOf = (week: string, ...sessions: readonly (readonly [Recipe, number])[]) =>
  ({
    week,
    sessions: sessions.map(([recipe, batches]) => ({
      recipe: recipe.id,
      batches,
      handsOnMinutes: 60,
      jars: [],
      loads: 1,
    })),
    purchases: [],
    kitchenSessions: 1,
  }) as unknown as PlannedWeek;
export const planOf = (...weeks: readonly PlannedWeek[]) => ({ weeks }) as unknown as Plan;

export const begun = (id: string, begunAt: string, batches = 1, recipe = dill): RecipeBatches =>
  ({
    id,
    recipeId: recipe.id,
    batches,
    begun: [{ position: 1, way: null, begunAt }],
    isThrownAway: false,
  }) as RecipeBatches;

export const asked = (change: Partial<BatchDaysAsked> = {}): BatchDaysAsked => ({
  asOf: today,
  plan: planOf(weekOf('2026-W34', [dill, 1])),
  sessions: [],
  results: [],
  preparations: { batches: [], filled: [] },
  recipes: [dill, peaches, leather],
  items,
  canners: [kettle],
  hours: {
    sessionsPerWeek: 1,
    hoursPerSession: 6,
    setUpMinutes: 20,
    stoveBurners: 4,
    sessionWeekday: 6,
    weeks: [],
  } as BatchDaysAsked['hours'],
  household: householdAt(5300, { weekStartsOn: 'monday' }),
  reference: tables,
  ...change,
});
export const days = (change: Partial<BatchDaysAsked> = {}) => batchDays(asked(change));
export const brief = (change: Partial<BatchDaysAsked> = {}) =>
  days(change).map(({ key, batches, begunId, plannedOn, calendar }) => ({
    key,
    batches,
    begunId,
    plannedOn,
    state: calendar.state,
    load: calendar.load?.on ?? null,
  }));
