import type { Draft } from '../../draft.ts';
import type { Entry } from '../../model.ts';

/**
 * What the family will not go without is served before lighter wishes.
 *
 * `sum over weeks of shortage[i,w] - family_shortage[i] <= year's use - familyMinimumUnits`, units; a minimum above what
 * the year could still serve is held to that.
 */
export function familyMinimum({ sets, parameters, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    const short = columns.familyShortage[at];
    if (short == null || item.familyMinimumUnits === null) return;
    const use = (parameters.useByWeek[at] ?? []).reduce((sum, units) => sum + units, 0);
    const shortages = (columns.shortage[at] ?? []).flatMap((column): Entry[] =>
      column === null ? [] : [[column, 1]],
    );
    writer.row(
      `family_minimum[${item.id}]`,
      Number.NEGATIVE_INFINITY,
      [...shortages, [short, -1]],
      Math.max(0, use - item.familyMinimumUnits),
    );
  });
}
