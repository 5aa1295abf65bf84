import type { CannerFactRow } from '../../shared/schemas/reference/canner-fact.ts';
import { factNumber, factRange } from './citation.ts';

/** A canner as it stands in a shop, in words without a maker: what one load holds. */
export interface CannerSize {
  readonly key: string;
  readonly method: 'boiling-water' | 'pressure';
  readonly words: string;
  readonly holds: { readonly quarts: number; readonly pints: number; readonly halfPints: number };
}

/**
 * The sizes a household chooses from. A load is 7 quarts, or 8 to 9 pints; the guide's own batches are of 7 quarts or 9 pints,
 * so an ordinary canner is held to take 9 and one in which no ninth stands is narrow. Large pressure canners take 18 pints in two
 * layers, small ones 4 quarts, whose pints are not published and are held to be as many (our own inference). Half-pints are held
 * to be as many as pints (our own inference as well).
 *
 * Source: USDA Complete Guide 1, p1-17 and the glossary on p1-35 (read).
 */
export function cannerSizes(facts: readonly CannerFactRow[]): readonly CannerSize[] {
  const holding = (quarts: number, pints: number): CannerSize['holds'] => ({
    quarts,
    pints,
    halfPints: pints,
  });
  const inPot = factNumber(facts, 'bwc.load.quart');
  const pintsInPot = factRange(facts, 'bwc.load.pint');
  const quarts = factNumber(facts, 'pc.load.quart.standard');
  const pints = factRange(facts, 'pc.load.pint.standard');
  const small = factNumber(facts, 'pc.load.quart.small');
  return [
    {
      key: 'pot',
      method: 'boiling-water',
      words: 'ordinary canning pot',
      holds: holding(inPot, pintsInPot.high),
    },
    {
      key: 'narrow-pot',
      method: 'boiling-water',
      words: 'narrow pot, too narrow for a ninth pint',
      holds: holding(inPot, pintsInPot.low),
    },
    { key: 'pressure', method: 'pressure', words: '16-quart', holds: holding(quarts, pints.high) },
    {
      key: 'narrow-pressure',
      method: 'pressure',
      words: '16-quart, too narrow for a ninth pint',
      holds: holding(quarts, pints.low),
    },
    {
      key: 'tall-pressure',
      method: 'pressure',
      words: '21- to 23-quart, pints in two layers',
      holds: holding(
        factNumber(facts, 'pc.load.quart.large'),
        factNumber(facts, 'pc.load.pint.large_two_layers'),
      ),
    },
    {
      key: 'small-pressure',
      method: 'pressure',
      words: 'small, four quarts upright',
      holds: holding(small, small),
    },
  ];
}
