import type { FastifyReply, FastifyRequest } from 'fastify';
import { bounds } from '../../../shared/bounds.ts';
import { families } from '../../../shared/family.ts';
import type { JarKind } from '../../../shared/jar.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { type UncannedRequest, uncannedForm, uncannedKeepings } from '../../../shared/schemas/item.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import type { Item, ItemUnit } from '../../../src/household/item.ts';
import { ownWay, type Recipe } from '../../../src/household/recipe.ts';
import type { Material } from '../../../src/household/supplies.ts';
import {
  byProductKey,
  byProductOf,
  byProductsOfBook,
  materialOfKey,
} from '../../../src/preserving/recipes/by-product.ts';
import type { MaterialToKeep, RecipeToKeep } from '../../../src/preserving/recipes/recipe-to-keep.ts';
import { neverCanned } from '../../../src/preserving/uncanned/never-canned.ts';
import {
  lifeOfKey,
  type UncannedLife,
  uncannedLife,
} from '../../../src/preserving/uncanned/uncanned-life.ts';
import { uncannedNameProblem } from '../../../src/preserving/uncanned/uncanned-name.ts';
import { basedOnWay, materialsOfWay } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import {
  NewUncannedPage,
  type NewUncannedProps,
  type UncannedForm,
} from '../../../views/pages/items/new-uncanned-page.tsx';
import { formatNumber, withCelsius } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { materialsOf } from '../../queries/household/recipes.ts';
import { addPreserve, newItemRules } from '../../records/household/items.ts';
import { keepRecipe } from '../../records/household/recipes.ts';
import { problemsIn } from '../../records/record.ts';
import { supplyGuessFor } from '../../reference/first-year.ts';
import { byProductChoices } from '../../words/canning/left-over-words.ts';
import { presentWay } from '../../words/canning/way-words.ts';
import { jarChoices } from '../../words/jar-choices.ts';
import { plain } from '../../words/plain-number.ts';
import { publishedLifeWords } from '../../words/published-life.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import { cropChoices } from '../shared/crop-choices.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { inPounds } from '../shared/produce/typed.ts';
import { poundsTyped, produceUnitChoices, weightUnit } from '../shared/produce/units.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { supplyAmount } from '../shared/supply-amount.ts';
import { countedInChoices, familyChoices } from './present-new-item.ts';

/** What is put up without a canner, added as the household does it: its page, and what becomes of it when it is sent. */

/** Where what no tested process covers may be kept. */
const coldKeepings = ['frozen', 'refrigerated'] as const;

const blank: UncannedForm['values'] = {
  name: '',
  family: 'berries',
  keeping: 'frozen',
  crop: '',
  lb: '',
  material: '',
  materialLb: '',
  lbUnit: '',
  units: '',
  unit: 'bag',
  handsOnMinutes: '30',
  readyAfterDays: '',
  bestQualityDays: '',
  freezerQuarts: '1',
  yearsInTwenty: '16',
  amount: '',
  per: 'month',
};

const keepingWords: Readonly<Record<(typeof uncannedKeepings)[number], string>> = {
  frozen: 'frozen',
  dried: 'dried',
  cellar: 'in the cellar, as it is',
  fermented: 'fermented, and kept cold',
  refrigerated: 'in the refrigerator',
};

/** What the page is about: a way of the book, or one's own; an item that gets one more, or a new one. */
export interface UncannedAsked {
  readonly way: UncannedWayRow | null;
  readonly addTo: Pick<Item, 'id' | 'name' | 'keeping' | 'unit' | 'usualJar'> | null;
  /** A recipe of the household's own that goes into jars in no book: kept in the freezer or refrigerator alone. */
  readonly isOwnRecipe?: boolean;
}

export async function sendUncanned(
  request: FastifyRequest,
  reply: FastifyReply,
  about: UncannedAsked,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const props = await presentUncanned(
    request,
    about,
    statesFrom(() => reply.formKeys(), sentBack),
  );
  return reply.page(NewUncannedPage, { frame: await reply.frame(), ...props }, sentBack?.status);
}

/** The crop of one batch in pounds, and what is wrong with the measure it was said in. */
const cropInPounds = (request: FastifyRequest, typed: Readonly<Record<string, string>>) => {
  const crop = inPounds(request, typed, typed.crop ?? '', [
    { field: 'lb', unitField: 'lbUnit', most: bounds.cropLb.to },
  ]);
  const { reading } = request;
  const counted = asCounted(crop.values, typed.unit ?? '', ['units', 'amount'], reading);
  const { values, asTyped } = asCounted(counted.values, 'lb', ['materialLb'], reading);
  return {
    ...crop,
    values,
    asTyped: (problem: Problem) => crop.asTyped(counted.asTyped(asTyped(problem))),
  };
};

export async function postUncanned(
  request: FastifyRequest,
  reply: FastifyReply,
  way: UncannedWayRow | null,
): Promise<FastifyReply> {
  const { values, problems, asTyped } = cropInPounds(request, typedValues(request.body));
  const read = await readByRules(request, uncannedForm, values, async (reader, legible) => [
    ...(await newItemRules(reader, legible)),
    ...againstItsName(legible),
  ]);
  const asked =
    read.ok && problems.length === 0 ? read : refused(...problemsIn(read).map(asTyped), ...problems);
  const fit = asked.ok ? await keptSo(request, asked.value, way) : asked;
  const outcome = fit.ok
    ? await addPreserve(recordingOf(request), {
        name: fit.value.asked.name,
        keeping: fit.value.asked.keeping,
        family: fit.value.asked.family,
        unit: fit.value.unit,
        jarKind: fit.value.jarKind,
        shelfLifeKey: fit.value.life?.shelfLifeKey ?? null,
        bestQualityDays: fit.value.bestQualityDays,
        keepColdDays: null,
        freezerQuarts: fit.value.asked.keeping === 'frozen' ? fit.value.asked.freezerQuarts : null,
        chanceWanted: fit.value.asked.yearsInTwenty / 20,
        use:
          fit.value.asked.amount === null
            ? null
            : { amount: fit.value.asked.amount, per: fit.value.asked.per },
        recipe: recipeFor(fit.value),
      })
    : fit;
  const isOwnRecipe = sentText(request, 'own') === 'yes';
  return answerForm(request, reply, outcome, {
    formId: 'new-uncanned',
    done: ({ itemId }) => `/items/${itemId}?said=added`,
    again: (sentBack) => sendUncanned(request, reply, { way, addTo: null, isOwnRecipe }, sentBack),
  });
}

/** One more way to make something that is put up without a canner already. */
export async function postWay(
  request: FastifyRequest,
  reply: FastifyReply,
  { way, addTo }: UncannedAsked & { readonly addTo: NonNullable<UncannedAsked['addTo']> },
): Promise<FastifyReply> {
  const typed = {
    ...typedValues(request.body),
    keeping: addTo.keeping,
    unit: addTo.usualJar ?? addTo.unit,
    family: 'dry-goods',
    yearsInTwenty: '16',
    amount: '',
    bestQualityDays: '1',
    freezerQuarts: '',
  };
  const { values, problems, asTyped } = cropInPounds(request, typed);
  const read = readForm(uncannedForm, values);
  const asked =
    read.ok && problems.length === 0 ? read : refused(...problemsIn(read).map(asTyped), ...problems);
  const fit = asked.ok ? await keptSo(request, asked.value, way) : asked;
  const outcome = fit.ok
    ? await keepRecipe(recordingOf(request), { itemId: addTo.id, recipe: recipeFor(fit.value) })
    : fit;
  return answerForm(request, reply, outcome, {
    formId: 'new-uncanned',
    done: `/items/${addTo.id}?said=added#recipes`,
    again: (sentBack) => sendUncanned(request, reply, { way, addTo }, sentBack),
  });
}

/** What was asked for, with what it comes to. */
interface Uncanned {
  readonly asked: UncannedRequest;
  readonly unit: ItemUnit;
  readonly jarKind: JarKind | null;
  readonly life: UncannedLife | null;
  readonly bestQualityDays: number;
  readonly way: UncannedWayRow | null;
  readonly uses: NonNullable<RecipeToKeep['uses']>;
}

const againstItsName = ({
  name,
  keeping,
  bestQualityDays = null,
}: Readonly<Partial<Pick<UncannedRequest, 'name' | 'keeping' | 'bestQualityDays'>>>): readonly Problem[] => {
  const against =
    name === undefined || keeping === undefined ? null : uncannedNameProblem(name, keeping, bestQualityDays);
  return against === null ? [] : [against];
};

async function keptSo(
  request: FastifyRequest,
  asked: UncannedRequest,
  way: UncannedWayRow | null,
): Promise<Outcome<Uncanned>> {
  const { name, keeping, unit } = asked;
  const { reference, db } = request.server;
  const life = lifeOf(way, asked, reference);
  const materials = await materialsOf(db, request.household.id);
  const material = materialOf(asked.material, materials, reference);
  const bestQualityDays = asked.bestQualityDays ?? life?.mostDays;
  const problems = [
    ...(way !== null && way.keeping === keeping && way.stagesOf !== null && asked.lb === null
      ? [
          {
            code: 'crock-unknown',
            path: ['lb'],
            message:
              'Choose the crop and write how much one batch takes: how much crock it fills follows from that.',
          },
        ]
      : []),
    ...againstItsName({ name, keeping, bestQualityDays: bestQualityDays ?? null }),
    ...(asked.material !== null && material === null
      ? [
          {
            code: 'by-product-unknown',
            path: ['material'],
            message: 'Choose from the list what another batch leaves.',
          },
        ]
      : []),
    ...(bestQualityDays === undefined
      ? [
          {
            code: 'no-published-life',
            path: ['bestQualityDays'],
            message: 'No figure is published here for keeping it so. Write the days that hold at your place.',
          },
        ]
      : []),
  ];
  if (problems.length > 0 || bestQualityDays === undefined) return refused(...problems);
  const jarKind = unit.includes('/') ? (unit as JarKind) : null;
  return found({
    asked,
    unit: jarKind === null ? (unit as Item['unit']) : 'jar',
    jarKind,
    life,
    bestQualityDays,
    way: way?.keeping === keeping ? way : null,
    uses: material === null || asked.materialLb === null ? [] : [{ material, quantity: asked.materialLb }],
  });
}

/** How long it keeps as published: by the way of the book, else by its crop and kind. */
function lifeOf(
  way: UncannedWayRow | null,
  { keeping, crop, family }: Pick<UncannedRequest, 'keeping' | 'crop' | 'family'>,
  { shelfLives }: ReferenceTables,
): UncannedLife | null {
  const printed = way !== null && way.keeping === keeping ? lifeOfKey(way.lifeKey, shelfLives) : null;
  return printed ?? uncannedLife(keeping, crop ?? '', family, shelfLives);
}

/** A by-product by its key: the household's own, else the book's. */
function materialOf(
  key: string | null,
  materials: readonly Material[],
  reference: ReferenceTables,
): MaterialToKeep | null {
  if (key === null) return null;
  const own = materialOfKey(key, materials);
  if (own !== undefined) return { name: own.name, keepsDays: own.keepsDaysCold };
  return byProductsOfBook(reference).find((one) => one.key === key) ?? null;
}

const recipeFor = ({ asked, jarKind, way, uses }: Uncanned): RecipeToKeep => ({
  name: asked.name,
  basedOn: way === null ? ownWay : basedOnWay(way.wayKey),
  jarKind,
  process: null,
  cannerId: null,
  yieldLow: asked.units,
  yieldHigh: Math.ceil(asked.units),
  handsOnMinutes: asked.handsOnMinutes,
  minutesGuessed: asked.handsOnMinutes === Number(blank.handsOnMinutes),
  readyAfterDays: asked.readyAfterDays ?? 0,
  crock: null,
  stages: [],
  produce: asked.crop === null || asked.lb === null ? [] : [{ crop: asked.crop, lb: asked.lb }],
  supplies: suppliesFor(way, asked),
  uses,
});

/** What the book says in pounds, as the household weighs. */
function inOwnWeight<Values extends { readonly lb?: string; readonly materialLb?: string }>(
  values: Values,
  reading: Reading,
): Values {
  const own = (lb: string | undefined) =>
    lb === undefined || lb === '' ? lb : poundsTyped(Number(lb), reading);
  return { ...values, lb: own(values.lb), materialLb: own(values.materialLb) };
}

/** How many printed batches are asked for: by the pounds of its crop where they are printed, else by what a batch gives. */
const printedBatches = (
  { cropKey, lbPerUnit, batchUnits }: UncannedWayRow,
  { crop, lb, units }: Pick<UncannedRequest, 'crop' | 'lb' | 'units'>,
): number => {
  if (batchUnits === null) return 1;
  return lb !== null && lbPerUnit !== null && crop === cropKey?.replaceAll('_', '-')
    ? lb / (lbPerUnit.high * batchUnits)
    : units / batchUnits;
};

/** What the book's way takes from the store, for a batch as it was asked for. */
const suppliesFor = (way: UncannedWayRow | null, asked: UncannedRequest): RecipeToKeep['supplies'] => {
  if (way === null) return [];
  const times = printedBatches(way, asked);
  return way.supplies.map(({ name, unit, quantity }) => {
    const { pack, price } = supplyGuessFor(name, unit);
    return {
      name,
      unit,
      quantity: Math.max(bounds.supplyQuantity.from, Math.round(quantity * times * 1000) / 1000),
      pack,
      packPrice: price,
    };
  });
};

async function presentUncanned(
  request: FastifyRequest,
  { way, addTo, isOwnRecipe = false }: UncannedAsked,
  state: StateOfForm,
): Promise<Omit<NewUncannedProps, 'frame'>> {
  const { reference } = request.server;
  const { recipes, jars, materials } = await factsOfRequest(request);
  const form = state('new-uncanned', {
    ...blank,
    lbUnit: weightUnit(request.reading),
    ...(way === null ? {} : inOwnWeight(valuesOfWay(way, recipes, materials, reference), request.reading)),
  });
  const { values } = form;
  const jarKinds = new Set([
    ...jars.map(({ kind }) => kind as string),
    ...(values.unit.includes('/') ? [values.unit] : []),
  ]);
  return {
    form,
    addTo: addTo === null ? null : { id: addTo.id, name: addTo.name },
    way: way === null ? null : { key: way.wayKey, name: way.name, ...presentWay(way, request.reading) },
    supplies: (way?.supplies ?? []).map(
      ({ name, unit, quantity }) =>
        `${supplyAmount(quantity, unit, request.reading)} ${unit === 'each' ? '' : 'of '}${name}`,
    ),
    suppliesFor: way?.batchUnits == null ? '' : formatNumber(way.batchUnits, request.reading),
    materials: byProductChoices(materials, reference, 'nothing left over'),
    materialUnit: weightUnit(request.reading),
    families: familyChoices,
    produceUnits: produceUnitChoices,
    isOwnRecipe,
    neverCanned: isOwnRecipe ? neverCanned(reference) : null,
    keepings: (isOwnRecipe ? coldKeepings : uncannedKeepings).map((value) => ({
      value,
      words: keepingWords[value],
    })),
    crops: cropChoices(recipes, reference.harvestWindows, values.crop, 'nothing harvested'),
    units: [...countedInChoices(request.reading, ['bag', 'lb', 'bin', 'each']), ...jarChoices([...jarKinds])],
    lives: livesFor(request, way, values, isOwnRecipe ? coldKeepings : uncannedKeepings),
  };
}

/** A batch of the book's ways where none is printed: as many units as a beginner may well put up at once; our own choice. */
const usualUnits = 4;

/** What the book's way fills in: its own figures; the amounts of a batch stay the household's where none is printed. */
function valuesOfWay(
  way: UncannedWayRow,
  recipes: readonly Recipe[],
  materials: readonly Material[],
  reference: ReferenceTables,
): Partial<UncannedForm['values']> {
  const batchUnits = way.batchUnits ?? usualUnits;
  const left = materialsOfWay(way).map(byProductKey);
  const given = recipes.flatMap((recipe) => {
    const one = byProductOf(recipe, materials, reference);
    return one === null || !left.includes(byProductKey(one.name)) ? [] : [{ recipe, one }];
  });
  const [first] = given;
  const amount = first?.recipe.gives.find(({ materialId }) => materialId === first.one.materialId)?.quantity;
  return {
    name: way.name,
    family: way.family,
    keeping: way.keeping,
    crop: way.cropKey?.replaceAll('_', '-') ?? '',
    lb: way.lbPerUnit === null || way.cropKey === null ? '' : plain(way.lbPerUnit.high * batchUnits),
    material: first === undefined ? (left[0] ?? '') : byProductKey(first.one.name),
    materialLb: amount === undefined ? '' : plain(amount),
    units: way.lbPerUnit === null && way.batchUnits === null ? '' : String(batchUnits),
    unit: way.unit,
    readyAfterDays: way.readyDays === null ? '' : plain(way.readyDays.high),
    freezerQuarts: way.freezerQuarts === null ? '' : plain(way.freezerQuarts),
  };
}

/** What is published of how long such things keep: of the crop that was chosen, else of fruit and of vegetables. */
function livesFor(
  { server, reading }: FastifyRequest,
  way: UncannedWayRow | null,
  { crop, family }: UncannedForm['values'],
  keepings: readonly (typeof uncannedKeepings)[number][],
): readonly string[] {
  const chosen = families.find((one) => one === family) ?? 'berries';
  const asked = crop === '' ? (['berries', 'roots'] as const) : [chosen];
  const printed = lifeOfKey(way?.lifeKey ?? null, server.reference.shelfLives);
  const lives =
    printed !== null
      ? [printed]
      : keepings.flatMap((keeping) =>
          asked.flatMap((of) => uncannedLife(keeping, crop, of, server.reference.shelfLives) ?? []),
        );
  return [...new Map(lives.map((life) => [life.shelfLifeKey, life])).values()].map(
    ({ food, kept, leastDays, mostDays, source }) =>
      `${food}${kept === '' ? '' : `, ${withCelsius(kept.replace(/(\d)F\b/g, '$1 °F'), reading)}`}: ${publishedLifeWords({ least: leastDays, most: mostDays }, reading)}. From ${source.sourceId}.`,
  );
}
