import { entry, orNone } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import { terms } from '../../terms.ts';

/**
 * What the family will not go without is served before lighter wishes.
 *
 * `sum over weeks of shortage[i,w] - family_shortage[i] <= year's use - familyMinimumUnits`, units; a minimum above what
 * the year could still serve is held to that.
 */
export function familyMinimum({ sets, parameters, columns, writer }: Draft): void {
  sets.items.forEach((item, at) => {
    const short = entry(columns.familyShortage, at, 'familyShortage');
    if (short === null) return;
    const use = entry(parameters.useByWeek, at, 'useByWeek').reduce((sum, units) => sum + units, 0);
    writer.row(
      `family_minimum[${item.id}]`,
      Number.NEGATIVE_INFINITY,
      [...terms(entry(columns.shortage, at, 'shortage'), 1), [short, -1]],
      Math.max(0, use - orNone(item.familyMinimumUnits)),
    );
  });
}
