import { describe, expect, test } from 'vitest';
import { groupWishProblem } from '../../src/consumption/group-wish.ts';

const spreads = { name: 'Sweet spreads', leastKinds: 4, largestShare: 0.4 };
const problem = (change: Partial<typeof spreads>, kinds: number) =>
  groupWishProblem({ ...spreads, ...change }, kinds);

describe('sweet spreads, at least four kinds, none over 40 %', () => {
  test('can be had of four kinds and more', () => {
    expect(problem({}, 4)).toBeNull();
    expect(problem({}, 9)).toBeNull();
  });

  test('cannot be had of three', () => {
    expect(problem({}, 3)).toEqual({
      code: 'too-few-kinds',
      path: ['leastKinds'],
      message:
        '"Sweet spreads" has 3 kinds, and 4 are asked for. Add an item to the group or ask for fewer kinds.',
    });
  });

  test('cannot be had where all at their largest share do not reach the whole', () => {
    expect(problem({ leastKinds: 2, largestShare: 1 / 3 }, 3)).toBeNull();
    expect(problem({ leastKinds: 2, largestShare: 0.334 }, 3)).toBeNull();
    expect(problem({ leastKinds: 2, largestShare: 0.333 }, 3)).toEqual({
      code: 'largest-share-too-small',
      path: ['largestShare'],
      message:
        '3 kinds of "Sweet spreads" at most 33% each cannot reach the whole. Allow a larger share or add an item.',
    });
  });
});
