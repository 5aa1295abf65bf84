/** One canner load of a day: the recipe's id, the pot and the load of that pot, both counted from 1. */
export interface LoadPlace {
  readonly recipe: string;
  readonly pot: number;
  readonly load: number;
}

/** Text key of a load, the same as long as recipe, pot and load are: `peach-halves.2.1`. Ticks and clocks hang on it. */
export const loadKeyOf = ({ recipe, pot, load }: LoadPlace): string => `${recipe}.${pot}.${load}`;

/** The place a key names, or null for a text that is no key. */
export const loadPlaceOf = (key: string): LoadPlace | null => {
  const parts = /^(.+)\.(\d+)\.(\d+)$/.exec(key);
  return parts === null
    ? null
    : { recipe: parts[1] ?? '', pot: Number(parts[2] ?? 0), load: Number(parts[3] ?? 0) };
};

/**
 * How many batches of a recipe are begun on a day, and so stay on it: up to the last pot of which a load was ticked or
 * timed, and at least as many as were written down. A batch is a pot.
 *
 * Example: with a tick in `peach-halves.2.1` and nothing written down, two batches are begun.
 */
export const batchesBegun = (recipe: string, touched: Iterable<string>, writtenDown: number): number => {
  let begun = writtenDown;
  for (const key of touched) {
    const place = loadPlaceOf(key);
    if (place?.recipe === recipe) begun = Math.max(begun, place.pot);
  }
  return begun;
};
