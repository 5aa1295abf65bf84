import type { FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { isCanned } from '../../../src/preserving/ask-gate.ts';
import { nameQuestions, testedFoodOf } from '../../../src/preserving/foods/name-questions.ts';
import { measuresIn } from '../../../src/preserving/foods/trade-measures.ts';
import { copiedRecipe } from '../../../src/preserving/recipes/copied-recipe.ts';
import { publishedLife } from '../../../src/preserving/recipes/recipe-life.ts';
import { itemById, retiredItems } from '../../queries/household/items.ts';
import { retiredRecipes, saidLeftOversOf } from '../../queries/household/recipes.ts';
import { guessesOf } from '../../queries/year/guesses.ts';
import { shelfOfRequest } from '../../year/book-of-year.ts';
import { leftOutToday } from '../../year/left-out-today.ts';
import { factsOfRequest, yearOfRequest } from '../../year/year-of-request.ts';
import type { ItemPicture } from './present-item.ts';
import type { ItemsPicture } from './present-items.ts';

/** Everything the household keeps, with what stands in the way of planning it. */
export async function itemsPicture(request: FastifyRequest): Promise<ItemsPicture> {
  const { household, today, reading } = request;
  const { db, reference } = request.server;
  const [{ loaded, plan }, retired, shelf, guessed] = await Promise.all([
    yearOfRequest(request),
    retiredItems(db, household.id),
    shelfOfRequest(request),
    guessesOf(db, household.id),
  ]);
  const { recipes, storePacks: packs, supplies: used, sources } = loaded.facts;
  const items = loaded.facts.items.filter(({ retiredOn }) => retiredOn === null);
  return {
    items,
    retired,
    unitsLeft: new Map(shelf.map(({ item, units }) => [item.id, units])),
    recipes,
    leftOut: leftOutToday(loaded.facts, household, today, reference),
    packs,
    supplies: used,
    sources,
    guesses: guessed,
    plan: plan?.plan ?? null,
    reference,
    reading,
  };
}

/** One item, kept or retired; an unknown one is a page that does not exist. */
export async function itemPicture(request: FastifyRequest, itemId: string): Promise<ItemPicture> {
  const { household, reading } = request;
  const { db, reference } = request.server;
  const [{ canners, lids, materials }, all, item, unused, saidLeftOvers] = await Promise.all([
    factsOfRequest(request),
    itemsPicture(request),
    itemById(db, household.id, itemId),
    retiredRecipes(db, household.id),
    saidLeftOversOf(db, household.id),
  ]);
  if (item === null) throw new ShelfwardError('not-found', `itemPicture: no item ${itemId}`);
  return {
    item,
    unitsLeft: all.unitsLeft.get(item.id) ?? 0,
    recipes: all.recipes.filter((recipe) => recipe.itemId === item.id),
    retiredRecipes: unused.filter((recipe) => recipe.itemId === item.id),
    leftOut: all.leftOut,
    packs: all.packs.get(item.id) ?? [],
    supplies: all.supplies,
    sources: all.sources,
    lids,
    materials,
    saidLeftOvers,
    reference,
    canners,
    guesses: all.guesses,
    copies: new Map(
      all.recipes.flatMap((recipe) => {
        const tested = copiedRecipe(recipe, reference);
        return tested === undefined ? [] : [[recipe.id, tested] as const];
      }),
    ),
    reading,
    published: item.keeping === 'canned' ? publishedLife(item.shelfLifeKey, reference.shelfLives) : null,
    timeZone: household.timeZone,
    measuresOf: measuresIn(reference),
    questions: new Map(
      all.recipes
        .filter((recipe) => recipe.itemId === item.id && isCanned(recipe, item))
        .map(({ id, name, basedOn, process, nameDenials }) => {
          const open = nameQuestions(
            [item.name, name],
            testedFoodOf(reference, basedOn, process),
            nameDenials,
          );
          return [id, open.ok ? open.value : []] as const;
        }),
    ),
  };
}
