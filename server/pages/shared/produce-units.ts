import { type ProduceUnit, produceUnits } from '../../../shared/trade-measure.ts';
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
