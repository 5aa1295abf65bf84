import type { FastifyReply, FastifyRequest } from 'fastify';
import { families } from '../../../shared/family.ts';
import type { JarKind } from '../../../shared/jar.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import { type UncannedRequest, uncannedForm, uncannedKeepings } from '../../../shared/schemas/item.ts';
import type { Item, ItemUnit } from '../../../src/household/item.ts';
import { ownWay } from '../../../src/household/recipe.ts';
import { type UncannedLife, uncannedLife } from '../../../src/preserving/uncanned/uncanned-life.ts';
import { uncannedNameProblem } from '../../../src/preserving/uncanned/uncanned-name.ts';
import {
  NewUncannedPage,
  type NewUncannedProps,
  type UncannedField,
} from '../../../views/pages/items/new-uncanned-page.tsx';
import { type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { withCelsius } from '../../../views/words/format.ts';
import { jarStockOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { addPreserve, newItemRules } from '../../records/household/items.ts';
import { fieldProblems } from '../../words/field-problems.ts';
import { jarChoices } from '../../words/jar-choices.ts';
import { publishedLifeWords } from '../../words/published-life.ts';
import { cropChoices } from '../shared/crop-choices.ts';
import { recordingOf, seeOther, statusOf } from '../shared/posting.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { familyChoices, type NewItemSentBack } from './present-new-item.ts';

/** What is put up without a canner, added as the household does it: its page, and what becomes of it when it is sent. */

const blank: Readonly<Record<UncannedField, string>> = {
  name: '',
  family: 'berries',
  keeping: 'frozen',
  crop: '',
  lb: '',
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
const uncannedFields = Object.keys(blank) as readonly UncannedField[];

const keepingWords: Readonly<Record<(typeof uncannedKeepings)[number], string>> = {
  frozen: 'frozen',
  dried: 'dried',
  cellar: 'in the cellar, as it is',
  fermented: 'fermented, and kept cold',
};

export async function sendUncanned(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: NewItemSentBack | null,
  status: number,
): Promise<FastifyReply> {
  const props = await presentUncanned(request, reply.formKeys(), sentBack);
  return reply.page(NewUncannedPage, { frame: await reply.frame(), ...props }, status);
}

export async function postUncanned(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const asked = await readByRules(request, uncannedForm, request.body, async (reader, legible) => [
    ...(await newItemRules(reader, legible)),
    ...againstItsName(legible),
  ]);
  const fit = asked.ok ? keptSo(request, asked.value) : asked;
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
  if (outcome.ok) return seeOther(reply, `/items/${outcome.value.itemId}?said=added`);

  const sentBack = {
    values: typedValues(request.body),
    problems: fieldProblems(outcome.problems, uncannedFields),
  };
  return sendUncanned(request, reply, sentBack, statusOf(outcome.problems));
}

/** What was asked for, with what it comes to. */
interface Uncanned {
  readonly asked: UncannedRequest;
  readonly unit: ItemUnit;
  readonly jarKind: JarKind | null;
  readonly life: UncannedLife | null;
  readonly bestQualityDays: number;
}

const againstItsName = ({
  name,
  keeping,
}: Readonly<Partial<Pick<UncannedRequest, 'name' | 'keeping'>>>): readonly Problem[] => {
  const against = name === undefined || keeping === undefined ? null : uncannedNameProblem(name, keeping);
  return against === null ? [] : [against];
};

function keptSo(request: FastifyRequest, asked: UncannedRequest): Outcome<Uncanned> {
  const { name, keeping, crop, family, unit } = asked;
  const life = uncannedLife(keeping, crop ?? '', family, request.server.reference.shelfLives);
  const bestQualityDays = asked.bestQualityDays ?? life?.mostDays;
  const problems = [
    ...againstItsName({ name, keeping }),
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
  });
}

const recipeFor = ({ asked, jarKind }: Uncanned) => ({
  name: asked.name,
  basedOn: ownWay,
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
  supplies: [],
});

async function presentUncanned(
  request: FastifyRequest,
  keys: FormKeys,
  sentBack: NewItemSentBack | null,
): Promise<Omit<NewUncannedProps, 'frame'>> {
  const { db, reference } = request.server;
  const [recipes, jars] = await Promise.all([
    recipesOf(db, request.household.id),
    jarStockOf(db, request.household.id),
  ]);
  const values = { ...blank, ...sentBack?.values };
  return {
    keys,
    values,
    problems: sentBack?.problems ?? noProblems,
    families: familyChoices,
    keepings: uncannedKeepings.map((value) => ({ value, words: keepingWords[value] })),
    crops: cropChoices(recipes, reference.harvestWindows, values.crop, 'nothing harvested'),
    units: [
      { value: 'bag', words: 'bags' },
      { value: 'lb', words: 'pounds' },
      { value: 'bin', words: 'bins' },
      { value: 'each', words: 'pieces' },
      ...jarChoices(jars.map(({ kind }) => kind)),
    ],
    lives: livesFor(request, values),
  };
}

/** What is published of how long such things keep: of the crop that was chosen, else of fruit and of vegetables. */
function livesFor(
  { server, reading }: FastifyRequest,
  { crop, family }: Readonly<Record<UncannedField, string>>,
): readonly string[] {
  const chosen = families.find((one) => one === family) ?? 'berries';
  const asked = crop === '' ? (['berries', 'roots'] as const) : [chosen];
  const lives = uncannedKeepings.flatMap((keeping) =>
    asked.flatMap((of) => uncannedLife(keeping, crop, of, server.reference.shelfLives) ?? []),
  );
  return [...new Map(lives.map((life) => [life.shelfLifeKey, life])).values()].map(
    ({ food, kept, leastDays, mostDays, source }) =>
      `${food}${kept === '' ? '' : `, ${withCelsius(kept.replace(/(\d)F\b/g, '$1 °F'), reading)}`}: ${publishedLifeWords({ least: leastDays, most: mostDays }, reading)}. From ${source.sourceId}.`,
  );
}
