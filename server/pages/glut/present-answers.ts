import type { CropKey, ItemId, RecipeId } from '../../../shared/ids.ts';
import { jarKind, sizeOf } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type WeekKey, weekHolding } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { type FreezeRest, freezeTheRest } from '../../../src/planning/glut/freeze-the-rest.ts';
import type { GlutAim, GlutAnswer } from '../../../src/planning/glut/glut-answers.ts';
import type { GlutAtHand } from '../../../src/planning/glut/glut-at-hand.ts';
import { freezerRoom } from '../../../src/planning/glut/glut-ways.ts';
import type { HouseholdYear } from '../../../src/planning/year/household-year.ts';
import { byProductOf } from '../../../src/preserving/recipes/by-product.ts';
import type { AnswerColumn } from '../../../views/pages/glut/glut-answers.tsx';
import {
  formatLongDay,
  formatMinutes,
  formatMoney,
  formatNumber,
  formatQuantity,
  formatWeek,
} from '../../../views/words/format.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed, sentenceCase } from '../../../views/words/sentences.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { leftOverWords } from '../../words/canning/left-over-words.ts';
import { amountOf, wholeOf } from '../../words/shelf-units.ts';

const aimWords: Readonly<Record<GlutAim, string>> = {
  'what the year lacks': 'What the year lacks',
  'all of it': 'As much as fits',
  'least work': 'The least work',
};

/** What makes an answer this one and no other. */
export const answerKey = ({ makes }: GlutAnswer): string =>
  makes.map(({ recipe, week, batches }) => `${recipe} ${week} ${batches}`).join(', ');

/** `this week`, `week of Aug 24`: the week of a batch. */
const weekWords = (week: WeekKey, { year, facts }: HouseholdYear, reading: Reading): string =>
  week === weekHolding(year.asOf, facts.household.weekStartsOn) ? 'this week' : formatWeek(week, reading);

/** One answer in words, as its column shows it. */
export function presentAnswer(
  answer: GlutAnswer,
  crop: CropKey,
  loaded: HouseholdYear,
  reading: Reading,
  reference: ReferenceTables,
): AnswerColumn {
  const itemOf = (id: ItemId) => loaded.facts.items.find((item) => item.id === id);
  const amounts = (some: readonly { readonly item: ItemId; readonly units: number }[]) =>
    some.flatMap(({ item: id, units }) => {
      const item = itemOf(id);
      return item === undefined || wholeOf(item, units) <= 0
        ? []
        : [`${amountOf(item, units, reading)} of ${insideSentence(item.name)}`];
    });
  const lacks = amounts(answer.lacks);
  const over = amounts(answer.over);
  const { cost, withoutPrice } = answer.toBuy;
  const beside =
    withoutPrice.length === 0
      ? ''
      : `, and ${listed(withoutPrice.map((crop) => cropGuessFor(crop).plural))}, whose price is not known here`;
  return {
    key: answerKey(answer),
    title: sentenceCase(listed(answer.aims.map((aim) => aimWords[aim].toLowerCase()))),
    makes: answer.makes.map((make) => {
      const item = itemOf(make.item);
      return {
        key: `${make.recipe} ${make.week}`,
        item: { name: item?.name ?? make.name, family: item?.family ?? 'dry-goods' },
        comes: item === undefined ? formatNumber(make.units, reading) : amountOf(item, make.units, reading),
        batches: `${formatQuantity(make.batches, 'batch', reading)}, ${weekWords(make.week, loaded, reading)}`,
        jars: {
          count: item === undefined || item.unit === 'lb' ? 0 : wholeOf(item, make.units),
          size: item?.usualJar ? sizeOf(item.usualJar) : null,
        },
      };
    }),
    hours: formatMinutes(answer.minutes),
    jars:
      answer.jars.count === 0
        ? 'none'
        : `${formatNumber(answer.jars.count, reading)}${answer.jars.missing > 0 ? `; ${formatNumber(answer.jars.missing, reading)} of them to buy` : ''}`,
    money: `${cost === 0 && beside !== '' ? 'nothing else' : cost === 0 ? 'nothing' : formatMoney(cost, reading)}${beside}`,
    lacks: lacks.length === 0 ? 'nothing of it' : listed(lacks),
    over: over.length === 0 ? null : listed(over),
    freeze: freezeWords(
      freezeTheRest(
        crop,
        { lbLeft: answer.lbLeft, freezerQuarts: answer.freezerLeft },
        loaded.facts.recipes,
        reference,
      ),
      reading,
    ),
    byProducts: byProductWords(answer, loaded, reading, reference),
    left:
      answer.lbLeft < 0.05 ? 'nothing' : formatQuantity(Math.round(answer.lbLeft * 10) / 10, 'lb', reading),
  };
}

/** `up to 9 bags of peach slices in syrup, frozen`; null where nothing of the rest can be. */
const freezeWords = (some: readonly FreezeRest[], reading: Reading): string | null =>
  some.length === 0 ? null : some.map((one) => frozenAs(one, reading)).join('; or ');

function frozenAs({ way, units }: FreezeRest, reading: Reading): string {
  const name = insideSentence(way.name);
  if (units === 0) return `${name}, as much as you weigh in`;
  const kind = jarKind.safeParse(way.unit);
  const item = kind.success
    ? ({ unit: 'jar', usualJar: kind.data } as const)
    : ({ unit: way.unit as Item['unit'], usualJar: null } as const);
  return `up to ${amountOf(item, units, reading)} of ${name}`;
}

/** The ways of the book that freeze a crop and are not kept yet, each where it is added; none without room for one unit. */
export const waysToFreeze = (
  crop: CropKey,
  { facts, year }: HouseholdYear,
  reference: ReferenceTables,
): readonly { readonly key: string; readonly words: string; readonly href: string }[] =>
  freezeTheRest(
    crop,
    { lbLeft: Number.MAX_SAFE_INTEGER, freezerQuarts: freezerRoom(year) },
    facts.recipes,
    reference,
  ).map(({ way }) => ({
    key: way.wayKey,
    words: way.name,
    href: `/items/new?kind=uncanned&way=${encodeURIComponent(way.wayKey)}`,
  }));

/**
 * What the batches of an answer leave and what becomes of it here: `3 lb of apple pulp, for fruit leather`; a by-product of which
 * nobody knows the amount is named without one.
 */
function byProductWords(
  { makes, leaves }: GlutAnswer,
  { facts: { materials, recipes, items } }: HouseholdYear,
  reading: Reading,
  reference: ReferenceTables,
): string | null {
  const made = makes.flatMap(({ recipe: id }) => recipes.find((recipe) => recipe.id === id) ?? []);
  const named = new Map(
    made.flatMap((recipe) => {
      const left = byProductOf(recipe, materials, reference);
      return left === null ? [] : [[left.name.toLowerCase(), left.materialId] as const];
    }),
  );
  const words = [...named].map(([name, materialId]) => {
    const amount = leaves.find((one) => one.materialId === materialId);
    const into = recipes
      .filter(({ uses }) => uses.some((part) => part.materialId === materialId))
      .flatMap(({ itemId }) => items.find(({ id }) => id === itemId)?.name ?? []);
    const what = amount === undefined ? name : (leftOverWords([amount], materials, reading) ?? name);
    return into.length === 0 ? what : `${what}, for ${listed([...new Set(into)].map(insideSentence))}`;
  });
  return words.length === 0 ? null : words.join('; ');
}

/** What to know before choosing; why there is nothing to choose where there is not. */
export function noteOn(
  answers: readonly GlutAnswer[],
  { useBy, usuallyKeepsUntil }: Pick<GlutAtHand, 'useBy' | 'usuallyKeepsUntil'>,
  reading: Reading,
): string | null {
  if (answers.length === 0)
    return `No canning day until ${formatLongDay(useBy, reading)} has the hours for a batch of it. Give it away, freeze or eat it fresh, or add a canning day under ${pageNames.kitchen}.`;
  if (usuallyKeepsUntil !== null)
    return `It usually keeps until ${formatLongDay(usuallyKeepsUntil, reading)}; the next canning day is ${formatLongDay(useBy, reading)}. Keep it cold, and can it earlier if it softens.`;
  return null;
}

/** `Peach jam, 2 batches, this week`: what of a glut is in the plan. */
export const makeWords = (
  { recipe, week, batches }: { readonly recipe: RecipeId; readonly week: WeekKey; readonly batches: number },
  loaded: HouseholdYear,
  reading: Reading,
): string =>
  `${loaded.facts.recipes.find(({ id }) => id === recipe)?.name ?? recipe}, ${formatQuantity(batches, 'batch', reading)}, ${weekWords(week, loaded, reading)}`;
