import { counted } from '../../../shared/counting.ts';
import { jarSizes, sizeOf } from '../../../shared/jar.ts';
import type { JarAdviceHere } from '../../../src/preserving/recipes/jar-advice.ts';
import { jarSizeNames } from '../../../src/shelf/jar-size/jar-size-advice.ts';
import type { JarSizeLine, JarSizeProps } from '../../../views/pages/targets/jar-size.tsx';
import { formatNumber, formatPercent } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { plain } from '../../words/plain-number.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import type { TargetPicture } from './target-picture.ts';

/** Which jar an item is best put up in, and the form that asks what a jar is to be; null for what is not canned. */
export function presentJarSize(picture: TargetPicture, state: StateOfForm): JarSizeProps | null {
  const { item, jars, loaded, reading } = picture;
  if (jars === 'not canned' || item.usualJar === null) return null;
  const wish = loaded.facts.jarWishes.get(item.id) ?? null;
  const hasAdvice = typeof jars !== 'string';
  return {
    itemId: item.id,
    sentence: hasAdvice ? jars.advice.sentence : waitsFor[jars],
    notes: hasAdvice ? notesOn(picture, jars) : [],
    sizes: hasAdvice ? sizeLines(jars, reading) : [],
    wish: {
      form: state('jars', {
        servingsPerUnit: item.servingsPerUnit === null ? '' : plain(item.servingsPerUnit),
        mealServings: hasAdvice && jars.mealServings !== null ? plain(jars.mealServings) : '',
        giftSize: wish?.gifts?.size ?? '',
        giftJars: wish?.gifts ? plain(wish.gifts.jars) : '',
        lunchSize: wish?.lunches?.size ?? '',
        lunchJars: wish?.lunches ? plain(wish.lunches.jars) : '',
      }),
      usualJar: jarSizeNames[sizeOf(item.usualJar)].one,
      sizes: [
        { value: '', words: 'none of their own' },
        ...jarSizes
          .filter((size) => !hasAdvice || jars.advice.findings.some((tested) => tested.size === size))
          .map((size) => ({ value: size, words: jarSizeNames[size].many })),
      ],
      isAwaited: jars === 'no servings' || jars === 'no meal',
    },
  };
}

/** What must be said before a size can be advised. */
const waitsFor = {
  'no use': 'Say how much you eat of it first; then a size can be advised.',
  'no servings': 'Tell us how many servings are in one jar and in one meal, and we can suggest a size.',
  'no meal': 'Tell us how many servings one meal takes, and we can suggest a size.',
} as const;

function notesOn({ item, loaded, reading }: TargetPicture, here: JarAdviceHere): readonly string[] {
  const { advice, keepColdDays, keepColdIsKnown } = here;
  const stands =
    advice.size === null
      ? loaded.recipes.leftOut
          .filter(({ recipeId }) =>
            loaded.facts.recipes.some(({ id, itemId }) => id === recipeId && itemId === item.id),
          )
          .flatMap(({ reasons }) => reasons.map(({ message }) => message))
      : [];
  const differs =
    advice.size !== null && item.usualJar !== null && advice.size !== sizeOf(item.usualJar)
      ? [`It is counted, and put up, in ${jarSizeNames[sizeOf(item.usualJar)].many} now.`]
      : [];
  const untested = missingSizes(loaded, here, item.id);
  const assumed = keepColdIsKnown
    ? []
    : [
        `Nobody has written down how long an opened jar of it keeps, so we count on ${counted(formatNumber(keepColdDays, reading), 'day')}, to be safe.`,
      ];
  return [...new Set([...stands, ...differs, ...untested, ...assumed])];
}

/** Sizes wished for gifts or lunches that have no tested process here are left out, and said. */
function missingSizes(
  { facts }: TargetPicture['loaded'],
  { advice }: JarAdviceHere,
  itemId: TargetPicture['item']['id'],
): readonly string[] {
  const wish = facts.jarWishes.get(itemId);
  return [wish?.gifts, wish?.lunches].flatMap((own) =>
    own && !advice.ownSizes.some(({ size }) => size === own.size)
      ? [`${sentenceCase(jarSizeNames[own.size].many)} have no tested process here and are left out.`]
      : [],
  );
}

const sizeLines = ({ advice }: JarAdviceHere, reading: Reading): readonly JarSizeLine[] =>
  advice.findings.map((finding) => ({
    size: jarSizeNames[finding.size].many,
    isAdvised: finding.size === advice.size,
    servings: formatNumber(finding.servings, reading),
    thrown: formatPercent(finding.thrownShare, reading, 0),
    cost:
      finding.costCentsPerServing === null
        ? 'no such jars'
        : `${formatNumber(finding.costCentsPerServing, reading)} ¢`,
  }));
