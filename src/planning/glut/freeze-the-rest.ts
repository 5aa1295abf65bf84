import type { CropKey } from '../../../shared/ids.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import type { Recipe } from '../../household/recipe.ts';
import { basedOnWay } from '../../preserving/uncanned/uncanned-ways.ts';

/** What no batch takes of a glut, frozen by a way of the book that the household has not taken over yet. */
export interface FreezeRest {
  readonly way: UncannedWayRow;
  /** Units that the freezer has room for; 0 where the book prints no pounds a unit, and the household has to weigh. */
  readonly units: number;
  /** Pounds that go into them, by the high published figure; all of the rest where none is printed. */
  readonly lb: number;
}

/**
 * How the rest of a glut can be frozen, by the published ways for its crop: as many units as the room in the freezer holds, each
 * counted with the high published pounds, so that no more is promised than fits. Ways the household makes already are in the
 * answers themselves and are left out, and so is a way of which not one unit fits.
 *
 * @param lbLeft Pounds that no batch takes.
 * @param freezerQuarts Room left in the freezer.
 */
export function freezeTheRest(
  crop: CropKey,
  { lbLeft, freezerQuarts }: { readonly lbLeft: number; readonly freezerQuarts: number },
  recipes: readonly Recipe[],
  { uncannedWays }: Pick<ReferenceTables, 'uncannedWays'>,
): readonly FreezeRest[] {
  const made = new Set(recipes.map(({ basedOn }) => basedOn));
  return uncannedWays
    .filter(
      ({ keeping, cropKey, wayKey }) =>
        keeping === 'frozen' && cropKey?.replaceAll('_', '-') === crop && !made.has(basedOnWay(wayKey)),
    )
    .flatMap((way): FreezeRest[] => {
      if (lbLeft < 0.05 || way.freezerQuarts === null || way.freezerQuarts > freezerQuarts) return [];
      if (way.lbPerUnit === null) return [{ way, units: 0, lb: lbLeft }];
      const fits = Math.floor(freezerQuarts / way.freezerQuarts + 1e-9);
      const units = Math.min(fits, Math.floor(lbLeft / way.lbPerUnit.high + 1e-9));
      return units < 1 ? [] : [{ way, units, lb: units * way.lbPerUnit.high }];
    });
}
