import { z } from 'zod';

export const jarSizes = [
  'quarter-pint',
  'half-pint',
  '12-oz',
  'pint',
  '24-oz',
  '28-oz',
  'quart',
  'half-gallon',
  '250-ml',
  '500-ml',
  '1-l',
] as const;
/** Nominal size of a jar: a closed list. Metric sizes are their own sizes, never rounded to a neighbour. */
export const jarSize = z.enum(jarSizes);
export type JarSize = z.output<typeof jarSize>;

export const mouths = ['regular', 'wide'] as const;
export const mouth = z.enum(mouths);
export type Mouth = z.output<typeof mouth>;

/** A jar kind is size × mouth, written `pint/wide`. Lids belong to the mouth, processing to the size. */
export const jarKind = z
  .string()
  .refine((text) => {
    const [size, opening, ...rest] = text.split('/');
    return rest.length === 0 && jarSize.safeParse(size).success && mouth.safeParse(opening).success;
  }, 'Expected a jar kind like pint/regular or quart/wide')
  .brand<'JarKind'>();
export type JarKind = z.output<typeof jarKind>;

export const asJarKind = (size: JarSize, opening: Mouth): JarKind => `${size}/${opening}` as JarKind;
/** Every kind of jar there is, the usual mouth first. */
export const jarKinds: readonly JarKind[] = mouths.flatMap((opening) =>
  jarSizes.map((size) => asJarKind(size, opening)),
);
export const sizeOf = (kind: JarKind): JarSize => kind.split('/')[0] as JarSize;
export const mouthOf = (kind: JarKind): Mouth => kind.split('/')[1] as Mouth;

const usFluidOunceMl = 29.5735295625;

/**
 * Nominal volume in millilitres, US customary sizes from the exact US fluid ounce (NIST Handbook 44 Appendix C).
 * Used to compare amounts of food, never to choose a processing time.
 */
export const nominalMl: Readonly<Record<JarSize, number>> = {
  'quarter-pint': 4 * usFluidOunceMl,
  'half-pint': 8 * usFluidOunceMl,
  '12-oz': 12 * usFluidOunceMl,
  pint: 16 * usFluidOunceMl,
  '24-oz': 24 * usFluidOunceMl,
  '28-oz': 28 * usFluidOunceMl,
  quart: 32 * usFluidOunceMl,
  'half-gallon': 64 * usFluidOunceMl,
  '250-ml': 250,
  '500-ml': 500,
  '1-l': 1000,
};

/** How many `usual` jars the food in one jar of `size` fills; a quart is two pints. */
export const inUsualJars = (size: JarSize, usual: JarSize): number => nominalMl[size] / nominalMl[usual];
