import { countWithSpread } from '../../consumption/count-distribution.ts';

/** How an opened jar is eaten. */
export interface Sittings {
  /** Sittings a week at which some of it is eaten. */
  readonly perWeek: number;
  /** Variance of a week's sittings divided by their mean: 1 is chance alone. */
  readonly spread: number;
  /** Servings eaten at one sitting, by all together. */
  readonly servings: number;
}

/**
 * Expected share of an opened jar that is thrown away, 0..1.
 *
 * The jar holds `V` servings and is opened at a sitting of `s`; further sittings `N` fall within its keep-cold days with the given
 * mean and spread; what is left then goes. Share = `E[max(0, V - s·(1 + N))] / V`, summed exactly. Every jar holds `V`, so this is
 * also the long-run share of the food. Without a limit nothing is thrown away; with no further sittings all but the first is.
 *
 * Example: 16 servings, 4 sittings a week of 1, 21 days: 12 further sittings are expected, and 21.3 % is thrown away.
 */
export function openedJarWaste(
  servingsInJar: number,
  sittings: Sittings,
  keepColdDays: number | null,
): number {
  if (!(servingsInJar > 0 && sittings.servings > 0)) {
    throw new RangeError(
      `openedJarWaste: expected servings above 0, got ${servingsInJar} in the jar and ${sittings.servings} a sitting`,
    );
  }
  if (keepColdDays === null) return 0;
  const further = countWithSpread((sittings.perWeek * keepColdDays) / 7, sittings.spread);
  let left = 0;
  let before = 0;
  for (let count = 0; sittings.servings * (1 + count) < servingsInJar; count += 1) {
    const upTo = further.atMost(count);
    left += (upTo - before) * (servingsInJar - sittings.servings * (1 + count));
    before = upTo;
  }
  return left / servingsInJar;
}
