import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { z } from 'zod';
import { ShelfwardError } from '../../shared/problems.ts';
import { batchQuantityRow } from '../../shared/schemas/reference/batch-quantity.ts';
import { boilingPointRow } from '../../shared/schemas/reference/boiling-point.ts';
import { cannerFactRow } from '../../shared/schemas/reference/canner-fact.ts';
import { daysToHarvestRow } from '../../shared/schemas/reference/days-to-harvest.ts';
import { emergencyAdviceRow } from '../../shared/schemas/reference/emergency-advice.ts';
import { foodStepRow } from '../../shared/schemas/reference/food-step.ts';
import { freezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { harvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { measureRow } from '../../shared/schemas/reference/measure.ts';
import { processTimeRow } from '../../shared/schemas/reference/process-time.ts';
import { produceYieldRow } from '../../shared/schemas/reference/produce-yield.ts';
import {
  ingredientRow,
  recipeByProductRow,
  recipeCuringRow,
  recipeProcessRow,
  recipeStageRow,
} from '../../shared/schemas/reference/recipe.ts';
import { servingRow } from '../../shared/schemas/reference/serving.ts';
import { shelfLifeRow } from '../../shared/schemas/reference/shelf-life.ts';
import { sourceRow } from '../../shared/schemas/reference/source.ts';
import { storageNoteRow } from '../../shared/schemas/reference/storage-note.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { uncannedWayRow } from '../../shared/schemas/reference/uncanned-way.ts';
import { readTable } from './read-table.ts';

export type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';

const shippedFolder = fileURLToPath(new URL('../../seed-data/reference/', import.meta.url));
const climateFile = fileURLToPath(new URL('../../seed-data/climate/freeze-normals.csv', import.meta.url));

/** Reads every published table once, at boot. A table that does not fit its schema stops the program with the line named. */
export const loadReferenceTables = (folder: string = shippedFolder): ReferenceTables => {
  const load = <Row>(file: string, schema: z.ZodType<Row>): readonly Row[] =>
    readWhole(file, `${folder}/${file}`, schema);
  return {
    processTimes: load('process-times.csv', processTimeRow),
    yields: load('yields.csv', produceYieldRow),
    cannerFacts: load('canner-capacity.csv', cannerFactRow),
    shelfLives: load('shelf-life.csv', shelfLifeRow),
    harvestWindows: load('harvest-windows.csv', harvestWindowRow),
    daysToHarvest: load('days-to-harvest.csv', daysToHarvestRow),
    get freezeNormals() {
      climate ??= readWhole('freeze-normals.csv', climateFile, freezeNormalRow);
      return climate;
    },
    servings: load('servings.csv', servingRow),
    measures: load('measures.csv', measureRow),
    batchQuantities: load('jam-batches.csv', batchQuantityRow),
    ingredients: load('ingredients.csv', ingredientRow),
    recipeProcesses: load('recipe-processes.csv', recipeProcessRow),
    recipeStages: load('recipe-stages.csv', recipeStageRow),
    foodSteps: load('food-steps.csv', foodStepRow),
    recipeCuring: load('recipe-curing.csv', recipeCuringRow),
    recipeByProducts: load('recipe-by-products.csv', recipeByProductRow),
    uncannedWays: load('uncanned-ways.csv', uncannedWayRow),
    boilingPoints: load('altitude-boiling.csv', boilingPointRow),
    emergencyAdvice: load('emergency-advice.csv', emergencyAdviceRow),
    storageNotes: load('q10-notes.csv', storageNoteRow),
    sources: load('sources.csv', sourceRow),
  };
};

let climate: ReferenceTables['freezeNormals'] | null = null;

function readWhole<Row>(name: string, path: string, schema: z.ZodType<Row>): readonly Row[] {
  const outcome = readTable(name, readFileSync(path, 'utf8'), schema);
  if (outcome.ok) return outcome.value;
  const listed = outcome.problems.slice(0, 20).map((problem) => problem.message);
  throw new ShelfwardError('reference-table-broken', listed.join('\n'));
}
