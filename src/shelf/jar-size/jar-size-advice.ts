import { counted } from '../../../shared/counting.ts';
import { type JarSize, nominalMl } from '../../../shared/jar.ts';
import { openedJarWaste, type Sittings } from './opened-jar-waste.ts';

export interface CandidateSize {
  readonly size: JarSize;
  /** A published process exists for this food in this size here (a smaller jar under the next larger tested row counts). */
  readonly hasTestedProcess: boolean;
  /** Cents a filled jar costs beyond its food: lid, wear of the jar; decides only between equals. Null where no such jar is owned. */
  readonly costCents: number | null;
}

export interface JarSizeQuestion {
  readonly item: string;
  readonly servingMl: number;
  /** Servings of one meal of the household, when one jar is to be one meal; null for what is eaten by the spoonful. */
  readonly mealServings: number | null;
  readonly sittings: Sittings;
  /** Days an opened jar keeps cold, the shortest home-canned figure that applies; null when there is no limit. */
  readonly keepColdDays: number | null;
  /** Jars a year wanted in a size of their own: gifts, lunch boxes. */
  readonly ownSizes: readonly { readonly size: JarSize; readonly jars: number; readonly purpose: string }[];
  readonly candidates: readonly CandidateSize[];
}

export interface SizeFinding {
  readonly size: JarSize;
  readonly servings: number;
  /** Expected share of an opened jar thrown away, 0..1. */
  readonly thrownShare: number;
  readonly costCentsPerServing: number | null;
}

export interface JarSizeAdvice {
  /** Null when no size has a tested process. */
  readonly size: JarSize | null;
  readonly decidedBy: 'meal' | 'waste' | 'cost' | 'fewest-jars' | 'only-size' | 'no-tested-size';
  /** Sizes of their own, those without a tested process left out. */
  readonly ownSizes: readonly { readonly size: JarSize; readonly jars: number; readonly purpose: string }[];
  /** All tested sizes, smallest first. */
  readonly findings: readonly SizeFinding[];
  readonly sentence: string;
}

/** A jar within this share of a meal is a meal. Judged, no source. */
const mealTolerance = 0.2;
/** Shares thrown away that differ by less than this are equal, and cost decides. Judged, no source. */
const wasteTie = 0.02;

/**
 * Which jar to put an item up in: the size that is one meal, else the size of which least is thrown away once open, and the
 * cheaper of those owned only between equals. Only sizes with a tested process are looked at. Gift and lunch sizes are kept beside it.
 */
export function jarSizeAdvice(question: JarSizeQuestion): JarSizeAdvice {
  const tested = question.candidates
    .filter((candidate) => candidate.hasTestedProcess)
    .sort((left, right) => nominalMl[left.size] - nominalMl[right.size]);
  const findings = tested.map((candidate) => findingFor(question, candidate));
  const ownSizes = question.ownSizes.filter((own) => tested.some((candidate) => candidate.size === own.size));
  const chosen = choose(question, findings);
  return {
    size: chosen.finding?.size ?? null,
    decidedBy: chosen.decidedBy,
    ownSizes,
    findings,
    sentence: [sentenceFor(question, chosen, findings), ...ownSizes.map(ownSizeInWords)].join(' '),
  };
}

function findingFor(question: JarSizeQuestion, candidate: CandidateSize): SizeFinding {
  const servings = nominalMl[candidate.size] / question.servingMl;
  return {
    size: candidate.size,
    servings,
    thrownShare: openedJarWaste(servings, question.sittings, question.keepColdDays),
    costCentsPerServing: candidate.costCents === null ? null : candidate.costCents / servings,
  };
}

interface Choice {
  readonly finding: SizeFinding | null;
  readonly decidedBy: JarSizeAdvice['decidedBy'];
}

function choose({ mealServings }: JarSizeQuestion, findings: readonly SizeFinding[]): Choice {
  const [first] = findings;
  if (!first) return { finding: null, decidedBy: 'no-tested-size' };
  if (mealServings !== null) {
    const meal = nearest(findings, mealServings);
    if (Math.abs(meal.servings / mealServings - 1) <= mealTolerance) {
      return { finding: meal, decidedBy: 'meal' };
    }
  }
  if (findings.length === 1) return { finding: first, decidedBy: 'only-size' };
  const least = Math.min(...findings.map((finding) => finding.thrownShare));
  const equals = findings.filter((finding) => finding.thrownShare <= least + wasteTie);
  const [only, ...others] = equals;
  if (only && others.length === 0) return { finding: only, decidedBy: 'waste' };
  const owned = equals.filter((finding) => finding.costCentsPerServing !== null);
  if (owned.length === 0) return { finding: equals.at(-1) ?? first, decidedBy: 'fewest-jars' };
  const cheapest = owned.reduce((best, finding) => (costOf(finding) < costOf(best) ? finding : best));
  return { finding: cheapest, decidedBy: 'cost' };
}

const costOf = ({ costCentsPerServing }: SizeFinding): number =>
  costCentsPerServing ?? Number.POSITIVE_INFINITY;

const nearest = (findings: readonly SizeFinding[], servings: number): SizeFinding =>
  findings.reduce((best, finding) =>
    Math.abs(Math.log(finding.servings / servings)) < Math.abs(Math.log(best.servings / servings))
      ? finding
      : best,
  );

const jarsOf = (size: string) => ({ one: `${size} jar`, many: `${size} jars` });

/** What one of a size and several are called. */
export const jarSizeNames: Readonly<Record<JarSize, { readonly one: string; readonly many: string }>> = {
  'quarter-pint': { one: 'quarter-pint', many: 'quarter-pints' },
  'half-pint': { one: 'half-pint', many: 'half-pints' },
  '12-oz': jarsOf('12-oz'),
  pint: { one: 'pint', many: 'pints' },
  '24-oz': jarsOf('24-oz'),
  '28-oz': jarsOf('28-oz'),
  quart: { one: 'quart', many: 'quarts' },
  'half-gallon': { one: 'half-gallon', many: 'half-gallons' },
  '250-ml': jarsOf('250 mL'),
  '500-ml': jarsOf('500 mL'),
  '1-l': jarsOf('1 L'),
};

function sentenceFor(
  question: JarSizeQuestion,
  { finding, decidedBy }: Choice,
  findings: readonly SizeFinding[],
): string {
  const { item, keepColdDays } = question;
  if (finding === null || decidedBy === 'no-tested-size') {
    return `${item}: no size of jar has a tested process here.`;
  }
  const name = jarSizeNames[finding.size].many;
  switch (decidedBy) {
    case 'meal':
      return `${item}: ${name}, because one of them is one meal for you.`;
    case 'only-size':
      return `${item}: ${name}, the only size with a tested process here.`;
    case 'cost':
    case 'fewest-jars': {
      const last =
        decidedBy === 'fewest-jars'
          ? 'that makes the fewest jars'
          : findings.some((other) => other.costCentsPerServing === null)
            ? 'of the jars you have a serving costs least in them'
            : 'a serving costs least in them';
      return keepColdDays === null
        ? `${item}: ${name}, because an opened jar has no limit and ${last}.`
        : `${item}: ${name}, because ${inHundred(finding.thrownShare)} of an opened one is thrown away, about as little as with any size, and ${last}.`;
    }
    case 'waste': {
      const larger = findings.find((other) => other.servings > finding.servings);
      const beside = larger
        ? `, against ${inHundred(larger.thrownShare)} of the ${jarSizeNames[larger.size].many}`
        : '';
      return `${item}: ${name}, because an opened one keeps ${counted(keepColdDays ?? 'a', 'day')} and ${inHundred(finding.thrownShare)} of it is thrown away${beside}.`;
    }
  }
}

const inHundred = (share: number): string => (share < 0.005 ? 'none' : `${Math.round(share * 100)}%`);

const ownSizeInWords = (own: JarSizeAdvice['ownSizes'][number]): string =>
  `${own.jars} in ${jarSizeNames[own.size].many} for ${own.purpose}.`;
