import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type GroupMember, groupShares } from '../../src/consumption/group-target.ts';

const sweetSpreads = { name: 'Sweet spreads', totalUnits: 60, leastKinds: 4, largestShare: 0.4 };
const member = (id: string, target: number): GroupMember<string> => ({ id, target });
const shares = (wish: typeof sweetSpreads, members: readonly GroupMember<string>[]) => {
  const outcome = groupShares(wish, members);
  if (!outcome.ok) throw new Error(outcome.problems[0]?.message);
  return outcome.value;
};

describe('sixty half-pints of sweet spreads, at least four kinds, none over 40 %', () => {
  it('follow what is liked while the wishes allow', () => {
    const liked = [member('plum', 20), member('pear', 15), member('quince', 15), member('rose', 10)];
    expect(shares(sweetSpreads, liked).map((share) => share.units)).toEqual(
      [20, 15, 15, 10].map((units) => expect.closeTo(units, 6)),
    );
  });

  it('hold back the favourite and keep four kinds', () => {
    const liked = [member('plum', 50), member('pear', 6), member('quince', 4), member('rose', 0)];
    const found = shares(sweetSpreads, liked);
    expect(found[0]).toMatchObject({ units: expect.closeTo(24, 6), heldBy: 'largest-share' });
    expect(found[3]?.units).toBeGreaterThan(0);
    expect(found[3]?.heldBy).toBe('variety');
  });

  it('always sum to the total, within the largest share, with enough kinds', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 80, noNaN: true }), { minLength: 4, maxLength: 9 }),
        (targets) => {
          const found = shares(
            sweetSpreads,
            targets.map((target, at) => member(`item-${at}`, target)),
          );
          expect(found.reduce((sum, share) => sum + share.units, 0)).toBeCloseTo(60, 6);
          expect(Math.max(...found.map((share) => share.units))).toBeLessThanOrEqual(24 + 1e-6);
          expect(found.filter((share) => share.units > 0).length).toBeGreaterThanOrEqual(4);
        },
      ),
      { numRuns: 200, seed: 31 },
    );
  });

  it('are refused when they cannot all be had', () => {
    const three = ['plum', 'pear', 'quince'].map((id) => member(id, 10));
    const tooFew = groupShares(sweetSpreads, three);
    expect(tooFew.ok ? '' : tooFew.problems[0]?.message).toBe(
      '"Sweet spreads" has 3 kinds, and 4 are asked for. Add an item to the group or ask for fewer kinds.',
    );
    const tooTight = groupShares({ ...sweetSpreads, leastKinds: 2, largestShare: 0.3 }, three);
    expect(tooTight.ok ? '' : tooTight.problems[0]?.code).toBe('largest-share-too-small');
  });
});
