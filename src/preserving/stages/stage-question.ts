import type { LocalDateTime } from '../../household/begun.ts';
import type { Citation } from '../citation.ts';
import type { BasisTables } from '../recipes/recipe-basis.ts';
import type { RecipeProcess, TestedRecipe } from '../recipes/recipe-book.ts';

/** A stage that was recorded as begun. */
export interface PreparedStage {
  /** Position in the recipe; 1 is the first. */
  readonly position: number;
  /** Which printed way it belongs to; `null` where there is only one. */
  readonly way: string | null;
  readonly begunAt: LocalDateTime;
}

/** Nothing to hold against the clock yet (the plan), or what was recorded. */
export type Prepared = 'as-planned' | readonly PreparedStage[];

/** A stage that must have been begun, and have lasted, before the jars are filled. */
export interface StageBefore {
  readonly position: number;
  readonly way: string | null;
  readonly what: string;
  readonly leastHours: number;
  /** `null` where the source prints no upper limit. */
  readonly mostHours: number | null;
  readonly source: Citation;
}

export interface StageQuestion {
  readonly tested: TestedRecipe | null;
  readonly process: RecipeProcess;
  readonly prepared: Prepared;
  /** When the jars are to be filled. */
  readonly at: LocalDateTime;
  readonly tables: BasisTables;
  /** Of the kitchen; hours are counted on a clock that never changes where it is left out. */
  readonly timeZone?: string;
}
export type StageAnswer = readonly StageBefore[];
