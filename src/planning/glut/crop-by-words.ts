import type { CropKey } from '../../../shared/ids.ts';

export interface NamedCrop {
  readonly crop: CropKey;
  /** Its published name, `Plums`. */
  readonly name: string;
}

/**
 * Crops a person may mean: the one whose key or name is the same in singular or plural (`plums`, `Plum`), otherwise all
 * whose words include every word typed (`cucumbers` for `Cucumbers, pickling`). Empty when none fits.
 */
export function cropsByWords(known: readonly NamedCrop[], typed: string): readonly NamedCrop[] {
  const wanted = singularWords(typed);
  if (wanted.length === 0) return [];
  const same = known.filter(({ crop, name }) =>
    [crop, name].some((words) => singularWords(words).join(' ') === wanted.join(' ')),
  );
  if (same.length > 0) return same.slice(0, 1);
  return known.filter(({ crop, name }) => {
    const words = new Set([...singularWords(crop), ...singularWords(name)]);
    return wanted.every((word) => words.has(word));
  });
}

const singularWords = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '')
    .map(singular);

function singular(word: string): string {
  if (word.length > 4 && word.endsWith('ies')) return `${word.slice(0, -3)}y`;
  if (/(o|ch|sh|x|ss)es$/.test(word)) return word.slice(0, -2);
  return /[^s]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word;
}
