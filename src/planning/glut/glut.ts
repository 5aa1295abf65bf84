import { compare } from '../../../shared/compare.ts';
import type { CropKey, ItemId, RecipeId } from '../../../shared/ids.ts';
import { type JarKind, type Mouth, mouthOf } from '../../../shared/jar.ts';
import { orNone } from '../lookup.ts';
import { lidsPerBatch } from '../model/constraints/lids.ts';
import type { PlannedRecipe, PlanningYear } from '../planning-year.ts';
import { loadsPerBatch, minutesAtStove, minutesInCanner } from '../year/recipe-time.ts';
import type { YearWalk } from '../year/year-walk.ts';

/** More of a crop than was planned for, all at once, pounds. */
export interface Glut {
  readonly crop: CropKey;
  readonly lb: number;
}

/** Id of the source a glut is planned as. */
export const glutSource = ({ crop }: Pick<Glut, 'crop'>): string => `glut-of-${crop}`.slice(0, 64);

/** From what a year needs of an item to what is missing; null for what nobody keeps. */
export type WalkOf = (item: ItemId) => YearWalk | null;

/** One thing a glut can become, as far as whole batches use it up; everything a person has to have ready for it. */
export interface GlutWay {
  readonly recipe: RecipeId;
  readonly name: string;
  readonly item: ItemId;
  readonly batches: number;
  readonly lbUsed: number;
  readonly lbLeft: number;
  /** Units to count on, low yield. */
  readonly units: number;
  /** Units the year still wants beyond what stands, whatever is planned. */
  readonly unitsStillWanted: number;
  /** Batches beyond which the year wants no more. */
  readonly batchesWanted: number;
  readonly jars: {
    readonly kind: JarKind;
    readonly mouth: Mouth;
    readonly count: number;
    readonly missing: number;
  } | null;
  readonly lids: { readonly count: number; readonly missing: number } | null;
  readonly supplies: readonly GlutSupply[];
  readonly loads: number;
  /** Work at table and stove, the set-up of a session apart. */
  readonly handsOnMinutes: number;
  readonly cannerMinutes: number;
  /** The tested schedule here; null for what is not canned. */
  readonly processing: {
    readonly minutes: number;
    readonly psi: number | null;
    readonly scheduleKey: string;
  } | null;
}

export interface GlutSupply {
  readonly supplyId: string;
  readonly name: string;
  readonly quantity: number;
  readonly missing: number;
  readonly unit: string;
}

/**
 * What a glut can become, at once and without a solve: each recipe of the crop with as many whole batches as it fills,
 * what they need, and how many the year still wants. Wanted most first; a recipe the glut does not fill one batch of is
 * left out, and so is what has no tested schedule here, since no such recipe reaches the planner.
 */
export function glutWays(year: PlanningYear, { crop, lb }: Glut, walkOf: WalkOf): GlutWay[] {
  return year.recipes
    .flatMap((recipe): GlutWay[] => {
      const lbPerBatch = recipe.produce
        .filter((need) => need.crop === crop)
        .reduce((sum, need) => sum + need.lb, 0);
      const batches = lbPerBatch > 0 ? Math.floor(lb / lbPerBatch + 1e-9) : 0;
      return batches > 0
        ? [
            wayOf(
              year,
              recipe,
              batches,
              { used: batches * lbPerBatch, left: lb - batches * lbPerBatch },
              walkOf(recipe.itemId),
            ),
          ]
        : [];
    })
    .sort(
      (one, other) =>
        Math.min(other.batches, other.batchesWanted) - Math.min(one.batches, one.batchesWanted) ||
        other.lbUsed - one.lbUsed ||
        compare(one.recipe, other.recipe),
    );
}

function wayOf(
  year: PlanningYear,
  recipe: PlannedRecipe,
  batches: number,
  lb: { readonly used: number; readonly left: number },
  walk: YearWalk | null,
): GlutWay {
  const jarCount = batches * recipe.yieldHighJars;
  const lidCount = Math.ceil(batches * lidsPerBatch(recipe.yieldHighJars) - 1e-9);
  const emptyJars = orNone(year.jars.find(({ kind }) => kind === recipe.jarKind)?.empty);
  const lidsOnHand = orNone(
    year.lids.find(({ mouth }) => recipe.jarKind !== null && mouth === mouthOf(recipe.jarKind))?.onHand,
  );
  const unitsStillWanted = orNone(walk?.toCome);
  return {
    recipe: recipe.id,
    name: recipe.name,
    item: recipe.itemId,
    batches,
    lbUsed: lb.used,
    lbLeft: lb.left,
    units: batches * recipe.yieldLowUnits,
    unitsStillWanted,
    batchesWanted: Math.max(0, Math.ceil(unitsStillWanted / recipe.yieldLowUnits - 1e-9)),
    jars:
      recipe.jarKind === null
        ? null
        : {
            kind: recipe.jarKind,
            mouth: mouthOf(recipe.jarKind),
            count: jarCount,
            missing: Math.max(0, jarCount - emptyJars),
          },
    lids: recipe.jarKind === null ? null : { count: lidCount, missing: Math.max(0, lidCount - lidsOnHand) },
    supplies: recipe.supplies.map(({ supplyId, quantity }): GlutSupply => {
      const supply = year.supplies.find(({ id }) => id === supplyId);
      const needed = batches * quantity;
      return {
        supplyId,
        name: supply?.name ?? supplyId,
        quantity: needed,
        missing: Math.max(0, needed - orNone(supply?.onHand)),
        unit: supply?.unit ?? '',
      };
    }),
    loads: batches * loadsPerBatch(recipe),
    handsOnMinutes: batches * minutesAtStove(recipe),
    cannerMinutes: batches * minutesInCanner(recipe),
    processing:
      recipe.processing === null
        ? null
        : {
            minutes: recipe.processing.minutes,
            psi: recipe.processing.psi,
            scheduleKey: recipe.processing.scheduleKey,
          },
  };
}
