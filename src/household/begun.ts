import type { RecipeId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** A minute on the clock of the kitchen, ISO text without a zone: `2026-08-12T21:00`. Sorts as text. */
export type LocalDateTime = string;

/** A stage that was done, and when: its wait runs from then. */
export interface BegunStage {
  readonly position: number;
  /** The printed way it was begun by; null where only one is printed. */
  readonly way: string | null;
  readonly begunAt: LocalDateTime;
}

/** Batches of one recipe that were begun together, days or hours before their canner load. */
export interface PreparedBatches {
  readonly id: string;
  readonly batches: number;
  /** Oldest first; at least one. */
  readonly begun: readonly BegunStage[];
}

/** Batches of a recipe that were filled into jars on a day. */
export interface FilledOn {
  /** ISO date. */
  readonly on: string;
  readonly batches: number;
}

/** Batches begun before their canner load, of one recipe. */
export interface RecipeBatches extends PreparedBatches {
  readonly recipeId: RecipeId;
  readonly isThrownAway: boolean;
}

export interface RecipeFilledOn extends FilledOn {
  readonly recipeId: RecipeId;
  readonly on: CalendarDate;
}

/** Everything begun before its canner load, and what became of it. */
export interface Preparations {
  readonly batches: readonly RecipeBatches[];
  readonly filled: readonly RecipeFilledOn[];
}

export const noPreparations: Preparations = { batches: [], filled: [] };
