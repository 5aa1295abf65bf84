import { type JarSize, jarSizes, nominalMl } from '../../../shared/jar.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import { type Canner, jarsPerLoad } from '../canner.ts';
import type { ProcessTables } from '../lookup/process-lookup.ts';
import type { RecipeProcess, TestedRecipe } from './recipe-book.ts';
import { schedulesForRecipe } from './recipe-schedule.ts';

/** A canner of the household with the id it goes by. */
export interface OwnCanner extends Canner {
  readonly id: string;
}

/** Where and with what a household cans; the altitude is null until it was said. */
export interface CanningPlace {
  readonly altitudeFt: number | null;
  readonly canners: readonly OwnCanner[];
  readonly on: CalendarDate;
}

/** One jar size of a recipe, put up by one printed process in one canner. */
export interface TestedWay {
  readonly jar: JarSize;
  readonly cannerId: string;
  readonly process: RecipeProcess;
}

export interface TestedWays {
  /** A published schedule exists for these here and now; at most one for each jar size. */
  readonly here: readonly TestedWay[];
  /** The canner fits and the table prints the jar, but altitude, gauge or a gauge check is still missing. */
  readonly waiting: readonly TestedWay[];
  /** Sizes the table prints for this recipe in any canner. */
  readonly printed: readonly JarSize[];
  /** Why there is nothing to plan with; empty when `here` is not. */
  readonly why: readonly string[];
}

/** Acid food is done in boiling water where that is tested; pressure is for what needs it. */
const methodOrder: readonly Canner['method'][] = ['boiling-water', 'atmospheric-steam', 'pressure'];

/**
 * How a recipe of the book can be put up in a kitchen: for each jar size the first canner, boiling water before steam
 * before pressure, that has a published schedule at this altitude and holds at least one such jar. Nothing is estimated:
 * what has no row is not offered, and remembered rows do not count.
 *
 * A canner load is printed for its own jar alone; a batch may go into any printed size.
 */
export const testedWays = (
  tables: ProcessTables,
  recipe: TestedRecipe,
  { altitudeFt, canners, on }: CanningPlace,
): TestedWays => {
  const printed = printedSizes(tables, recipe);
  const inOrder = [...canners].sort(
    (one, other) => methodOrder.indexOf(one.method) - methodOrder.indexOf(other.method),
  );
  const here: TestedWay[] = [];
  const waiting: TestedWay[] = [];
  const why = new Set<string>();
  for (const jar of printed) {
    for (const canner of inOrder) {
      const process = printedFor(tables, recipe, jar, canner);
      if (!process) continue;
      const way = { jar, cannerId: canner.id, process };
      if (altitudeFt === null) {
        waiting.push(way);
        why.add(altitudeMissing);
        continue;
      }
      const ruling = schedulesForRecipe(tables, recipe, { jar, canner, altitudeFt, sessionOn: on });
      if (!ruling.ok) {
        waiting.push(way);
        for (const { message } of ruling.problems) why.add(message);
        continue;
      }
      const perLoad = jarsPerLoad(canner, jar, tables.cannerFacts);
      if (!perLoad.ok || perLoad.value < 1) continue;
      const [{ style, pack, foodKey }] = ruling.value;
      here.push({ jar, cannerId: canner.id, process: { style, pack, foodKey } });
      break;
    }
  }
  if (here.length > 0) return { here, waiting: [], printed, why: [] };
  if (waiting.length === 0) why.add(cannerMissing(tables, recipe));
  return { here, waiting, printed, why: [...why] };
};

const altitudeMissing =
  'The altitude of the kitchen is not known, and every processing time depends on it. Enter it on the kitchen page.';

/** Rows that were read; a remembered one is never a schedule. */
const rowsOf = ({ processTimes }: ProcessTables, recipe: TestedRecipe): ProcessTables['processTimes'] =>
  rowsRead({ processTimes, recipe });

// The list of the book asks for those of each recipe again for every jar and canner.
const rowsRead = whileTheSame(
  'recipe',
  ({
    processTimes,
    recipe,
  }: Pick<ProcessTables, 'processTimes'> & {
    readonly recipe: TestedRecipe;
  }): ProcessTables['processTimes'] =>
    processTimes.filter(
      (row) =>
        row.basis === 'read' &&
        recipe.processes.some(
          ({ foodKey, style, pack }) => row.foodKey === foodKey && row.style === style && row.pack === pack,
        ),
    ),
);

/** What a recipe of the book may be put up in, by the rows that were read, whatever the kitchen has. */
export const cannedIn = (tables: ProcessTables, recipe: TestedRecipe): readonly Canner['method'][] => {
  const rows = rowsOf(tables, recipe);
  return methodOrder.filter((method) =>
    rows.some((row) => (row.method === 'boiling-water') === (method !== 'pressure')),
  );
};

const printedSizes = (tables: ProcessTables, recipe: TestedRecipe): readonly JarSize[] => {
  const rows = rowsOf(tables, recipe);
  const largest = Math.max(0, ...rows.map((row) => nominalMl[row.jar]));
  const wanted: readonly JarSize[] =
    recipe.amounts === 'load' ? [recipe.yield.jar] : jarSizes.filter((size) => sizesInUse.has(size));
  return wanted.filter(
    (size) => rows.some((row) => row.jar === size) || (nominalMl[size] < largest && size === 'half-pint'),
  );
};

/** Sizes a household buys; the odd and the metric ones are looked up one at a time with the schedule finder. */
const sizesInUse: ReadonlySet<JarSize> = new Set(['quarter-pint', 'half-pint', '12-oz', 'pint', 'quart']);

const printedFor = (
  tables: ProcessTables,
  recipe: TestedRecipe,
  jar: JarSize,
  canner: Canner,
): RecipeProcess | undefined => {
  const fits = rowsOf(tables, recipe).find(
    (row) =>
      nominalMl[row.jar] >= nominalMl[jar] &&
      (row.method === 'boiling-water') === (canner.method !== 'pressure'),
  );
  return fits && { foodKey: fits.foodKey, style: fits.style, pack: fits.pack };
};

const cannerMissing = (tables: ProcessTables, recipe: TestedRecipe): string => {
  const rows = rowsOf(tables, recipe);
  if (rows.length === 0)
    return 'No tested process that was read stands in the tables for this recipe, so it is not canned here.';
  return rows.some((row) => row.method === 'boiling-water')
    ? 'No canner of this kitchen fits it: a boiling-water canner is needed. Add it on the kitchen page.'
    : 'Only a pressure canner makes this food safe, and this kitchen has none that fits. Add it on the kitchen page.';
};
