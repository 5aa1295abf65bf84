import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { drawNormal, type Random } from '../../../src/shelf/draws.ts';

/** Seeded numbers of one strand of a path; strands of other names do not disturb each other. */
export function luckOf(seed: number, strand: string): Random {
  let hash = 0x811c9dc5;
  for (const letter of strand) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  const generator = xoroshiro128plus(Math.imul(seed, 0x9e3779b1) ^ hash);
  return () => uniformFloat64(generator);
}

export const between = (random: Random, low: number, high: number): number => low + random() * (high - low);

export const wholeBetween = (random: Random, low: number, high: number): number =>
  low + Math.floor(random() * (high - low + 1));

/** A factor around 1 whose logarithm is normal with this deviation. */
export const factorAround = (random: Random, deviation: number): number =>
  Math.exp(deviation * drawNormal(random) - deviation ** 2 / 2);

export function oneOf<T>(random: Random, choices: readonly T[]): T {
  const chosen = choices[Math.floor(random() * choices.length)];
  if (chosen === undefined) throw new RangeError('oneOf: expected choices, found none');
  return chosen;
}

/** Some of the choices, in their own order. */
export function someOf<T>(random: Random, choices: readonly T[], count: number): T[] {
  const drawn = choices.map((choice, at) => ({ choice, at, rank: random() }));
  const taken = drawn.toSorted((one, other) => one.rank - other.rank).slice(0, count);
  return taken.toSorted((one, other) => one.at - other.at).map(({ choice }) => choice);
}
