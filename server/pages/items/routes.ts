import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { RecipeId } from '../../../shared/ids.ts';
import { found, type Outcome, refused, ShelfwardError, together } from '../../../shared/problems.ts';
import { fitting, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import {
  itemForm,
  leftOversForm,
  ownRecipeForm,
  ownYieldForm,
  packForm,
  supplyForm,
} from '../../../shared/schemas/item.ts';
import { readTypedNumber } from '../../../shared/typed-number.ts';
import type { Item } from '../../../src/household/item.ts';
import { hasOwnAmounts, type NameDenial } from '../../../src/household/recipe.ts';
import { keepColdLimit } from '../../../src/preserving/afterwards/keep-cold-limit.ts';
import { isCanned } from '../../../src/preserving/ask-gate.ts';
import {
  askedTogether,
  denialsFor,
  type NameQuestion,
  nameQuestions,
  testedFoodOf,
} from '../../../src/preserving/foods/name-questions.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import { publishedLife } from '../../../src/preserving/recipes/recipe-life.ts';
import { uncannedNameProblem } from '../../../src/preserving/uncanned/uncanned-name.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { ItemPage } from '../../../views/pages/items/item-page.tsx';
import { ItemsPage } from '../../../views/pages/items/items-page.tsx';
import { SupplyPage } from '../../../views/pages/items/supply-page.tsx';
import { inReadersUnit, readersUnit } from '../../../views/words/format.ts';
import { bringBackItem, changeItem, itemRules, retireItem } from '../../records/household/items.ts';
import { sayLeftOvers } from '../../records/household/left-overs.ts';
import { answerName, takeDenialBack } from '../../records/household/name-denials.ts';
import { saveRecipeChanges } from '../../records/household/recipe-changes.ts';
import {
  bringBackRecipe,
  changeRecipe,
  type OwnAmounts,
  retireRecipe,
} from '../../records/household/recipes.ts';
import { problemsIn } from '../../records/record.ts';
import { removePack, savePack } from '../../records/year/packs.ts';
import { setSupply } from '../../records/year/supplies.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { plain } from '../../words/plain-number.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { itemHead } from '../shared/item-head.ts';
import { nameAnswered, recordingOf, seeOther, sentText } from '../shared/posting.ts';
import { asCounted, unitsTyped } from '../shared/produce/own-units.ts';
import { poundsOfCrop } from '../shared/produce/typed.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { itemPicture, itemsPicture } from './items-picture.ts';
import { type ItemPicture, type ItemSentBack, mayWait, presentItem } from './present-item.ts';
import { presentItems } from './present-items.ts';
import { leftOversCounted } from './present-left-overs.ts';

type OfItem = { Params: { item: string } };
type OfRecipe = { Params: { item: string; recipe: string } };
type OfPack = { Params: { item: string; pack: string } };
type OfSupply = { Params: { supply: string } };

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const messages: Readonly<Record<string, Message>> = {
  saved: {
    tone: 'done',
    text: 'Saved. Plan again to see which weeks it changes.',
    action: { words: 'This week', href: '/' },
  },
  added: {
    tone: 'done',
    text: 'Added. Plan again to see when it is made.',
    action: { words: 'This week', href: '/' },
  },
  retired: {
    tone: 'done',
    text: 'No longer kept: no more of it is planned. What stands on the shelf stays there to be eaten; it can be brought back.',
    action: { words: 'Bring it back', href: '#retired' },
  },
  asked: { tone: 'done', text: 'Taken back: the name is asked about again.' },
  back: {
    tone: 'done',
    text: 'Back among what you keep, as it was. Plan again to plan with it.',
    action: { words: 'This week', href: '/' },
  },
};
const messageOf = (query: unknown): Message | null => messages[pageQuery.parse(query).said] ?? null;

/** What a new name of something put up in jars is asked about, recipe by recipe; or what stands against it. */
function renamingQuestions(
  request: FastifyRequest,
  { item, recipes }: ItemPicture,
  name: string,
  days: number | null,
): Outcome<ReadonlyMap<RecipeId, readonly NameQuestion[]>> {
  const cold = item.keeping === 'refrigerated' ? uncannedNameProblem(name, item.keeping, days) : null;
  if (cold !== null) return refused(cold);
  const asked = new Map<RecipeId, readonly NameQuestion[]>();
  if (name === item.name) return found(asked);
  // What is kept otherwise may have a way into jars all the same: that one is held against the name.
  const canned = recipes.filter((recipe) => isCanned(recipe, item));
  if (canned.length === 0) {
    const problem = uncannedNameProblem(name, item.keeping);
    if (problem !== null) return refused(problem);
    const alone = item.keeping === 'canned' ? nameQuestions([name], null) : found([]);
    return alone.ok ? found(asked) : alone;
  }
  for (const { id, basedOn, process } of canned) {
    const questions = nameQuestions([name], testedFoodOf(request.server.reference, basedOn, process));
    if (!questions.ok) return refused(...questions.problems.slice(0, 1));
    if (questions.value.length > 0) asked.set(id, questions.value);
  }
  return found(asked);
}

/** What a renaming says is not in what goes by the new name. */
function renamingDenials(
  request: FastifyRequest,
  asked: ReadonlyMap<RecipeId, readonly NameQuestion[]>,
): Outcome<ReadonlyMap<RecipeId, readonly NameDenial[]>> {
  const settled = denialsFor([...asked.values()].flat(), nameAnswered(request));
  if (!settled.ok) return settled;
  return found(
    new Map(
      [...asked].map(([id, questions]) => [
        id,
        questions.map(({ name, otherFood }) => ({ name, otherFood })),
      ]),
    ),
  );
}

const items: FastifyPluginAsync = async (app) => {
  app.get('/items', async (request, reply) => {
    const picture = await itemsPicture(request);

    return reply.page(ItemsPage, {
      frame: await reply.frame(messageOf(request.query)),
      ...presentItems(picture, () => reply.formKeys()),
    });
  });

  app.get<OfItem>('/items/:item', async (request, reply) =>
    sendItem(request, reply, await itemPicture(request, request.params.item), null, messageOf(request.query)),
  );

  app.post<OfItem>('/items/:item', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { values: typed, asTyped } = itemTyped(request, picture.item);
    const longest = longestOf(request, picture);
    const asked = await readByRules(request, itemForm, typed, itemRules(longest));
    const { name, bestQualityDays = null } = fitting(itemForm, typed);
    const questions =
      name === undefined ? refused() : renamingQuestions(request, picture, name, bestQualityDays);
    const denials = questions.ok ? renamingDenials(request, questions.value) : questions;
    const outcome =
      asked.ok && denials.ok
        ? await changeItem(recordingOf(request), {
            ...asked.value,
            nameDenials: denials.value,
            chanceWanted: asked.value.yearsInTwenty / 20,
            familyMinimumUnits: asked.value.familyMinimum,
            longest,
          })
        : refused(...problemsIn(asked, denials).map(asTyped));
    const open = questions.ok ? askedTogether([...questions.value.values()].flat()) : null;
    return answerForm(request, reply, outcome, {
      formId: 'item',
      done: `/items/${picture.item.id}?said=saved`,
      again: (sentBack) => sendItem(request, reply, picture, { ...sentBack, asked: open }),
    });
  });

  app.post<OfItem>('/items/:item/retirement', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const outcome = await retireItem(recordingOf(request), picture.item.id);
    return answerForm(request, reply, outcome, {
      formId: 'retire',
      done: '/items?said=retired',
      again: (sentBack) => sendItem(request, reply, picture, sentBack),
    });
  });

  app.post<OfItem>('/items/:item/return', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    await bringBackItem(recordingOf(request), picture.item.id);

    return seeOther(reply, `/items/${picture.item.id}?said=back`);
  });

  app.post<OfRecipe>('/items/:item/recipes/:recipe', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { recipe } = request.params;
    const asked = readForm(ownRecipeForm, { ...typedValues(request.body), recipeId: recipe });
    const amounts = amountsSent(request, picture, recipe);
    const both = together(together(asked, amounts), madeOfSent(picture, recipe, asked));
    const outcome = both.ok
      ? await changeRecipe(recordingOf(request), { ...both.value[0][0], amounts: both.value[0][1] })
      : both;
    return answerForm(
      request,
      reply,
      outcome,
      savedOf(request, reply, picture, `recipe-${recipe}`, 'recipes'),
    );
  });

  app.post<OfRecipe>('/items/:item/recipes/:recipe/changes', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { recipe } = request.params;
    const changes = changesIn(typedValues(request.body));
    const outcome = await saveRecipeChanges(recordingOf(request), app.reference, {
      recipeId: recipe,
      changes,
    });
    return answerForm(
      request,
      reply,
      outcome,
      savedOf(request, reply, picture, `changes-${recipe}`, 'recipes'),
    );
  });

  app.post<OfRecipe>('/items/:item/recipes/:recipe/left-overs', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { recipe } = request.params;
    const { values, asTyped } = leftOversCounted(typedValues(request.body), picture);
    const asked = readForm(leftOversForm, { ...values, recipeId: recipe });
    const outcome = asked.ok
      ? await sayLeftOvers(recordingOf(request), app.reference, asked.value)
      : refused(...asked.problems.map(asTyped));
    return answerForm(
      request,
      reply,
      outcome,
      savedOf(request, reply, picture, `left-overs-${recipe}`, 'recipes'),
    );
  });

  app.post<OfRecipe>('/items/:item/recipes/:recipe/name-answer', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { recipe } = request.params;
    const outcome = await answerName(recordingOf(request), app.reference, {
      recipeId: recipe,
      answered: nameAnswered(request),
    });
    return answerForm(request, reply, outcome, savedOf(request, reply, picture, `name-${recipe}`, 'recipes'));
  });

  app.post<OfRecipe>('/items/:item/recipes/:recipe/name-answer/removal', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    await takeDenialBack(recordingOf(request), {
      recipeId: request.params.recipe,
      name: sentText(request, 'askedName'),
    });

    return seeOther(reply, `/items/${picture.item.id}?said=asked#recipes`);
  });

  for (const [verb, write] of [
    ['retirement', retireRecipe],
    ['return', bringBackRecipe],
  ] as const) {
    app.post<OfRecipe>(`/items/:item/recipes/:recipe/${verb}`, async (request, reply) => {
      const picture = await itemPicture(request, request.params.item);
      await write(recordingOf(request), request.params.recipe);

      return seeOther(reply, `/items/${picture.item.id}?said=saved#recipes`);
    });
  }

  for (const path of ['/items/:item/packs', '/items/:item/packs/:pack'] as const) {
    app.post<OfPack>(path, async (request, reply) => {
      const picture = await itemPicture(request, request.params.item);
      const packId = request.params.pack ?? '';
      const sent = { ...typedValues(request.body), itemId: picture.item.id, packId };
      const { values, asTyped } = asCounted(sent, picture.item.unit, ['units'], request.reading);
      const asked = readForm(packForm, values);
      const outcome = asked.ok
        ? await savePack(recordingOf(request), asked.value)
        : refused(...asked.problems.map(asTyped));
      return answerForm(request, reply, outcome, savedOf(request, reply, picture, `pack-${packId}`, 'packs'));
    });
  }

  app.post<OfPack>('/items/:item/packs/:pack/removal', async (request, reply) => {
    const picture = await itemPicture(request, request.params.item);
    const { pack } = request.params;
    const outcome = await removePack(recordingOf(request), { itemId: picture.item.id, packId: pack });
    return answerForm(request, reply, outcome, savedOf(request, reply, picture, `pack-${pack}`, 'packs'));
  });

  app.get<OfSupply>('/items/supplies/:supply', async (request, reply) =>
    sendSupply(request, reply, request.params.supply, null),
  );

  app.post<OfSupply>('/items/supplies/:supply', async (request, reply) => {
    const { supply } = request.params;
    const counted = (await itemsPicture(request)).supplies.find(({ id }) => id === supply)?.unit ?? '';
    const sent = { ...typedValues(request.body), supplyId: supply };
    const { values, asTyped } = asCounted(sent, counted, ['packQuantity', 'onHand'], request.reading);
    const asked = readForm(supplyForm, values);
    const outcome = asked.ok
      ? await setSupply(recordingOf(request), asked.value)
      : refused(...asked.problems.map(asTyped));
    return answerForm(request, reply, outcome, {
      formId: 'supply',
      done: '/items?said=saved#supplies',
      again: (sentBack) => sendSupply(request, reply, supply, sentBack),
    });
  });
};

export default items;

/** What was typed of an item; what always stays is kept whole: a part of a pound more rather than less. */
function itemTyped(request: FastifyRequest, { id, unit }: Item) {
  const typed = typedValues(request.body);
  const servings = readTypedNumber(typed.servingsPerUnit ?? '', { fractions: true });
  const inOne = inReadersUnit(1, unit, request.reading);
  const sent = {
    ...typed,
    itemId: id,
    // Servings in a kilogram are more than in a pound.
    ...(inOne !== 1 && servings.kind === 'number'
      ? { servingsPerUnit: String(Math.round(servings.value * inOne * 1e4) / 1e4) }
      : {}),
  };
  const said = asCounted(sent, unit, ['familyMinimum', 'emergencyUnits'], request.reading);
  const always = said.values.emergencyUnits ?? '';
  const isMade = always !== typed.emergencyUnits && Number.isFinite(Number(always));
  return isMade
    ? { ...said, values: { ...said.values, emergencyUnits: String(Math.ceil(Number(always) - 1e-6)) } }
    : said;
}

/** The changes a form names: ticked ones of the closed list, and what was written beside it. */
const changesIn = (typed: Readonly<Record<string, string>>): readonly string[] => [
  ...Object.keys(typed).flatMap((name) => (name.startsWith('change-') ? [name.slice('change-'.length)] : [])),
  ...(typed.other === undefined || typed.other.trim() === '' ? [] : [typed.other.trim().slice(0, 120)]),
];

/** What a batch of one's own way takes and gives now; null of a printed recipe, whose amounts are not changed. */
function amountsSent(
  request: FastifyRequest,
  picture: ItemPicture,
  recipeId: string,
): Outcome<OwnAmounts | null> {
  const recipe = picture.recipes.find(({ id }) => id === recipeId);
  if (recipe === undefined || !hasOwnAmounts(recipe)) return found(null);
  const { values, asTyped } = asCounted(
    typedValues(request.body),
    recipe.jarKind === null ? picture.item.unit : '',
    ['units'],
    request.reading,
  );
  const yields = readForm(ownYieldForm, values);
  const problems = yields.ok ? [] : yields.problems.map(asTyped);
  const lbByCrop = new Map<string, number>();
  for (const { crop } of recipe.produce) {
    const read = poundsOfCrop(request, crop, cropGuessFor(crop).plural.toLowerCase());
    if (read.ok) lbByCrop.set(crop, read.value);
    else problems.push(...read.problems);
  }
  return yields.ok && problems.length === 0
    ? found({ units: yields.value.units, lbByCrop })
    : refused(...problems);
}

/** Frozen produce is taken where a guide makes it so, or the way is the household's own and never canned. */
function madeOfSent(
  { recipes, copies }: ItemPicture,
  recipeId: string,
  asked: Outcome<{ readonly madeOf: string | null }>,
): Outcome<null> {
  const recipe = recipes.find(({ id }) => id === recipeId);
  if (!asked.ok || asked.value.madeOf !== 'frozen-too' || recipe === undefined) return found(null);
  return mayWait(recipe, copies.get(recipe.id))
    ? found(null)
    : refused({
        code: 'not-of-frozen',
        path: ['madeOf'],
        message: 'No guide we read makes this of frozen produce. Make it while the produce is fresh.',
      });
}

/** What the published tables allow at most: a year sealed for what is canned; days once opened for low-acid food. */
function longestOf(request: FastifyRequest, { item, recipes }: ItemPicture) {
  const { reference } = request.server;
  const acidity = acidityOf(item, recipes, reference);
  return {
    bestQualityDays:
      item.keeping === 'canned' ? publishedLife(item.shelfLifeKey, reference.shelfLives).most : null,
    keepColdDays:
      acidity === 'low-acid' ? keepColdLimit('low-acid-vegetable', reference.shelfLives).days : null,
  };
}

/** A part of the page that is saved: done, the page at that part; refused, the page with what was typed. */
const savedOf = (
  request: FastifyRequest,
  reply: FastifyReply,
  picture: ItemPicture,
  formId: string,
  part: 'recipes' | 'packs',
) => ({
  formId,
  done: `/items/${picture.item.id}?said=saved#${part}`,
  again: (sentBack: SentBack) => sendItem(request, reply, picture, sentBack),
});

async function sendItem(
  request: FastifyRequest,
  reply: FastifyReply,
  picture: ItemPicture,
  sentBack: ItemSentBack | null,
  message: Message | null = null,
): Promise<FastifyReply> {
  const props = presentItem(picture, () => reply.formKeys(), sentBack);
  const head = await itemHead(request, reply, picture.item, 'recipe');
  return reply.page(ItemPage, { frame: await reply.frame(message), head, ...props }, sentBack?.status);
}

async function sendSupply(
  request: FastifyRequest,
  reply: FastifyReply,
  supplyId: string,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { supplies, recipes, guesses } = await itemsPicture(request);
  const supply = supplies.find(({ id }) => id === supplyId);
  if (!supply) throw new ShelfwardError('not-found', `items: no supply ${supplyId}`);
  const users = recipes.filter((recipe) => recipe.supplies.some((used) => used.supplyId === supplyId));
  return reply.page(
    SupplyPage,
    {
      frame: await reply.frame(),
      supplyId,
      name: supply.name,
      unit: readersUnit(supply.unit, request.reading),
      usedIn:
        users.length === 0
          ? 'No recipe uses it now.'
          : `Used in ${users.map(({ name }) => name).join(', ')}.`,
      isGuess: guesses.some(({ kind, subject }) => kind === 'supply' && subject === supplyId),
      form: statesFrom(() => reply.formKeys(), sentBack)('supply', {
        packQuantity: unitsTyped(supply.packQuantity, supply.unit, request.reading),
        packPrice: plain(supply.packPrice / 100),
        onHand: unitsTyped(supply.onHand, supply.unit, request.reading),
      }),
    },
    sentBack?.status,
  );
}
