import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { JarKind } from '../../../shared/jar.ts';
import {
  found,
  type Outcome,
  type Problem,
  refused,
  ShelfwardError,
  together,
} from '../../../shared/problems.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { poundsField, preserveForm, stapleForm } from '../../../shared/schemas/item.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Household } from '../../../src/household/household.ts';
import { type Item, inJars } from '../../../src/household/item.ts';
import { askedTogether, denialsFor, nameQuestions } from '../../../src/preserving/foods/name-questions.ts';
import { byProductsOfBook } from '../../../src/preserving/recipes/by-product.ts';
import { handsOnGuess } from '../../../src/preserving/recipes/hands-on-guess.ts';
import { keptRecipe } from '../../../src/preserving/recipes/kept-recipe.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeLife } from '../../../src/preserving/recipes/recipe-life.ts';
import {
  canningPlace,
  type RecipeToKeep,
  recipeToKeep,
} from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import { cannedIn, testedWays } from '../../../src/preserving/recipes/tested-ways.ts';
import { wayByKey } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import { NewPreservePage } from '../../../views/pages/items/new-preserve-page.tsx';
import { NewStaplePage } from '../../../views/pages/items/new-staple-page.tsx';
import { RecipeListPage } from '../../../views/pages/items/recipe-list-page.tsx';
import { itemById } from '../../queries/household/items.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { addPreserve, addStaple, type FirstUse, newItemRules } from '../../records/household/items.ts';
import { keepRecipe } from '../../records/household/recipes.ts';
import { problemsIn } from '../../records/record.ts';
import { supplyGuessFor } from '../../reference/first-year.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { nameAnswered, recordingOf, sentText } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { poundsOfCrop } from '../shared/produce/typed.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { postUncanned, postWay, sendUncanned } from './new-uncanned.ts';
import {
  type NewItemSentBack,
  presentBook,
  presentNewPreserve,
  presentNewStaple,
  presentWaysOfBook,
} from './present-new-item.ts';

type OfItem = { Params: { item: string } };

const newQuery = z.object({
  kind: z.string().max(20).catch(''),
  recipe: z.string().max(80).catch(''),
  item: z.string().max(64).catch(''),
  find: z.string().max(80).catch(''),
  way: z.string().max(80).catch(''),
  by: z.enum(['', 'boiling-water', 'pressure', 'none']).catch(''),
});

const newItems: FastifyPluginAsync = async (app) => {
  app.get('/items/new', async (request, reply) => {
    const { kind, recipe, item, find, way, by } = newQuery.parse(request.query);
    if (kind === 'staple') return sendStaple(request, reply, null);
    const addTo = item === '' ? null : await itemNamed(request, item);
    if (kind === 'own')
      return sendUncanned(request, reply, { way: null, addTo: null, isOwnRecipe: true }, null);
    if (kind === 'uncanned') {
      const about = { way: wayNamed(request, way), addTo };
      return sendUncanned(request, reply, about, null);
    }
    if (recipe !== '') return sendPreserve(request, reply, recipeNamed(request, recipe), addTo, null);

    const { reference } = app;
    const { canners } = await factsOfRequest(request);
    const canned = cannedHere({
      canners,
      altitudeFt: request.household.altitudeFt,
      on: request.today,
      reference,
    });
    return reply.page(RecipeListPage, {
      frame: await reply.frame(),
      words: find,
      by,
      addTo,
      parts: [
        ...(by === 'none'
          ? []
          : presentBook(
              testedRecipes(reference),
              ({ key }) => canned.has(key),
              find,
              addTo?.id ?? '',
              request.reading,
              (one) => by === '' || cannedIn(reference, one).includes(by),
            )),
        ...((by === '' || by === 'none') && (addTo === null || addTo.keeping !== 'canned')
          ? presentWaysOfBook(reference, find, addTo, request.reading)
          : []),
      ],
    });
  });

  app.post('/items', async (request, reply) => {
    if (sentText(request, 'kind') === 'staple') return postStaple(request, reply);
    if (sentText(request, 'kind') === 'uncanned')
      return postUncanned(request, reply, wayNamed(request, sentText(request, 'way')));
    const recipe = recipeNamed(request, sentText(request, 'recipe'));
    const asked = await readByRules(request, preserveForm, request.body, newItemRules);
    const pounds = readPounds(request, recipe);
    const left = readLeftOver(request, recipe);
    const both = together(together(asked, pounds), left);
    const kept = both.ok
      ? await keptOf(request, recipe, null, ...both.value[0], both.value[1])
      : refused(
          ...both.problems,
          ...problemsIn(denialsOf(request, recipe, sentText(request, 'name').trim())),
        );
    const life = recipeLife(recipe, app.reference.shelfLives);
    const outcome =
      asked.ok && kept.ok
        ? await addPreserve(recordingOf(request), {
            ...inJars,
            name: asked.value.name,
            family: asked.value.family,
            jarKind: asked.value.jarKind,
            shelfLifeKey: life.shelfLifeKey,
            bestQualityDays: life.bestQualityDays,
            keepColdDays: life.opened.days,
            chanceWanted: asked.value.yearsInTwenty / 20,
            use: useOf(asked.value),
            recipe: kept.value,
          })
        : refused(...(kept.ok ? [] : kept.problems));
    return answerForm(request, reply, outcome, {
      formId: 'new-preserve',
      done: ({ itemId }) => `/items/${itemId}?said=added`,
      again: (sentBack) =>
        sendPreserve(request, reply, recipe, null, {
          ...sentBack,
          asked: askedOf(recipe, sentText(request, 'name').trim()),
        }),
    });
  });

  app.post<OfItem>('/items/:item/ways', async (request, reply) => {
    const addTo = await itemNamed(request, request.params.item);
    return postWay(request, reply, { way: wayNamed(request, sentText(request, 'way')), addTo });
  });

  app.post<OfItem>('/items/:item/recipes', async (request, reply) => {
    const item = await itemNamed(request, request.params.item);
    const recipe = recipeNamed(request, sentText(request, 'recipe'));
    const asked = readForm(preserveForm.pick({ jarKind: true, handsOnMinutes: true }), request.body);
    const pounds = readPounds(request, recipe);
    const both = together(together(asked, pounds), readLeftOver(request, recipe));
    const kept = both.ok
      ? await keptOf(
          request,
          recipe,
          item,
          { ...both.value[0][0], name: recipe.name },
          both.value[0][1],
          both.value[1],
        )
      : both;
    const outcome = kept.ok
      ? await keepRecipe(recordingOf(request), { itemId: item.id, recipe: kept.value })
      : kept;
    return answerForm(request, reply, outcome, {
      formId: 'new-preserve',
      done: `/items/${item.id}?said=added#recipes`,
      again: (sentBack) =>
        sendPreserve(request, reply, recipe, item, { ...sentBack, asked: askedOf(recipe, item.name) }),
    });
  });
};

export default newItems;

const useOf = ({ amount, per }: { amount: number | null; per: FirstUse['per'] }): FirstUse | null =>
  amount === null ? null : { amount, per };

function recipeNamed(request: FastifyRequest, key: string): TestedRecipe {
  const recipe = testedRecipes(request.server.reference).find((one) => one.key === key);
  if (!recipe) throw new ShelfwardError('not-found', `newItems: no recipe ${key}`);
  return recipe;
}

/** A way of the book by its key; null where none was named. */
function wayNamed(request: FastifyRequest, key: string): UncannedWayRow | null {
  if (key === '') return null;
  const way = wayByKey(key, request.server.reference);
  if (!way) throw new ShelfwardError('not-found', `newItems: no way ${key}`);
  return way;
}

async function itemNamed(request: FastifyRequest, itemId: string): Promise<Item> {
  const item = await itemById(request.server.db, request.household.id, itemId);
  if (item === null || item.kind !== 'preserve')
    throw new ShelfwardError('not-found', `newItems: nothing put up is called ${itemId}`);
  return item;
}

async function placeOf(request: FastifyRequest) {
  const canners = await cannersOf(request.server.db, request.household.id);
  return canningPlace(request.household, canners, request.today);
}

interface CannedAsked extends Pick<Household, 'altitudeFt'>, Pick<HouseholdFacts, 'canners'> {
  readonly on: CalendarDate;
  readonly reference: ReferenceTables;
}

/** Recipes of the book that have a published process here and now. */
const cannedHere = whileTheSame(
  'canners',
  ({ canners, altitudeFt, on, reference }: CannedAsked): ReadonlySet<string> => {
    const place = canningPlace({ altitudeFt }, canners, on);
    return new Set(
      testedRecipes(reference).flatMap((recipe) =>
        testedWays(reference, recipe, place).here.length > 0 ? [recipe.key] : [],
      ),
    );
  },
);

/** What was answered about foods that a name seems to say. */
function denialsOf(request: FastifyRequest, recipe: TestedRecipe, name: string) {
  const questions = nameQuestions([name], recipe);
  return questions.ok ? denialsFor(questions.value, nameAnswered(request)) : questions;
}

async function keptOf(
  request: FastifyRequest,
  recipe: TestedRecipe,
  addTo: Item | null,
  own: { readonly name: string; readonly jarKind: JarKind; readonly handsOnMinutes: number },
  lbByCrop: ReadonlyMap<string, number>,
  uses: NonNullable<RecipeToKeep['uses']>,
): Promise<Outcome<RecipeToKeep>> {
  const denials = denialsOf(request, recipe, addTo?.name ?? own.name);
  if (!denials.ok) return denials;
  const kept = recipeToKeep(
    recipe,
    {
      name: own.name,
      ...(addTo === null ? {} : { itemName: addTo.name }),
      nameDenials: denials.value,
      jarKind: own.jarKind,
      handsOnMinutes: own.handsOnMinutes,
      minutesGuessed: own.handsOnMinutes === handsOnGuess[recipe.kind],
      lbByCrop,
    },
    await placeOf(request),
    request.server.reference,
    supplyGuessFor,
  );
  return kept.ok ? found({ ...kept.value, uses }) : kept;
}

const cropsOf = (request: FastifyRequest, recipe: TestedRecipe) =>
  keptRecipe(recipe, recipe.yield.jar, request.server.reference).produce.map(({ cropKey, name }) => ({
    crop: cropKey.replaceAll('_', '-'),
    name,
  }));

/** The pounds of each crop one batch waits for, as the household says them. */
function readPounds(request: FastifyRequest, recipe: TestedRecipe): Outcome<ReadonlyMap<string, number>> {
  const problems: Problem[] = [];
  const pounds = new Map<string, number>();
  for (const { crop, name } of cropsOf(request, recipe)) {
    const read = poundsOfCrop(request, crop, name);
    if (read.ok) pounds.set(crop, read.value);
    else problems.push(...read.problems);
  }
  return problems.length > 0 ? refused(...problems) : found(pounds);
}

/** What another batch leaves and one load is made of, as the household says it; none where the recipe is made of none. */
function readLeftOver(
  request: FastifyRequest,
  { material }: TestedRecipe,
): Outcome<NonNullable<RecipeToKeep['uses']>> {
  if (material === null) return found([]);
  const { values, asTyped } = asCounted(
    { materialLb: sentText(request, 'materialLb') },
    'lb',
    ['materialLb'],
    request.reading,
  );
  const read = readForm(z.object({ materialLb: poundsField(material) }), values);
  if (!read.ok) return refused(...read.problems.map(asTyped));
  const named = byProductsOfBook(request.server.reference).find(({ name }) => name === material);
  return found([
    { material: { name: material, keepsDays: named?.keepsDays ?? 0 }, quantity: read.value.materialLb },
  ]);
}

/** What is asked about a name in one question; null where it says no other food. */
function askedOf(recipe: TestedRecipe, name: string) {
  const questions = nameQuestions([name], recipe);
  return questions.ok ? askedTogether(questions.value) : null;
}

async function postStaple(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { values, asTyped } = asCounted(
    typedValues(request.body),
    sentText(request, 'unit'),
    ['packUnits', 'amount'],
    request.reading,
  );
  const asked = await readByRules(request, stapleForm, values, newItemRules);
  const outcome = asked.ok
    ? await addStaple(recordingOf(request), {
        name: asked.value.name,
        family: asked.value.family,
        unit: asked.value.unit,
        bestQualityDays: asked.value.bestQualityDays,
        chanceWanted: asked.value.yearsInTwenty / 20,
        use: useOf(asked.value),
        pack: { units: asked.value.packUnits, price: asked.value.packPrice },
      })
    : refused(...asked.problems.map(asTyped));
  return answerForm(request, reply, outcome, {
    formId: 'new-staple',
    done: ({ itemId }) => `/items/${itemId}?said=added`,
    again: (sentBack) => sendStaple(request, reply, sentBack),
  });
}

async function sendStaple(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const props = presentNewStaple(
    statesFrom(() => reply.formKeys(), sentBack),
    request.reading,
  );
  return reply.page(NewStaplePage, { frame: await reply.frame(), ...props }, sentBack?.status);
}

async function sendPreserve(
  request: FastifyRequest,
  reply: FastifyReply,
  recipe: TestedRecipe,
  addTo: { readonly id: string; readonly name: string } | null,
  sentBack: NewItemSentBack | null,
): Promise<FastifyReply> {
  const { reference } = request.server;
  const ways = testedWays(reference, recipe, await placeOf(request));
  const picture = { recipe, ways, reference, reading: request.reading, addTo };
  const props = presentNewPreserve(
    picture,
    statesFrom(() => reply.formKeys(), sentBack),
    sentBack?.asked ?? null,
  );
  return reply.page(NewPreservePage, { frame: await reply.frame(), ...props }, sentBack?.status);
}
