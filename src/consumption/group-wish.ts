import { counted } from '../../shared/counting.ts';
import type { Problem } from '../../shared/problems.ts';

/** Items that stand in for each other: "60 half-pints of sweet spread, at least 4 kinds, none over 40 %". */
export interface GroupWish {
  readonly name: string;
  readonly leastKinds: number;
  /** Largest share one member may have, 0..1. */
  readonly largestShare: number;
}

/**
 * Why a group of so many kinds cannot be as it is wished for: fewer kinds than are asked for, or a largest share with which they
 * do not reach the whole; null where it can. What each kind gets is the plan's to say.
 */
export function groupWishProblem(
  { name, leastKinds, largestShare }: GroupWish,
  kinds: number,
): Problem | null {
  if (kinds < leastKinds)
    return {
      code: 'too-few-kinds',
      path: ['leastKinds'],
      message: `"${name}" has ${counted(kinds, 'kind')}, and ${leastKinds} are asked for. Add an item to the group or ask for fewer kinds.`,
    };
  if (largestShare * kinds < 1 - 1e-9)
    return {
      code: 'largest-share-too-small',
      path: ['largestShare'],
      message: `${counted(kinds, 'kind')} of "${name}" at most ${Math.round(largestShare * 100)}% each cannot reach the whole. Allow a larger share or add an item.`,
    };
  return null;
}
