import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

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
 */
export function wholePacks(draft: Draft): void {
  const { sets, stage, columns, writer } = draft;
  const { canning } = stage;
  if (!stage.wholePacks || canning === null) return;
  sets.items.forEach((item, at) => {
    if (item.packs.length === 0) return;
    for (const { week, units, missed } of needs(draft, canning.batches, at))
      for (const pack of item.packs) {
        const packs = units / pack.units;
        const whole = Math.ceil(packs - roundingTolerance);
        const rest = packs - (whole - 1);
        if (whole <= 0 || rest > 1 - roundingTolerance) continue;
        const entries: Entry[] = item.packs.flatMap((other, otherAt) =>
          (columns.purchases[at]?.[otherAt]?.slice(0, week + 1) ?? []).flatMap((column): Entry[] =>
            column === null ? [] : [[column, roundedDown(other.units / pack.units, rest)]],
          ),
        );
        for (const column of missed) entries.push([column, 1 / (pack.units * rest)]);
        const key = sets.year.weeks[week];
        writer.row(`whole_packs[${item.id},${pack.id},${key}]`, whole, entries, Number.POSITIVE_INFINITY);
      }
  });
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
  const item = sets.items[at];
  const found: NeedByWeek[] = [];
  let needed = 0;
  const shortages: number[] = [];
  for (const week of sets.weekIndexes) {
    needed += parameters.useByWeek[at]?.[week] ?? 0;
    needed -= parameters.opening[at]?.readyByWeek[week] ?? 0;
    for (const recipe of sets.recipesByItem[at] ?? []) {
      const { readyAfterWeeks = 0, yieldLowUnits = 0 } = sets.recipes[recipe] ?? {};
      needed -= yieldLowUnits * (batches[recipe]?.[week - readyAfterWeeks] ?? 0);
    }
    const shortage = columns.shortage[at]?.[week];
    if (shortage != null) shortages.push(shortage);
    const missed = [...shortages];
    found.push({ week, units: needed, missed });
    const reserveShortage = columns.reserveShortage[at];
    const yearEndShortage = columns.yearEndShortage[at];
    const isLast = week === sets.weekCount - 1;
    const yearEnd = isLast && yearEndShortage != null ? [yearEndShortage] : [];
    const handedOver = isLast ? (item?.yearEndUnits ?? 0) : 0;
    if (reserveShortage != null && parameters.reserveWeeks[at]?.includes(week))
      found.push({
        week,
        units: needed + (item?.reserveUnits ?? 0) + handedOver,
        missed: [...missed, reserveShortage, ...yearEnd],
      });
    else if (yearEnd.length > 0)
      found.push({ week, units: needed + handedOver, missed: [...missed, ...yearEnd] });
  }
  return found;
}
