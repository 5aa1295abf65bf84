import { orNone } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';

/**
 * What is frozen fits the freezer, and no more is frozen than it can take in.
 *
 * `sum(quarts × frozen[m,w]) + sum(quarts × stock[i,w]) <= freezer quarts + freezer_over[w]`; the priced excess exists
 * only where items of the shelf live in the freezer too, since those cannot be wished away.
 * `sum(quarts × frozen in w) <= 7 × quarts a day`, quarts.
 */
export function freezerSpace({ sets, columns, writer }: Draft): void {
  const { storage } = sets.year;
  sets.weekIndexes.forEach((week) => {
    const key = sets.year.weeks[week];
    const held: Entry[] = [];
    const takenIn: Entry[] = [];
    sets.rawMaterials.forEach((rawMaterial, at) => {
      const quarts = orNone(rawMaterial.freezer?.quartsPerUnit);
      const frozen = columns.frozen[at]?.[week];
      const frozenIn = columns.frozenIn[at]?.[week];
      if (frozen != null) held.push([frozen, quarts]);
      if (frozenIn != null) takenIn.push([frozenIn, quarts]);
    });
    sets.items.forEach((item, at) => {
      const stock = columns.stock[at]?.[week];
      if (stock != null && item.freezerQuartsPerUnit !== undefined)
        held.push([stock, item.freezerQuartsPerUnit]);
    });
    const over = columns.freezerOver[week];
    if (over != null) held.push([over, -1]);
    if (held.length > 0)
      writer.row(`freezer_space[${key}]`, Number.NEGATIVE_INFINITY, held, storage.freezerQuarts);
    if (takenIn.length > 0)
      writer.row(
        `freezer_intake[${key}]`,
        Number.NEGATIVE_INFINITY,
        takenIn,
        7 * storage.freezerQuartsPerDay,
      );
  });
}
