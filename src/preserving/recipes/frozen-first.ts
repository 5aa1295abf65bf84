import type { RecipeKind } from '../../../shared/schemas/reference/recipe.ts';

/**
 * Kinds of tested recipe whose fruit may wait in the freezer: it is cooked down with sugar and its acid does not change. From
 * memory: guides of extension services make jams and jellies of unsweetened frozen fruit as of fresh; of any other kind no
 * guide was read that does.
 */
const fromFrozen: readonly RecipeKind[] = ['jam', 'jelly', 'syrup'];

/**
 * Whether the produce of a recipe may be frozen when it is ripe and put up later: of a tested one by its kind, of a household's own
 * way that is never canned as it likes. `kind` is null of what copies no tested recipe.
 */
export const mayBeFrozenFirst = (kind: RecipeKind | null, isOwnUncanned: boolean): boolean =>
  kind === null ? isOwnUncanned : fromFrozen.includes(kind);
