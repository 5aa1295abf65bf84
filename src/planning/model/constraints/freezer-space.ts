import { entry, orNone } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import { termIn, terms } from '../terms.ts';

/**
 * What is frozen fits the freezer, and no more is frozen than it can take in.
 *
 * `sum(quarts × frozen[m,w]) + sum(quarts × stock[i,w]) <= freezer quarts + freezer_over[w]`; the priced excess exists
 * only where items of the shelf live in the freezer too, since those cannot be wished away.
 * `sum(quarts × frozen in w) <= 7 × quarts a day`, quarts.
 */
export function freezerSpace({ sets, columns, writer }: Draft): void {
  const { storage } = sets.year;
  const quarts = sets.rawMaterials.map(({ freezer }) => orNone(freezer?.quartsPerUnit));
  sets.weekIndexes.forEach((week) => {
    const key = sets.year.weeks[week];
    const held = [
      ...quarts.flatMap((perUnit, at) => termIn(columns.frozen, at, week, perUnit)),
      ...sets.items.flatMap(({ freezerQuartsPerUnit }, at) =>
        termIn(columns.stock, at, week, orNone(freezerQuartsPerUnit)),
      ),
      ...terms([entry(columns.freezerOver, week, 'freezerOver')], -1),
    ];
    writer.row(`freezer_space[${key}]`, Number.NEGATIVE_INFINITY, held, storage.freezerQuarts);
    writer.row(
      `freezer_intake[${key}]`,
      Number.NEGATIVE_INFINITY,
      quarts.flatMap((perUnit, at) => termIn(columns.frozenIn, at, week, perUnit)),
      7 * storage.freezerQuartsPerDay,
    );
  });
}
