import { type JarKind, type Mouth, mouthOf, mouths, sizeOf } from '../../../shared/jar.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import type { JarStock, LidStock } from '../../household/supplies.ts';
import type { JarHolding, LidHolding, PlannedRecipe } from '../planning-year.ts';

/** What new jars and lids cost where the household named no price: guesses, none published. */
export interface VesselGuesses {
  readonly jars: readonly JarPack[];
  readonly lids: { readonly box: number; readonly boxPrice: Cents } | null;
}

interface JarPack {
  readonly kind: JarKind;
  readonly pack: number;
  readonly price: Cents;
}

export const noVesselGuesses: VesselGuesses = { jars: [], lids: null };

/** Share of jars given away that is counted on to come back, where nobody said. */
const returnShareUnsaid = 0;

/**
 * A holding of every kind of jar that some recipe fills: as counted, or none of it, and new ones at the price known of jars
 * most like it. A kind of which no price is known at all is left out, and `checkPlanningYear` refuses such a year.
 *
 * Most like it: the household's own price for the same size with the other mouth; a guess for the same size; else the dearest
 * jar of all prices known, so that what a jar costs is not taken too low.
 */
export function jarsToFill(
  recipes: readonly Pick<PlannedRecipe, 'jarKind'>[],
  counted: readonly JarStock[],
  guesses: VesselGuesses,
): readonly JarHolding[] {
  const uncounted = [...new Set(recipes.flatMap(({ jarKind }) => jarKind ?? []))]
    .filter((kind) => !counted.some((stock) => stock.kind === kind))
    .sort();
  return [
    ...counted.map(({ price, ...stock }) => ({ ...stock, packPrice: price })),
    ...uncounted.flatMap((kind): JarHolding[] => {
      const like = packMostLike(kind, counted, guesses);
      return like === undefined
        ? []
        : [
            {
              kind,
              owned: 0,
              empty: 0,
              pack: like.pack,
              packPrice: like.price,
              returnShare: returnShareUnsaid,
            },
          ];
    }),
  ];
}

function packMostLike(
  kind: JarKind,
  counted: readonly JarPack[],
  guesses: VesselGuesses,
): JarPack | undefined {
  const sameSize = (pack: JarPack) => sizeOf(pack.kind) === sizeOf(kind);
  const [dearest] = [...counted, ...guesses.jars].sort(
    (one, other) => other.price / other.pack - one.price / one.pack,
  );
  return counted.find(sameSize) ?? guesses.jars.find(sameSize) ?? dearest;
}

/** Lids of every mouth that some recipe closes: as counted, or none, and new ones at the price of the other mouth, else a guess. */
export function lidsToClose(
  recipes: readonly Pick<PlannedRecipe, 'jarKind'>[],
  counted: readonly LidStock[],
  guesses: VesselGuesses,
): readonly LidHolding[] {
  const uncounted = mouths.filter(
    (mouth) =>
      recipes.some(({ jarKind }) => jarKind !== null && mouthOf(jarKind) === mouth) &&
      !counted.some((stock) => stock.mouth === mouth),
  );
  const [like = guesses.lids] = counted;
  if (like === null) return counted;
  return [
    ...counted,
    ...uncounted.map((mouth) => ({
      mouth,
      onHand: 0,
      box: like.box,
      boxPrice: asCents(like.boxPrice),
    })),
  ];
}

/** Kinds of jars and mouths of lids a plan takes as none, since nobody counted them. */
export interface UncountedVessels {
  readonly jars: readonly JarHolding[];
  readonly lids: readonly LidHolding[];
}

/** What `jarsToFill` and `lidsToClose` added to what the household counted. */
export const uncountedVessels = (
  { jars, lids }: { readonly jars: readonly JarHolding[]; readonly lids: readonly LidHolding[] },
  counted: { readonly jars: readonly JarStock[]; readonly lids: readonly LidStock[] },
): UncountedVessels => ({
  jars: jars.filter(({ kind }) => !counted.jars.some((stock) => stock.kind === kind)),
  lids: lids.filter(
    ({ mouth }: { readonly mouth: Mouth }) => !counted.lids.some((stock) => stock.mouth === mouth),
  ),
});
