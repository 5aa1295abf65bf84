/**
 * How the planner reads its own lists and maps. What has to be there and is not is a mistake of ours: it is said, with
 * what was looked up and where, instead of being counted as nought. Where absence does mean nought, the name says so.
 */

/** An entry that has to be there. Throws with what the list holds (`name`) and the position it missed. */
export function entry<T>(list: ArrayLike<T>, at: number, name: string): T {
  const value = list[at];
  if (value === undefined) throw new RangeError(`${name}: expected an entry at ${at}, found ${list.length}`);
  return value;
}

/** An entry of a table that has to be there, by row and column. Throws with what the table holds and what it missed. */
export function cell<T>(table: ArrayLike<ArrayLike<T>>, row: number, column: number, name: string): T {
  return entry(entry(table, row, name), column, name);
}

/** What a map holds for a key it has to know. Throws with what the map holds and the key it missed. */
export function found<K, V>(map: ReadonlyMap<K, V>, key: K, name: string): V {
  const value = map.get(key);
  if (value === undefined)
    throw new RangeError(`${name}: expected ${String(key)} among ${map.size}, found none`);
  return value;
}

/** An amount that may not be there: none of it then (no set-up, no stages, nothing on hand). */
export function orNone(amount: number | null | undefined): number {
  return amount ?? 0;
}

/** An amount by week: none before the first and after the last, since nothing is planned outside the year. */
export function noneBeyond(byWeek: ArrayLike<number>, week: number): number {
  return week < 0 || week >= byWeek.length ? 0 : entry(byWeek, week, 'by week');
}
