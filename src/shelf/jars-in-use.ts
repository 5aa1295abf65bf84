import type { JarSize } from '../../shared/jar.ts';

/** Units of one item that fill jars of one size, from the week they are filled until they are eaten. */
export interface FilledJars {
  readonly size: JarSize;
  readonly units: number;
  /** Units of the item in one such jar. */
  readonly unitsPerJar: number;
  /** Week, counted from 0, in which the jars are filled; below 0 for what stands already. */
  readonly filledWeek: number;
  /** Week from which they may be eaten. */
  readonly readyWeek: number;
  /** Lower is eaten first. */
  readonly eatenBefore: number;
}

export interface JarsOfItem {
  readonly filled: readonly FilledJars[];
  /** Units eaten in each week. */
  readonly takenByWeek: readonly number[];
}

/**
 * Jars that hold something at the end of each week, by size: filled, minus those eaten empty, first-expired first among
 * what is ready. A jar that is begun is in use until its last unit is gone. Weeks run from 0 to `weekCount` - 1; sizes that
 * are never in use are left out.
 *
 * Example: 4 pints of 1 unit each and 1.5 units eaten in week 0 leave 3 jars in use: two full and one begun.
 */
export function jarsInUse(
  items: readonly JarsOfItem[],
  weekCount: number,
): ReadonlyMap<JarSize, readonly number[]> {
  const bySize = new Map<JarSize, number[]>();
  for (const { filled, takenByWeek } of items) {
    const order = [...filled].sort((one, other) => one.eatenBefore - other.eatenBefore);
    const left = order.map(({ units }) => units);
    for (let week = 0; week < weekCount; week += 1) {
      let toTake = takenByWeek[week] ?? 0;
      order.forEach((jars, at) => {
        if (jars.readyWeek > week) return;
        const taken = Math.min(left[at] ?? 0, toTake);
        left[at] = (left[at] ?? 0) - taken;
        toTake -= taken;
      });
      order.forEach(({ size, unitsPerJar, filledWeek }, at) => {
        const jars = filledWeek > week ? 0 : Math.ceil((left[at] ?? 0) / unitsPerJar - 1e-6);
        if (jars <= 0) return;
        const own = bySize.get(size) ?? Array.from({ length: weekCount }, () => 0);
        own[week] = (own[week] ?? 0) + jars;
        bySize.set(size, own);
      });
    }
  }
  return bySize;
}
