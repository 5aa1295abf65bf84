import type { BatchQuantityRow } from './batch-quantity.ts';
import type { BoilingPointRow } from './boiling-point.ts';
import type { CannerFactRow } from './canner-fact.ts';
import type { DaysToHarvestRow } from './days-to-harvest.ts';
import type { EmergencyAdviceRow } from './emergency-advice.ts';
import type { FoodStepRow } from './food-step.ts';
import type { FreezeNormalRow } from './freeze-normal.ts';
import type { HarvestWindowRow } from './harvest-window.ts';
import type { MeasureRow } from './measure.ts';
import type { ProcessTimeRow } from './process-time.ts';
import type { ProduceYieldRow } from './produce-yield.ts';
import type {
  IngredientRow,
  RecipeByProductRow,
  RecipeCuringRow,
  RecipeProcessRow,
  RecipeStageRow,
} from './recipe.ts';
import type { ServingRow } from './serving.ts';
import type { ShelfLifeRow } from './shelf-life.ts';
import type { SourceRow } from './source.ts';
import type { StorageNoteRow } from './storage-note.ts';
import type { UncannedWayRow } from './uncanned-way.ts';

/** Every published table, parsed once. Rows keep the order of their file. */
export interface ReferenceTables {
  readonly processTimes: readonly ProcessTimeRow[];
  readonly yields: readonly ProduceYieldRow[];
  readonly cannerFacts: readonly CannerFactRow[];
  readonly shelfLives: readonly ShelfLifeRow[];
  readonly harvestWindows: readonly HarvestWindowRow[];
  readonly daysToHarvest: readonly DaysToHarvestRow[];
  /** Read when first asked for: it is by far the longest. */
  readonly freezeNormals: readonly FreezeNormalRow[];
  readonly servings: readonly ServingRow[];
  readonly measures: readonly MeasureRow[];
  readonly batchQuantities: readonly BatchQuantityRow[];
  readonly ingredients: readonly IngredientRow[];
  readonly recipeProcesses: readonly RecipeProcessRow[];
  readonly recipeStages: readonly RecipeStageRow[];
  readonly foodSteps: readonly FoodStepRow[];
  readonly recipeCuring: readonly RecipeCuringRow[];
  readonly recipeByProducts: readonly RecipeByProductRow[];
  readonly uncannedWays: readonly UncannedWayRow[];
  readonly boilingPoints: readonly BoilingPointRow[];
  readonly emergencyAdvice: readonly EmergencyAdviceRow[];
  readonly storageNotes: readonly StorageNoteRow[];
  readonly sources: readonly SourceRow[];
}
