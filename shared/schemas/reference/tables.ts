import type { z } from 'zod';
import { batchQuantityRow } from './batch-quantity.ts';
import { boilingPointRow } from './boiling-point.ts';
import { cannerFactRow } from './canner-fact.ts';
import { daysToHarvestRow } from './days-to-harvest.ts';
import { emergencyAdviceRow } from './emergency-advice.ts';
import { foodStepRow } from './food-step.ts';
import type { FreezeNormalRow } from './freeze-normal.ts';
import { harvestWindowRow } from './harvest-window.ts';
import { measureRow } from './measure.ts';
import { processTimeRow } from './process-time.ts';
import { produceYieldRow } from './produce-yield.ts';
import {
  ingredientRow,
  recipeByProductRow,
  recipeCuringRow,
  recipeProcessRow,
  recipeStageRow,
} from './recipe.ts';
import { servingRow } from './serving.ts';
import { shelfLifeRow } from './shelf-life.ts';
import { sourceRow } from './source.ts';
import { storageNoteRow } from './storage-note.ts';
import { uncannedWayRow } from './uncanned-way.ts';

/** Every published table: its file in `seed-data/reference/` and what a row of it is. */
export const referenceFiles = {
  processTimes: { file: 'process-times.csv', row: processTimeRow },
  yields: { file: 'yields.csv', row: produceYieldRow },
  cannerFacts: { file: 'canner-capacity.csv', row: cannerFactRow },
  shelfLives: { file: 'shelf-life.csv', row: shelfLifeRow },
  harvestWindows: { file: 'harvest-windows.csv', row: harvestWindowRow },
  daysToHarvest: { file: 'days-to-harvest.csv', row: daysToHarvestRow },
  servings: { file: 'servings.csv', row: servingRow },
  measures: { file: 'measures.csv', row: measureRow },
  batchQuantities: { file: 'jam-batches.csv', row: batchQuantityRow },
  ingredients: { file: 'ingredients.csv', row: ingredientRow },
  recipeProcesses: { file: 'recipe-processes.csv', row: recipeProcessRow },
  recipeStages: { file: 'recipe-stages.csv', row: recipeStageRow },
  foodSteps: { file: 'food-steps.csv', row: foodStepRow },
  recipeCuring: { file: 'recipe-curing.csv', row: recipeCuringRow },
  recipeByProducts: { file: 'recipe-by-products.csv', row: recipeByProductRow },
  uncannedWays: { file: 'uncanned-ways.csv', row: uncannedWayRow },
  boilingPoints: { file: 'altitude-boiling.csv', row: boilingPointRow },
  emergencyAdvice: { file: 'emergency-advice.csv', row: emergencyAdviceRow },
  storageNotes: { file: 'q10-notes.csv', row: storageNoteRow },
  sources: { file: 'sources.csv', row: sourceRow },
} as const satisfies Readonly<Record<string, { readonly file: string; readonly row: z.ZodType }>>;

type Published = {
  readonly [Table in keyof typeof referenceFiles]: readonly Readonly<
    z.output<(typeof referenceFiles)[Table]['row']>
  >[];
};

/** Every published table, parsed once. Rows keep the order of their file. */
export interface ReferenceTables extends Published {
  /** Read when first asked for: it is by far the longest. */
  readonly freezeNormals: readonly FreezeNormalRow[];
}
