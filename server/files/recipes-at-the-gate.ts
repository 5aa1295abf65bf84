import { letters } from '../../shared/bounds.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { nameOfAnotherFood } from '../../src/preserving/foods/food-names.ts';
import { processOfRecipe } from '../../src/preserving/process-here.ts';
import { recipeBasis } from '../../src/preserving/recipes/recipe-basis.ts';
import { changesRuling } from '../../src/preserving/recipes/recipe-changes.ts';
import type { Refusal } from '../../src/preserving/refusal.ts';
import { daysFromFilling } from '../../src/preserving/stages/days-from-filling.ts';
import type { Writing } from '../database/database.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';

type Cell = string | number | null;
type FileRow = Readonly<Record<string, Cell>>;

/** A recipe of a file whose process is not believed. */
export interface ProcessNotBelieved {
  readonly recipeId: string;
  readonly name: string;
  readonly reason: string;
}

let shipped: ReferenceTables | undefined;
/** The tables of this program, read once. */
export const shippedTables = (): ReferenceTables => {
  shipped ??= loadReferenceTables();
  return shipped;
};

/**
 * The tables of a household's file as they may come in: each recipe with a process is held against what it is based on, its
 * crops, names and changes as if somebody had typed it. What is refused keeps everything but its process, with the reason;
 * nothing is dropped. A name that is only asked about stays: the gate asks.
 */
export function recipesAtTheGate<Rows extends Readonly<Record<string, readonly FileRow[]>>>(
  tables: Rows,
  reference: ReferenceTables,
): { readonly tables: Rows; readonly notCanned: readonly ProcessNotBelieved[] } {
  const itemNames = new Map((tables.item ?? []).map((row) => [row.id, text(row.name)]));
  const crops = new Map<Cell, string[]>();
  for (const row of tables.recipe_produce ?? []) {
    const id = row.recipe_id ?? null;
    crops.set(id, [...(crops.get(id) ?? []), text(row.crop)]);
  }
  const notCanned: ProcessNotBelieved[] = [];
  const recipe = (tables.recipe ?? []).map((given): FileRow => {
    const row: FileRow = { ...given, based_on: keyOfPage(given) };
    if (row.process_food === null || row.process_food === undefined) return row;
    const against = problemsOf(row, {
      names: [itemNames.get(row.item_id ?? null) ?? '', text(row.name)].filter((name) => name !== ''),
      crops: crops.get(row.id ?? null) ?? [],
      reference,
    });
    if (against.length === 0) return { ...row, ...readyFromFilling(row, reference) };
    const reason =
      `${against.map(({ message }) => message).join(' ')} It was brought in so; add the recipe from the book again, or keep what it makes frozen or refrigerated.`.slice(
        0,
        letters.refusal,
      );
    notCanned.push({ recipeId: text(row.id), name: text(row.name), reason });
    return {
      ...row,
      process_food: null,
      process_style: null,
      process_pack: null,
      canner_id: null,
      process_refused: reason,
    };
  });
  return { tables: tables.recipe === undefined ? tables : { ...tables, recipe }, notCanned };
}

/**
 * Holds the recipes of a household that has just come in against the gate, in the transaction that brings it in. What a file
 * says is not in them is no answer of anybody here: it is asked again.
 */
export async function holdRecipesAtTheGate(
  trx: Writing,
  householdId: HouseholdId,
  reference: ReferenceTables,
): Promise<readonly ProcessNotBelieved[]> {
  await trx.deleteFrom('name_denial').where('household_id', '=', householdId).execute();
  const own = (table: 'item' | 'recipe' | 'recipe_produce') =>
    trx.selectFrom(table).selectAll().where('household_id', '=', householdId).execute();
  const { tables, notCanned } = recipesAtTheGate(
    {
      item: (await own('item')) as unknown as readonly FileRow[],
      recipe: (await own('recipe')) as unknown as readonly FileRow[],
      recipe_produce: (await own('recipe_produce')) as unknown as readonly FileRow[],
    },
    reference,
  );
  const refused = new Map(notCanned.map(({ recipeId, reason }) => [recipeId, reason]));
  for (const { id, based_on } of tables.recipe) {
    const reason = refused.get(text(id));
    await trx
      .updateTable('recipe')
      .set({
        based_on: text(based_on),
        ...(reason === undefined
          ? {}
          : {
              process_food: null,
              process_style: null,
              process_pack: null,
              canner_id: null,
              process_refused: reason,
            }),
      })
      .where('household_id', '=', householdId)
      .where('id', '=', text(id))
      .execute();
  }
  return notCanned;
}

const text = (cell: Cell | undefined): string => (cell === null || cell === undefined ? '' : String(cell));

function problemsOf(
  row: FileRow,
  {
    names,
    crops,
    reference,
  }: {
    readonly names: readonly string[];
    readonly crops: readonly string[];
    readonly reference: ReferenceTables;
  },
): readonly Refusal[] {
  const belongs = processOfRecipe(reference, {
    basedOn: text(row.based_on),
    names,
    process: {
      food: text(row.process_food),
      style: text(row.process_style),
      pack: text(row.process_pack),
    },
    crops,
  });
  if (!belongs.ok) return belongs.problems.filter(({ code }) => code !== nameOfAnotherFood);
  const { tested } = belongs.value.basis;
  const changes = changesOf(row);
  if (tested === null || changes.length === 0) return [];
  const ruling = changesRuling(tested, changes);
  return ruling.ok ? [] : ruling.problems;
}

/** Files were once written with the days of the stages counted in; the jars' own begin when they are filled. */
function readyFromFilling(row: FileRow, reference: ReferenceTables): FileRow {
  const days = row.ready_after_days;
  const tested = recipeBasis(reference, text(row.based_on), {
    style: text(row.process_style),
    pack: text(row.process_pack),
  })?.tested;
  return typeof days !== 'number' || tested == null
    ? {}
    : { ready_after_days: daysFromFilling(tested, days) };
}

/** Names of changes; a text that is no list of them is one that no rule allows. */
function changesOf({ changes_json }: FileRow): readonly string[] {
  try {
    const read: unknown = JSON.parse(text(changes_json) || '[]');
    return Array.isArray(read) ? read.map(String) : ['unreadable'];
  } catch {
    return ['unreadable'];
  }
}

/** Files of the demo household were once written with the page of a guide where the key of the recipe now stands. */
const pages: Readonly<Record<string, string>> = {
  'UI-EXT strawberry jam page|strawberry-jam': 'strawberry-jam',
  'NCHFP-COPY cherry jam page|cherry-jam': 'cherry-jam-powder',
  'MU-SS recipe 437|berry-jam': 'berry-jam-no-pectin-large',
  'MU-SS recipe 147|peach-jam': 'peach-jam-liquid',
  'MU-SS recipe 166|grape-jelly': 'grape-jelly-powder',
  'USDA-G2 p2-6|apple-butter': 'apple-butter',
  'USDA-G2 p2-19|peaches': 'peaches-quarts',
  'USDA-G2 p2-19|pears': 'pears-quarts',
  'USDA-G2 p2-7|applesauce': 'applesauce-pints',
  'USDA-G3 p3-7|tomatoes-crushed': 'tomatoes-crushed-quarts',
  'USDA-G3 p3-8|tomato-sauce': 'tomato-sauce-thin-pints',
  'USDA-G3 p3-21|chile-salsa': 'chile-salsa',
  'USDA-G6 p6-10|quick-dill-pickles': 'quick-dill-pickles',
  'USDA-G6 p6-9|bread-and-butter-pickles': 'bread-and-butter-pickles',
  'USDA-G6 p6-15|pickled-beets': 'pickled-beets',
  'USDA-G4 p4-8|beans-snap': 'beans-snap-pints',
  'USDA-G4 p4-11|corn-whole-kernel': 'corn-whole-kernel-pints',
  'USDA-G5 meat stock|meat-stock': 'meat-stock',
  'USDA-G4 p4-5|beans-dried': 'beans-dried-pints',
  'USDA-G6 p6-8|': 'sauerkraut',
};

const keyOfPage = (row: FileRow): Cell =>
  pages[`${text(row.based_on)}|${text(row.process_food)}`] ?? row.based_on ?? null;
