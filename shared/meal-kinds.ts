/** What food is in a meal, as far as servings are wanted of it. */
export const mealKinds = ['fruit', 'vegetable', 'protein', 'sweet'] as const;
export type MealKind = (typeof mealKinds)[number];

/** What an item can be said to count as. */
export const countsAsKinds = [...mealKinds, 'none'] as const;
export type CountsAs = (typeof countsAsKinds)[number];
