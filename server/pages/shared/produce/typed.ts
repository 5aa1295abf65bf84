import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { bounds } from '../../../../shared/bounds.ts';
import { withoutSign } from '../../../../shared/currency.ts';
import { found, type Outcome, type Problem, refused } from '../../../../shared/problems.ts';
import { readForm, typedValues } from '../../../../shared/schemas/form-fields.ts';
import { poundsField, poundsFieldOf } from '../../../../shared/schemas/item.ts';
import {
  amountSaid,
  producesSaid,
  type TradeMeasure,
  tradeMeasures,
} from '../../../../shared/trade-measure.ts';
import { readTypedNumber } from '../../../../shared/typed-number.ts';
import { cropName } from '../../../../src/harvest/crop-name.ts';
import { poundsOfProduce } from '../../../../src/preserving/foods/trade-measures.ts';
import { weightUnit } from './units.ts';

/** A field in which an amount of produce, or its price, is typed, and the one beside it that says in what. */
export interface ProduceField {
  readonly field: string;
  readonly unitField: string;
  readonly isPrice?: boolean;
  /** The most the field takes, in pounds; more than a batch or a lot holds unless it is said. */
  readonly most?: number;
}

export interface InPounds {
  /** As typed, each field of produce in pounds. */
  readonly values: Readonly<Record<string, string>>;
  /** What is wrong with the measures, beside the field each was said in. */
  readonly problems: readonly Problem[];
  /** The trade measure a price was said in, and the price in it; null where it was said for a weight. */
  readonly pricedIn: { readonly measure: TradeMeasure; readonly price: number } | null;
  /** A message about what was made of a field speaks of what was typed in it. */
  readonly asTyped: (problem: Problem) => Problem;
}

/**
 * What was typed, its amounts and prices of one crop turned into pounds where they were typed in kilograms, bushels, pecks, lugs or
 * crates: by the choice beside the field, or behind the amount itself. What cannot be turned stays as it was typed.
 */
export function inPounds(
  { server, reading }: FastifyRequest,
  typed: Readonly<Record<string, string>>,
  crop: string,
  fields: readonly ProduceField[],
): InPounds {
  const named = { key: crop, name: cropName(server.reference.harvestWindows, crop) };
  const values: Record<string, string> = { ...typed };
  const problems: Problem[] = [];
  let pricedIn: InPounds['pricedIn'] = null;
  for (const { field, unitField, isPrice = false, most = bounds.units.to } of fields) {
    const text = typed[field] ?? '';
    if (text === '') continue;
    const chosen = producesSaid.find((one) => one === typed[unitField]) ?? weightUnit(reading);
    const said = amountSaid(isPrice ? withoutSign(text) : text, chosen);
    const amount = isPrice ? withoutSign(said.amount) : said.amount;
    if (said.unit === 'lb') {
      if (said.amount !== text.trim() && !isPrice) values[field] = amount;
      if (isPrice) values[field] = amount;
      continue;
    }
    const one = poundsOfProduce(1, said.unit, named, server.reference, weightUnit(reading));
    if (!one.ok) {
      const beside = said.unit === chosen && typed[unitField] !== undefined ? unitField : field;
      problems.push(...one.problems.map((problem) => ({ ...problem, path: [beside] })));
      continue;
    }
    const read = readTypedNumber(amount, { fractions: true });
    if (read.kind === 'none') continue;
    // `4.082` has three decimals or is four thousand: where so many are more than the field takes, it has decimals.
    if (read.kind === 'unclear' && !isPrice && read.larger * one.value <= most) {
      problems.push(unclearAmount(text, read, field));
      continue;
    }
    const value = read.kind === 'unclear' ? read.smaller : read.value;
    values[field] = (isPrice ? value / one.value : value * one.value).toFixed(6);
    const measure = tradeMeasures.find((known) => known === said.unit);
    if (isPrice && measure !== undefined) pricedIn = { measure, price: value };
  }
  const asTyped = (problem: Problem): Problem => {
    const field = fields.find((one) => one.field === problem.path.at(-1))?.field ?? '';
    const made = values[field];
    return made === undefined || made === typed[field]
      ? problem
      : { ...problem, message: problem.message.replace(`“${made}”`, `“${typed[field]}”`) };
  };
  return { values, problems, pricedIn, asTyped };
}

const unclearAmount = (
  text: string,
  { larger, smaller }: { readonly larger: number; readonly smaller: number },
  field: string,
): Problem => ({
  code: 'amount-unclear',
  path: [field],
  message: `“${text}” may be ${larger} or ${smaller}. Write ${larger}, or ${smaller}0 for the other.`,
});

/** The fields of what one batch takes of a crop: how much, and in what. */
const poundsFieldsOf = (crop: string): readonly [field: string, unitField: string] => [
  poundsFieldOf(crop),
  `${poundsFieldOf(crop)}Unit`,
];

/** What one batch takes of a crop, in pounds, from the fields that are made for it. */
export function poundsOfCrop(request: FastifyRequest, crop: string, name: string): Outcome<number> {
  const [field, unitField] = poundsFieldsOf(crop);
  const { values, problems, asTyped } = inPounds(request, typedValues(request.body), crop, [
    { field, unitField, most: bounds.cropLb.to },
  ]);
  const read = readForm(z.object({ [field]: poundsField(name) }), values);
  const lb = read.ok ? read.value[field] : undefined;
  return lb !== undefined && problems.length === 0
    ? found(lb)
    : refused(...(read.ok ? [] : read.problems.map(asTyped)), ...problems);
}
