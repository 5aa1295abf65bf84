import { entry } from '../../../lookup.ts';
import { reserveHeld } from '../../../planning-year.ts';
import { comingReserveWeeks } from '../../coming-weeks.ts';
import type { Draft } from '../../draft.ts';
import { heldWithinYear } from '../../emergency-shelf.ts';
import { columnIn, terms } from '../../terms.ts';

/**
 * What should still stand when the next supply comes is not planned away.
 *
 * `stock[i,w] + reserve_shortage[i] + reserve_at_end_shortage[i] >= reserveHeld` in each week in which the reserve is looked at
 * within the year, and what an emergency shelf still lacks on top (`heldWithinYear`); in the last week it stands on top of what that week hands over, `stock[i,last] + reserve_at_end_shortage[i] +
 * year_end_shortage[i] >= reserveHeld + yearEndUnits`, units.
 *
 * So the largest gap counts once and that of the year's end once more (`reserveAtEndTimes`): a reserve that a season's first weeks
 * cannot have yet leaves that of the year's end wanted in full, and nobody goes without now for the sake of both.
 *
 * What is bought has its reserve in the coming weeks besides, on a rung of their own (`coming-weeks.ts`): `stock[i,w] +
 * coming_reserve_shortage[i] >= reserveHeld` at the end of each, units, the largest gap counting once.
 */
export function reserve({ sets, parameters, columns, writer }: Draft): void {
  const lastWeek = sets.weekCount - 1;
  sets.items.forEach((item, at) => {
    for (const week of entry(parameters.reserveWeeks, at, 'reserveWeeks')) {
      const isLast = week === lastWeek;
      const stock = columnIn(columns.stock, at, week);
      const missing = reserveMissing(columns, at, isLast);
      if (stock === null || missing.length === 0) continue;
      const atYearEnd = isLast ? [entry(columns.yearEndShortage, at, 'yearEndShortage')] : [];
      writer.row(
        `reserve[${item.id},${sets.year.weeks[week]}]`,
        isLast ? reserveHeld(item) + item.yearEndUnits : heldWithinYear(item),
        terms([stock, ...missing, ...atYearEnd], 1),
        Number.POSITIVE_INFINITY,
      );
    }
    const missingSoon = columns.comingReserveShortage[at] ?? null;
    if (missingSoon === null) return;
    for (const week of comingReserveWeeks(sets, parameters, at))
      writer.row(
        `coming_reserve[${item.id},${sets.year.weeks[week]}]`,
        reserveHeld(item),
        terms([columnIn(columns.stock, at, week), missingSoon], 1),
        Number.POSITIVE_INFINITY,
      );
  });
}

/** Columns of what may be missing from the reserve of an item, in the last week or before it. */
export function reserveMissing(
  {
    reserveShortage,
    reserveAtEndShortage,
  }: Pick<Draft['columns'], 'reserveShortage' | 'reserveAtEndShortage'>,
  item: number,
  isLast: boolean,
): readonly number[] {
  const missing = isLast ? [reserveAtEndShortage[item]] : [reserveShortage[item], reserveAtEndShortage[item]];
  return missing.flatMap((column) => column ?? []);
}

/** A unit missing from the reserve that the year's end hands over counts so often: as the largest gap, and for itself. */
export const reserveAtEndTimes = 2;
