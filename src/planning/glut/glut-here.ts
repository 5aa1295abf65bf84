import { bounds } from '../../../shared/bounds.ts';
import { compare } from '../../../shared/compare.ts';
import type { CropKey } from '../../../shared/ids.ts';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import { fitting, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { glutForm } from '../../../shared/schemas/glut.ts';
import type { HarvestWindowRow } from '../../../shared/schemas/reference/harvest-window.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { amountSaid, producesSaid } from '../../../shared/trade-measure.ts';
import { cropName } from '../../harvest/crop-name.ts';
import { poundsOfProduce } from '../../preserving/foods/trade-measures.ts';
import type { GuessSupply } from '../../preserving/recipes/recipe-to-keep.ts';
import type { HouseholdYear } from '../year/household-year.ts';
import { cropsByWords, type NamedCrop } from './crop-by-words.ts';
import type { Glut } from './glut.ts';
import { cropsOfBook, yearFromBook } from './glut-from-book.ts';

/** A crop by its published name, and how much of it. */
export interface NamedGlut extends Glut {
  readonly name: string;
  /** Something the household keeps is made of it; otherwise only the recipe book has a use for it. */
  readonly isKept: boolean;
}

/** A glut, and the year to look for its uses in. */
export interface GlutHere {
  readonly glut: NamedGlut;
  readonly loaded: HouseholdYear;
}

/** Reads a glut; where nothing that is kept is made of the crop, its uses are those of the recipe book. */
export function glutHere(
  loaded: HouseholdYear,
  typed: unknown,
  reference: ReferenceTables,
  guessSupply: GuessSupply,
  weight: 'lb' | 'kg' = 'lb',
): Outcome<GlutHere> {
  const own = cropsHere(loaded, reference.harvestWindows);
  const glut = readGlut(own, cropsOfBook(reference), typed, reference, weight);
  if (!glut.ok) return glut;
  const { crop, isKept } = glut.value;
  return found({
    glut: glut.value,
    loaded: isKept ? loaded : yearFromBook(loaded, crop, reference, guessSupply),
  });
}

/** Every crop something here can be made of, by name. */
export function cropsHere(
  { year }: HouseholdYear,
  published: readonly HarvestWindowRow[],
): readonly NamedCrop[] {
  const keys = new Set<CropKey>(year.recipes.flatMap(({ produce }) => produce.map(({ crop }) => crop)));
  return [...keys]
    .map((crop) => ({ crop, name: cropName(published, crop) }))
    .sort((one, other) => compare(one.name, other.name));
}

/** Reads crop, amount and unit as a person typed them; a crop without any recipe is refused with those that have one. */
function readGlut(
  own: readonly NamedCrop[],
  inBook: readonly NamedCrop[],
  typed: unknown,
  reference: ReferenceTables,
  weight: 'lb' | 'kg',
): Outcome<NamedGlut> {
  const said = withUnitSaid(typed);
  const asked = readForm(glutForm, said);
  const { crop } = fitting(glutForm, said);
  if (crop === undefined) return asked.ok ? refused() : asked;
  const meant = cropMeant(own, inBook, crop);
  const both = together(asked, meant);
  if (!both.ok) return both;
  const [{ amount, unit }, named] = both.value;
  const lb = poundsOfProduce(amount, unit, { key: named.crop, name: named.name }, reference, weight);
  if (!lb.ok) return lb;
  if (lb.value > bounds.glut.to)
    return refused({
      code: 'glut-too-much',
      path: ['amount'],
      message: `${amount} of these are ${Math.round(lb.value)} lb, more than ${bounds.glut.to} lb. Write less.`,
    });
  return found({ ...named, lb: lb.value });
}

/** `2 bushels` in the field of the amount goes before the unit that stands beside it. */
function withUnitSaid(typed: unknown): unknown {
  const { amount, unit, ...rest } = typedValues(typed);
  if (amount === undefined) return typed;
  const chosen = producesSaid.find((one) => one === unit);
  const said = amountSaid(amount, chosen ?? 'lb');
  return {
    ...rest,
    amount: said.amount,
    unit: chosen === undefined && said.amount === amount ? unit : said.unit,
  };
}

/** The one crop that is meant, of those kept here or else of the recipe book. */
function cropMeant(
  own: readonly NamedCrop[],
  inBook: readonly NamedCrop[],
  crop: string,
): Outcome<Omit<NamedGlut, 'lb'>> {
  const ownMeant = cropsByWords(own, crop);
  const isKept = ownMeant.length > 0;
  const meant = isKept ? ownMeant : cropsByWords(inBook, crop);
  const [only] = meant;
  if (only === undefined || meant.length > 1)
    return refused({
      code: only === undefined ? 'crop-unknown' : 'crop-ambiguous',
      path: ['crop'],
      message:
        only === undefined
          ? `Nothing here is made of “${crop}”. Choose one of these: ${namesOf(own)}; or one of the recipe book: ${namesOf(inBook)}.`
          : `“${crop}” may mean ${namesOf(meant)}. Write the whole name.`,
    });
  return found({ ...only, isKept });
}

const namesOf = (crops: readonly NamedCrop[]): string => crops.map(({ name }) => name).join('; ');
