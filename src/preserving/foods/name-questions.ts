import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { NameDenial } from '../../household/recipe.ts';
import { recipeBasis } from '../recipes/recipe-basis.ts';
import type { Refusal } from '../refusal.ts';
import { nameOfAnotherFood, nameRefusals, nameRuling, type TestedFood } from './food-names.ts';

// A name that names a food its process was not tested for is asked about: "Is there pumpkin in it?" What is said stays with
// the recipe and exactly that name.

/** A name of a recipe that is asked about and may be answered with no. */
export interface NameQuestion {
  readonly name: string;
  readonly question: string;
  readonly otherFood: string;
  readonly no: string;
  readonly ifYes: Refusal;
}

/** What is in it, as a form says it: the name and the food that were asked about stand with the answer. */
export interface NameAnswered {
  readonly name: string;
  readonly otherFood: string;
  readonly inIt: string;
}

/** What a household's recipe is held against; nothing where it is based on no tested food. */
export const testedFoodOf = (
  reference: ReferenceTables,
  basedOn: string,
  process: { readonly style: string; readonly pack: string } | null,
): TestedFood | null => {
  const basis = recipeBasis(reference, basedOn, process);
  return basis ? (basis.tested ?? basis) : null;
};

/** The questions nobody has answered; or what stands against a name whatever is answered. */
export function nameQuestions(
  names: readonly string[],
  food: TestedFood | null,
  denials: readonly NameDenial[] = [],
): Outcome<readonly NameQuestion[]> {
  const questions: NameQuestion[] = [];
  for (const name of new Set(names)) {
    const against = nameRefusals(name, food, denials);
    if (against.length === 0) continue;
    const ruling = nameRuling(name, food);
    if (food === null || !ruling.ok || ruling.value.kind === 'fits' || !ruling.value.mayBeDenied)
      return refused(...against);
    const { question, otherFood, no, ifYes } = ruling.value;
    questions.push({ name, question, otherFood, no, ifYes });
  }
  return found(questions);
}

/** The denials a form brings for what is asked; its questions where they are still open, or what a yes comes to. */
export function denialsFor(
  questions: readonly NameQuestion[],
  answered: NameAnswered,
): Outcome<readonly NameDenial[]> {
  const asked = askedTogether(questions);
  if (asked === null) return found([]);
  const isAnswered = answered.name === asked.name && answered.otherFood === asked.otherFood;
  if (isAnswered && answered.inIt === 'yes')
    return refused(...questions.map(({ ifYes }) => ifYes).slice(0, 1));
  if (isAnswered && answered.inIt === 'no')
    return found(questions.map(({ name, otherFood }) => ({ name, otherFood })));
  return refused({
    code: nameOfAnotherFood,
    path: ['inIt'],
    message: `“${asked.name.slice(0, 60)}” names another food. Answer, or write another name.`,
  });
}

/** One question for a form: a name may be asked about for several recipes at once. */
export const askedTogether = (questions: readonly NameQuestion[]): Omit<NameQuestion, 'ifYes'> | null => {
  const [first] = questions;
  if (first === undefined) return null;
  const distinct = (of: (question: NameQuestion) => string): readonly string[] => [
    ...new Set(questions.map(of)),
  ];
  return {
    name: distinct(({ name }) => name).join('; '),
    question: distinct(({ question }) => question).join(' '),
    otherFood: distinct(({ otherFood }) => otherFood).join('; '),
    no: distinct(({ no }) => no).join('. '),
  };
};
