import type { FastifyRequest } from 'fastify';
import { withoutSign } from '../../../shared/currency.ts';
import type { Problem } from '../../../shared/problems.ts';
import { type ProduceUnit, produceUnits } from '../../../shared/trade-measure.ts';
import { clearNumberFrom } from '../../../shared/typed-number.ts';
import { cropName } from '../../../src/harvest/crop-name.ts';
import { poundsOfProduce } from '../../../src/preserving/foods/trade-measures.ts';
import type { Choice } from '../../../views/parts/form.tsx';

const words: Readonly<Record<ProduceUnit, { readonly many: string; readonly one: string }>> = {
  lb: { many: 'lb', one: 'lb' },
  kg: { many: 'kg', one: 'kg' },
  bushel: { many: 'bushels', one: 'bushel' },
  'half-bushel': { many: 'half-bushels', one: 'half-bushel' },
  peck: { many: 'pecks', one: 'peck' },
  lug: { many: 'lugs', one: 'lug' },
  crate: { many: 'crates', one: 'crate' },
};

/** What an amount of produce is counted in. */
export const produceUnitChoices: readonly Choice[] = produceUnits.map((value) => ({
  value,
  words: words[value].many,
}));

/** What a price is said for: `a bushel`. */
export const pricedUnitChoices: readonly Choice[] = produceUnits.map((value) => ({
  value,
  words: `a ${words[value].one}`,
}));

/** A field for produce, and the field beside it that says what its amount or price is counted in. */
export interface ProduceField {
  readonly field: string;
  readonly unitField: string;
  readonly is: 'amount' | 'price';
}

/**
 * What was typed, its weights and prices turned into pounds where they were typed in kilograms, bushels, pecks, lugs or crates;
 * and what is wrong with the measures. What cannot be turned stays as it was typed. `weightUnit` says the unit where the field
 * of its own does not.
 */
export function inPounds(
  { server }: FastifyRequest,
  typed: Readonly<Record<string, string>>,
  crop: string,
  fields: readonly ProduceField[],
): { readonly values: Readonly<Record<string, string>>; readonly problems: readonly Problem[] } {
  const values: Record<string, string> = { ...typed };
  const problems: Problem[] = [];
  const named = { key: crop, name: cropName(server.reference.harvestWindows, crop) };
  for (const { field, unitField, is } of fields) {
    const said = typed[field] ?? '';
    const value = clearNumberFrom(withoutSign(said));
    const unit = produceUnits.find((one) => one === (typed[unitField] ?? typed.weightUnit));
    if (said === '' || unit === undefined || unit === 'lb') continue;
    const one = poundsOfProduce(1, unit, named, server.reference);
    if (!one.ok) problems.push(...one.problems.map((problem) => ({ ...problem, path: [unitField] })));
    else if (value !== null)
      values[field] = (is === 'price' ? value / one.value : value * one.value).toFixed(6);
  }
  return { values, problems };
}
