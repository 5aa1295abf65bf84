import type { RecipeId } from '../../shared/ids.ts';
import type { WeekKey } from '../../shared/week.ts';

export type BatchDecision =
  | {
      readonly recipeId: RecipeId;
      readonly week: WeekKey;
      readonly decision: 'pinned';
      readonly batches: number;
    }
  | {
      readonly recipeId: RecipeId;
      readonly week: WeekKey;
      readonly decision: 'done';
      readonly batches: number;
    }
  | { readonly recipeId: RecipeId; readonly week: WeekKey; readonly decision: 'ruled-out' };
