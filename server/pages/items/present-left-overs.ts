import { oneOrMore } from '../../../shared/counting.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Material } from '../../../src/household/supplies.ts';
import { mayTake } from '../../../src/preserving/ask-gate.ts';
import { byProductOf, materialOfKey } from '../../../src/preserving/recipes/by-product.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import type { LeftOversProps } from '../../../views/pages/items/left-overs.tsx';
import { formatQuantity, readersUnit } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { saidLeftOversOf } from '../../queries/household/recipes.ts';
import {
  byProductChoices,
  choiceOfMaterial,
  leftOverWords,
  madeOfByProduct,
} from '../../words/canning/left-over-words.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { type AsCounted, asCounted, unitsTyped } from '../shared/produce/own-units.ts';

/** What is asked of the household for it. */
export interface LeftOversPicture {
  readonly item: Pick<Item, 'id'>;
  readonly materials: readonly Material[];
  readonly saidLeftOvers: Awaited<ReturnType<typeof saidLeftOversOf>>;
  /** The tested recipe of the book that each own one copies. */
  readonly copies: ReadonlyMap<string, TestedRecipe>;
  readonly reference: ReferenceTables;
  readonly reading: Reading;
}

/** What a by-product is weighed in, by its key or id; those of the book nobody has written down yet are weighed in pounds. */
const unitOfKey = (key: string | undefined, materials: readonly Material[]): string =>
  materialOfKey(key, materials)?.unit ?? 'lb';

/** What was typed of left-overs, each amount in what its by-product is kept in. */
export function leftOversCounted(
  typed: Readonly<Record<string, string>>,
  { materials, reading }: Pick<LeftOversPicture, 'materials' | 'reading'>,
): AsCounted {
  const leaves = asCounted(typed, unitOfKey(typed.leaves, materials), ['leavesAmount'], reading);
  const takes = asCounted(leaves.values, unitOfKey(typed.takes, materials), ['takesAmount'], reading);
  return { values: takes.values, asTyped: (problem) => leaves.asTyped(takes.asTyped(problem)) };
}

/** What a recipe leaves and takes, and the form in which a household says so. */
export function presentLeftOvers(
  recipe: Recipe,
  { item, materials, saidLeftOvers, copies, reference, reading }: LeftOversPicture,
  state: StateOfForm,
): LeftOversProps {
  const said = (direction: 'gives' | 'uses') =>
    saidLeftOvers.find((one) => one.recipeId === recipe.id && one.direction === direction);
  const [gives, uses] = [said('gives'), said('uses')];
  const printed = byProductOf(recipe, materials, reference);
  const [counted] = recipe.gives;
  const unitOf = (materialId: string | undefined) => unitOfKey(materialId, materials);
  const keyOf = (materialId: string) => choiceOfMaterial(materialId, materials, reference);
  const isCanned = recipe.process !== null || recipe.awaitsCanner;
  const choices = byProductChoices(materials, reference, 'nothing');
  const takesChoices = isCanned
    ? choices.filter(({ value }) => value === '' || mayTake(copies.get(recipe.id) ?? null, value))
    : choices;
  return {
    action: `/items/${item.id}/recipes/${recipe.id}/left-overs`,
    recipeName: recipe.name,
    leaves: leftOverWords(recipe.gives, materials, reading),
    takes: leftOverWords(recipe.uses, materials, reading),
    madeOfIt: printed === null ? [] : madeOfByProduct(printed.name, reference),
    leavesHint:
      counted !== undefined && (gives === undefined || gives.quantity !== counted.quantity)
        ? `What you weighed comes to ${formatQuantity(Math.round(counted.quantity * 100) / 100, unitOf(counted.materialId), reading)} a batch, and the plan counts on that.`
        : printed === null
          ? 'Weigh it once, or put your guess.'
          : `No amount is published: weigh it, or put your guess. Left blank, the plan takes none of it. It keeps ${oneOrMore(printed.keepsDays, 'day')} cold.`,
    leavesUnit: readersUnit(unitOf(gives?.materialId ?? counted?.materialId), reading),
    takesUnit: readersUnit(unitOf(uses?.materialId), reading),
    leavesChoices: choices,
    takesChoices: takesChoices.length > 1 ? takesChoices : [],
    form: state(
      `left-overs-${recipe.id}`,
      {
        leaves: gives === undefined ? '' : keyOf(gives.materialId),
        leavesAmount:
          gives === undefined ? '' : unitsTyped(gives.quantity, unitOf(gives.materialId), reading),
        takes: uses === undefined ? '' : keyOf(uses.materialId),
        takesAmount: uses === undefined ? '' : unitsTyped(uses.quantity, unitOf(uses.materialId), reading),
      },
      takesChoices.length > 1 ? [] : ['takes', 'takesAmount'],
    ),
  };
}
