import { wordFor } from '../../../shared/counting.ts';
import { poundsPerKilogram } from '../../../shared/measures.ts';
import { asCents } from '../../../shared/money.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays } from '../../../shared/week.ts';
import { cropInWords, cropName } from '../../../src/harvest/crop-name.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { Source } from '../../../src/household/source.ts';
import type { Supply } from '../../../src/household/supplies.ts';
import { type GuessedFigure, jarsOnGuess } from '../../../src/planning/explanation/jars-on-guess.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import type { GuessLine } from '../../../views/pages/items/items-page.tsx';
import { formatDay, formatMinutes, formatMoney, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { Guess } from '../../queries/year/guesses.ts';

/** What is looked at to say what a guess is and how many jars stand on it. */
export interface GuessPicture {
  readonly guesses: readonly Guess[];
  readonly sources: readonly Source[];
  readonly supplies: readonly Supply[];
  readonly recipes: readonly Recipe[];
  /** The newest; null before the first. */
  readonly plan: Plan | null;
  readonly reference: ReferenceTables;
  readonly reading: Reading;
}

interface WeighedLine {
  readonly line: GuessLine;
  readonly jars: number;
}

/** Every figure that was guessed for the household and is not its own yet, with where it is put right; what moves the most jars first. */
export function presentGuesses(picture: GuessPicture): readonly GuessLine[] {
  const lines = [...picture.sources.flatMap((source) => datesLine(source, picture)), ...guessed(picture)];
  return lines.toSorted((left, right) => right.jars - left.jars).map(({ line }) => line);
}

const guessed = (picture: GuessPicture): readonly WeighedLine[] =>
  picture.guesses.flatMap((guess) => lineOf[guess.kind](guess, picture));

/** What a guess is about, as a sentence names it. */
interface Subject {
  readonly words: string;
  readonly isPlural: boolean;
}

const one = (words: string): Subject => ({ words, isPlural: false });
const several = (words: string): Subject => ({ words, isPlural: true });

/** "Your peach dates are our guess: they move 42 jars"; without a plan nobody knows yet how many. */
function weighed(
  figure: GuessedFigure,
  { plan, recipes, reading }: GuessPicture,
  { words, isPlural }: Subject,
  rest: Omit<GuessLine, 'words'>,
): WeighedLine {
  const is = `${words} ${isPlural ? 'are' : 'is'} our guess`;
  if (plan === null) return { jars: 0, line: { ...rest, words: is } };
  const jars = Math.round(jarsOnGuess(figure, plan, recipes));
  const moves =
    jars === 0
      ? `no jar depends on ${isPlural ? 'them' : 'it'}`
      : `${formatQuantity(jars, 'jar', reading)} ${wordFor(jars, 'depends', 'depend')} on ${isPlural ? 'them' : 'it'}`;
  return { jars, line: { ...rest, words: `${is}: ${moves}` } };
}

function datesLine(source: Source, picture: GuessPicture): readonly WeighedLine[] {
  const window = source.windows.at(-1);
  if (window?.datesGuessed !== true) return [];
  const { reading } = picture;
  const from = window.mostActive?.fromOn ?? window.beginsOn;
  const until = window.mostActive?.untilOn ?? window.endsOn;
  return [
    weighed(
      { kind: 'harvest', crop: source.crop },
      picture,
      several(`Your ${cropInWords(source.crop)} dates`),
      {
        key: `dates-${source.id}`,
        figure: `Planned on from ${formatDay(from, reading)} to ${formatDay(addDays(until, -1), reading)}.`,
        step: { words: 'Write your dates', href: `/harvest/${source.id}` },
      },
    ),
  ];
}

function sourceLine({ subject }: Guess, picture: GuessPicture): readonly WeighedLine[] {
  const source = picture.sources.find(({ id }) => id === subject);
  if (source === undefined) return [];
  const { reading, reference } = picture;
  const window = source.windows.at(-1);
  const price = pricePerWeight(source, reading);
  return [
    weighed(
      { kind: 'harvest', crop: source.crop },
      picture,
      several(`Price and weekly amount of ${source.name}`),
      {
        key: `source-${subject}`,
        figure: window
          ? `${price}, ${formatQuantity(window.lbPerWeek, 'lb', reading)} a week.`
          : `${price}. No season is published for ${cropName(reference.harvestWindows, source.crop).toLowerCase()} in your region: write its dates down, or nothing is planned from it.`,
        step: { words: 'Write yours', href: `/harvest/${source.id}` },
      },
    ),
  ];
}

const pricePerWeight = ({ pricePerLb }: Source, reading: Reading): string =>
  reading.units === 'metric'
    ? `${formatMoney(asCents(pricePerLb * poundsPerKilogram), reading)} a kg`
    : `${formatMoney(pricePerLb, reading)} a lb`;

function supplyLine({ subject }: Guess, picture: GuessPicture): readonly WeighedLine[] {
  const supply = picture.supplies.find(({ id }) => id === subject);
  if (supply === undefined) return [];
  const { reading } = picture;
  return [
    weighed({ kind: 'price' }, picture, one(`The price of ${supply.name}`), {
      key: `supply-${subject}`,
      figure: `${formatQuantity(supply.packQuantity, supply.unit, reading)} for ${formatMoney(asCents(supply.packPrice), reading)}.`,
      step: { words: 'Write what it costs', href: `/items/supplies/${supply.id}` },
    }),
  ];
}

function minutesLine({ subject }: Guess, picture: GuessPicture): readonly WeighedLine[] {
  const recipe = picture.recipes.find(({ id }) => id === subject);
  if (recipe === undefined) return [];
  return [
    weighed({ kind: 'minutes', recipe: recipe.id }, picture, several(`The minutes of ${recipe.name}`), {
      key: `minutes-${subject}`,
      figure: `${formatMinutes(recipe.atFirst.handsOnMinutes)} of work a batch.`,
      step: { words: 'Write how long it takes you', href: `/items/${recipe.itemId}#recipes` },
    }),
  ];
}

const lineOf: Readonly<
  Record<Guess['kind'], (guess: Guess, picture: GuessPicture) => readonly WeighedLine[]>
> = { source: sourceLine, supply: supplyLine, minutes: minutesLine };
