import type { CountsAs } from '../../../shared/meal-kinds.ts';

/** What an item counts as in meals, as pages say it. */
export const countsAsWords: Readonly<Record<CountsAs, string>> = {
  fruit: 'fruit',
  vegetable: 'vegetables',
  protein: 'protein',
  sweet: 'sweet',
  none: 'none of these',
};
