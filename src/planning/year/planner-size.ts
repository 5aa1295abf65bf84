import { counted } from '../../../shared/counting.ts';
import type { PlanningYear } from '../planning-year.ts';

/**
 * Things times recipes: up to the first the planner was measured to finish within its time (`bench:plan`, 280 things and
 * 160 recipes); from the second on it was seen to find nothing in that time and to take over a gigabyte (494 and 312).
 */
const plannerSize = { measured: 280 * 160, most: 120_000 } as const;

const sizeOf = ({ items, recipes }: PlanningYear): number => items.length * recipes.length;

const countWords = ({ items, recipes }: PlanningYear): string =>
  `${counted(items.length, 'thing')} and ${counted(recipes.length, 'recipe')}`;

/** Why a year is not planned at all; null when it is not too large. */
export const tooLargeWords = (year: PlanningYear): string | null =>
  sizeOf(year) <= plannerSize.most
    ? null
    : `This household keeps ${countWords(year)}, more than can be planned together (things times recipes: ${sizeOf(year)}, at most ${plannerSize.most}), so no plan was begun. Retire what you no longer keep or make, then plan again.`;

/** What is said while a large year is being planned; null for others. */
export const largeWords = (year: PlanningYear): string | null =>
  sizeOf(year) <= plannerSize.measured
    ? null
    : `This household is large (${countWords(year)}): it may take minutes, and it may be that no plan is found.`;

/** What may help when no plan was found in time. */
export const noPlanInTimeWords = (year: PlanningYear): string =>
  largeWords(year) === null
    ? 'No plan was found in the time allowed. Plan again; if it happens twice, take back some pinned batches.'
    : `No plan was found in the time allowed: this household is large (${countWords(year)}). Retire what you no longer keep or make, then plan again.`;
