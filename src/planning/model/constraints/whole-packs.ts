import { mouthOf } from '../../../../shared/jar.ts';
import { cell, entry, noneBeyond } from '../../lookup.ts';
import { type PlannedRecipe, reserveHeld } from '../../planning-year.ts';
import { byBeginning } from '../../year/stage-weeks.ts';
import type { Draft } from '../draft.ts';
import { columnIn, terms } from '../terms.ts';
import type { MaybeColumn } from '../variables.ts';
import { emptiedIn } from './jars-empty.ts';
import { lidsPerBatch } from './lids.ts';
import { suppliedTo } from './supply-balance.ts';
import { reserveMissing } from './wishes/reserve.ts';

/** Units that must have been bought by a week's end, and the columns of what may be missed instead. */
interface NeedByWeek {
  readonly week: number;
  readonly units: number;
  readonly missed: readonly number[];
}

/** Nearer to a whole number of packs than this there is nothing to round. */
const roundingTolerance = 1e-3;

/**
 * By each week so many whole packs have been bought as keep the shelf from running bare; forbids nothing, proves sooner.
 *
 * With `need` units to be bought by week `w`, `d` a pack's units and `f` what `need / d` exceeds a whole number by,
 * `sum(packs of p up to w × (whole part of units[p] / d + min(1, rest / f))) + missed up to w / (d × f) >= need / d rounded
 * up`, packs. Mixed-integer rounding: G. L. Nemhauser, L. A. Wolsey, A recursive procedure to generate all cuts for 0-1 mixed
 * integer programs, Mathematical Programming 46 (1990); from memory. Only once canning is decided: the need is then a number.
 * Supplies, jars and lids cannot be missed: `sum(packs up to w) >= need / d rounded up`.
 */
export function wholePacks(draft: Draft): void {
  const { sets, stage, columns, writer } = draft;
  const { canning } = stage;
  if (!stage.wholePacks || canning === null) return;
  wholePacksForCanning(draft, canning.batches);
  sets.items.forEach((item, at) => {
    for (const { week, units, missed } of needs(draft, canning.batches, at))
      for (const pack of item.packs) {
        const packs = units / pack.units;
        const whole = Math.ceil(packs - roundingTolerance);
        const rest = packs - (whole - 1);
        if (whole <= 0 || rest > 1 - roundingTolerance) continue;
        const entries = [
          ...item.packs.flatMap((other, otherAt) =>
            terms(
              cell(columns.purchases, at, otherAt, 'purchases').slice(0, week + 1),
              roundedDown(other.units / pack.units, rest),
            ),
          ),
          ...terms(missed, 1 / (pack.units * rest)),
        ];
        const key = sets.year.weeks[week];
        writer.row(`whole_packs[${item.id},${pack.id},${key}]`, whole, entries, Number.POSITIVE_INFINITY);
      }
  });
}

/** What canning needs of something bought in one size of pack. */
interface CanningNeed {
  readonly label: string;
  readonly bought: readonly MaybeColumn[];
  readonly unitsPerPack: number;
  /** Less what is there and comes back in the week. */
  readonly unitsInWeek: (week: number) => number;
}

function wholePacksForCanning(draft: Draft, batches: readonly (readonly number[])[]): void {
  const { sets, writer } = draft;
  for (const { label, bought, unitsPerPack, unitsInWeek } of canningNeeds(draft, batches)) {
    let needed = 0;
    let most = 0;
    for (const week of sets.weekIndexes) {
      needed += unitsInWeek(week);
      const whole = Math.ceil(needed / unitsPerPack - roundingTolerance);
      if (whole <= most) continue;
      most = whole;
      const home = bought.slice(0, Math.max(1, week));
      const entries = terms(home, 1);
      if (entries.length === 0) continue;
      const key = sets.year.weeks[week];
      writer.row(`whole_packs[${label},${key}]`, whole, entries, Number.POSITIVE_INFINITY);
    }
  }
}

function canningNeeds(draft: Draft, batches: readonly (readonly number[])[]): CanningNeed[] {
  const { sets, columns } = draft;
  const { supplies, jars, lids } = sets.year;
  const begun = sets.recipes.map((recipe, at) => byBeginning(entry(batches, at, 'batches'), recipe));
  const usedBy =
    (perBatch: (recipe: PlannedRecipe) => number, byWeek: readonly (readonly number[])[] = batches) =>
    (week: number) =>
      sets.recipes.reduce((sum, recipe, at) => sum + perBatch(recipe) * cell(byWeek, at, week, 'byWeek'), 0);
  const of = (
    label: string,
    bought: readonly MaybeColumn[],
    unitsPerPack: number,
    onHand: number,
    used: (week: number) => number,
    back: (week: number) => number = () => 0,
  ): CanningNeed => ({
    label,
    bought,
    unitsPerPack,
    unitsInWeek: (week) => used(week) - (week === 0 ? onHand : back(week)),
  });
  return [
    ...supplies.flatMap(({ id, packQuantity, onHand, freshDays }, at) =>
      // Packs of what spoils serve one week alone, and their number there is a bound of its own.
      freshDays === undefined
        ? [
            of(
              id,
              entry(columns.supplyBought, at, 'supplyBought'),
              packQuantity,
              onHand,
              usedBy((recipe) => suppliedTo(recipe, id), begun),
            ),
          ]
        : [],
    ),
    ...jars.map(({ kind, pack, empty }, at) =>
      of(
        kind,
        entry(columns.jarsBought, at, 'jarsBought'),
        pack,
        empty,
        usedBy((recipe) => (recipe.jarKind === kind ? recipe.yieldHighJars : 0)),
        (week) => emptiedIn(draft, kind, week - 1).given,
      ),
    ),
    ...lids.map(({ mouth, box, onHand }, at) =>
      of(
        mouth,
        entry(columns.lidsBought, at, 'lidsBought'),
        box,
        onHand,
        usedBy(({ jarKind, yieldHighJars }) =>
          jarKind !== null && mouthOf(jarKind) === mouth ? lidsPerBatch(yieldHighJars) : 0,
        ),
      ),
    ),
  ];
}

/** What one pack of another size counts for where the need leaves `rest` of a pack. */
function roundedDown(packs: number, rest: number): number {
  const whole = Math.floor(packs + 1e-9);
  return whole + Math.min(1, Math.max(0, packs - whole) / rest);
}

/** Use, reserve and what the last week hands over, less what stands there or is made. */
function needs(
  { sets, parameters, columns }: Draft,
  batches: readonly (readonly number[])[],
  at: number,
): NeedByWeek[] {
  const item = entry(sets.items, at, 'items');
  const yearEndShortage = entry(columns.yearEndShortage, at, 'yearEndShortage');
  const shortages: number[] = [];
  let needed = 0;
  return sets.weekIndexes.flatMap((week): NeedByWeek[] => {
    const made = entry(sets.recipesByItem, at, 'recipesByItem').reduce((sum, recipe) => {
      const { readyAfterWeeks, yieldLowUnits } = entry(sets.recipes, recipe, 'recipes');
      return sum + yieldLowUnits * noneBeyond(entry(batches, recipe, 'batches'), week - readyAfterWeeks);
    }, 0);
    needed += cell(parameters.useByWeek, at, week, 'useByWeek');
    needed -= entry(entry(parameters.opening, at, 'opening').readyByWeek, week, 'readyByWeek');
    needed -= made;
    shortages.push(...terms([columnIn(columns.shortage, at, week)], 1).map(([column]) => column));
    const byUse = { week, units: needed, missed: [...shortages] };
    const isLast = week === sets.weekCount - 1;
    const isLookedAt = entry(parameters.reserveWeeks, at, 'reserveWeeks').includes(week);
    const reserveShort = isLookedAt ? reserveMissing(columns, at, isLast) : [];
    const missed = [...reserveShort, ...(isLast && yearEndShortage !== null ? [yearEndShortage] : [])];
    if (missed.length === 0) return [byUse];
    const reserve = reserveShort.length > 0 ? reserveHeld(item) : 0;
    const handedOver = isLast ? item.yearEndUnits : 0;
    return [byUse, { week, units: needed + reserve + handedOver, missed: [...shortages, ...missed] }];
  });
}
