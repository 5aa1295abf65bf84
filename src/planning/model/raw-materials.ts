import { entry } from '../lookup.ts';
import type { PlannedMaterial, PlannedRecipe, PlannedSource, PlanningYear } from '../planning-year.ts';
import { carryWeeksOf, lastUseWeek } from '../year/supply-weeks.ts';

/** Raw material of the recipes: a crop, which sources give, or a by-product, which other recipes give. */
export interface RawMaterial {
  readonly key: string;
  readonly kind: 'crop' | 'by-product';
  /** Positions in the sorted sources; none for a by-product. */
  readonly sources: readonly number[];
  /** On hand and unfrozen when the year begins, its unit. */
  readonly opening: number;
  /** Of that, how much may wait beyond each week, by week; nothing beyond its last. */
  readonly openingBeyond: readonly number[];
  /** Whole weeks it keeps unfrozen after the week it came in. */
  readonly carryWeeks: number;
  readonly freezer: FreezerLife | null;
}

export interface FreezerLife {
  readonly opening: number;
  readonly weeks: number;
  readonly quartsPerUnit: number;
}

const weeksPerMonth = 365.25 / 12 / 7;

/** Most weeks that anything of a source waits. */
const longestWait = (source: PlannedSource): number =>
  Math.max(0, ...source.lbByWeek.map((lb, week) => (lb > 0 ? lastUseWeek(source, week) - week : 0)));

/** Every material some recipe needs, crops first, each sorted by key. */
export function rawMaterialsOf(year: PlanningYear): RawMaterial[] {
  const crops = [...new Set(year.recipes.flatMap(({ produce }) => produce.map(({ crop }) => crop)))].sort();
  const used = new Set(year.recipes.flatMap(({ uses }) => uses.map(({ materialId }) => materialId)));
  return [
    ...crops.map((crop): RawMaterial => {
      const sources = year.sources.flatMap((source, at) => (source.crop === crop ? [at] : []));
      const frozen = year.freezable?.find((freezable) => freezable.crop === crop);
      return {
        key: crop,
        kind: 'crop',
        sources,
        opening: 0,
        openingBeyond: [],
        carryWeeks: Math.max(0, ...sources.map((at) => longestWait(entry(year.sources, at, 'sources')))),
        freezer:
          frozen === undefined
            ? null
            : {
                opening: frozen.openingLb,
                weeks: Math.floor(frozen.keepsMonthsFrozen * weeksPerMonth),
                quartsPerUnit: frozen.quartsPerLb,
              },
      };
    }),
    ...year.materials
      .filter(({ id }) => used.has(id))
      .map(
        (material): RawMaterial => ({
          key: material.id,
          kind: 'by-product',
          sources: [],
          opening: material.opening,
          openingBeyond: openingBeyond(material),
          carryWeeks: carryWeeksOf(material.keepsDaysCold),
          freezer:
            material.keepsMonthsFrozen === null
              ? null
              : {
                  opening: 0,
                  weeks: Math.floor(material.keepsMonthsFrozen * weeksPerMonth),
                  quartsPerUnit: material.quartsPerUnit,
                },
        }),
      ),
  ];
}

/** Units of what is there that may wait beyond each week. */
function openingBeyond({ opening, openingLasts, keepsDaysCold }: PlannedMaterial): readonly number[] {
  const lots = openingLasts ?? [{ quantity: opening, weeks: carryWeeksOf(keepsDaysCold) }];
  return Array.from({ length: Math.max(0, ...lots.map(({ weeks }) => weeks)) }, (_, week) =>
    lots.reduce((sum, { quantity, weeks }) => sum + (weeks > week ? quantity : 0), 0),
  );
}

/** What one batch needs of a material, its unit; by-products may always come from the freezer. */
export function needOf(
  recipe: PlannedRecipe,
  { key, kind }: RawMaterial,
): { readonly any: number; readonly freshOnly: number } {
  if (kind === 'by-product') {
    const any = recipe.uses
      .filter(({ materialId }) => materialId === key)
      .reduce((sum, { quantity }) => sum + quantity, 0);
    return { any, freshOnly: 0 };
  }
  const ofCrop = recipe.produce.filter(({ crop }) => crop === key);
  return {
    any: ofCrop.reduce((sum, { lb }) => sum + lb, 0),
    freshOnly: ofCrop.reduce((sum, { lb, mayBeFrozen }) => sum + (mayBeFrozen ? 0 : lb), 0),
  };
}

/** What one batch gives of a by-product, its unit. */
export function givenOf(recipe: PlannedRecipe, { key, kind }: RawMaterial): number {
  if (kind === 'crop') return 0;
  return recipe.gives
    .filter(({ materialId }) => materialId === key)
    .reduce((sum, { quantity }) => sum + quantity, 0);
}
