import { cell, entry } from '../../../lookup.ts';
import type { Draft } from '../../draft.ts';
import { firstJarBands } from '../../first-jars.ts';
import { terms } from '../../terms.ts';

/**
 * Every food has its first jars before any has its last: what is missing of the first half of a food's year is counted, and
 * what is missing of its first quarter counts more.
 *
 * `sum over weeks of shortage[i,w] + year_end_shortage[i] - first_jars[i,band] <= (1 - share of the band) × wanted[i]`,
 * units: as long as the share is there, nothing of the band is missing.
 */
export function firstJars({ sets, parameters, columns, writer }: Draft): void {
  sets.items.forEach(({ id }, at) => {
    const food = entry(parameters.firstJars, at, 'firstJars');
    if (food === null) return;
    const missing = terms(
      [...entry(columns.shortage, at, 'shortage'), entry(columns.yearEndShortage, at, 'yearEndShortage')],
      1,
    );
    firstJarBands.forEach(({ name, untilShare }, band) => {
      const short = cell(columns.firstJarsMissing, at, band, 'firstJarsMissing');
      if (short === null) return;
      writer.row(
        `first_jars[${id},${name}]`,
        Number.NEGATIVE_INFINITY,
        [...missing, [short, -1]],
        (1 - untilShare) * food.wantedUnits,
      );
    });
  });
}
