import { counted } from '../../shared/counting.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';

/** Items that stand in for each other: "60 half-pints of sweet spread, at least 4 kinds, none over 40 %". */
export interface GroupWish {
  readonly name: string;
  /** Units wanted of all members together, in the group's unit. */
  readonly totalUnits: number;
  readonly leastKinds: number;
  /** Largest share one member may have, 0..1. */
  readonly largestShare: number;
}

export interface GroupMember<Id> {
  readonly id: Id;
  /** What the member would be on its own, in the group's unit, 0 or more. */
  readonly target: number;
}

export interface GroupShare<Id> {
  readonly id: Id;
  readonly units: number;
  /** The share that holds this member: its liking alone, the largest share, or the least variety. */
  readonly heldBy: 'liking' | 'largest-share' | 'variety';
}

/** A kind that counts for variety has at least this part of an even share. */
const leastPartOfEvenShare = 0.25;
/** Targets below a hundredth of a unit say nothing about what is liked. */
const leastLiking = 0.01;

/**
 * How a group's total is shared among its members: in proportion to their own targets, none above the largest share, and at
 * least `leastKinds` of them with a quarter of an even share or more. The shares sum to `totalUnits`; order is that of `members`.
 *
 * Refused when the wishes contradict each other: fewer members than kinds, or too small a largest share for so few members.
 */
export function groupShares<Id>(
  wish: GroupWish,
  members: readonly GroupMember<Id>[],
): Outcome<readonly GroupShare<Id>[]> {
  if (members.length < wish.leastKinds) {
    return refused({
      code: 'too-few-kinds',
      path: ['leastKinds'],
      message: `"${wish.name}" has ${counted(members.length, 'kind')}, and ${wish.leastKinds} are asked for. Add an item to the group or ask for fewer kinds.`,
    });
  }
  if (wish.largestShare * members.length < 1 - 1e-9) {
    return refused({
      code: 'largest-share-too-small',
      path: ['largestShare'],
      message: `${counted(members.length, 'kind')} of "${wish.name}" at most ${Math.round(wish.largestShare * 100)}% each cannot reach the whole. Allow a larger share or add an item.`,
    });
  }
  const most = wish.largestShare * wish.totalUnits;
  const even = wish.totalUnits / members.length;
  const least = Math.min(most, leastPartOfEvenShare * even);
  const byLiking = [...members].sort((left, right) => right.target - left.target);
  const forVariety = new Set(byLiking.slice(0, wish.leastKinds).map((member) => member.id));
  const floorOf = (member: GroupMember<Id>): number => (forVariety.has(member.id) ? least : 0);

  const liked = members.map((member) => (member.target >= leastLiking ? member.target : 0));
  const anyLiking = liked.some((liking) => liking > 0);
  const weights = anyLiking ? liked : members.map(() => 1);
  const level = levelThatFills(wish.totalUnits, weights, members.map(floorOf), most);
  const shares = members.map((member, place) => {
    const wished = level * (weights[place] ?? 0);
    const units = Math.min(most, Math.max(floorOf(member), wished));
    const heldBy = wished > most ? 'largest-share' : wished < floorOf(member) ? 'variety' : 'liking';
    return { id: member.id, units, heldBy } as const;
  });
  return found(withRemainder(wish.totalUnits, most, shares));
}

/** The factor on the weights at which the bounded amounts fill the total; bisection, for the sum only grows with it. */
function levelThatFills(
  total: number,
  weights: readonly number[],
  floors: readonly number[],
  most: number,
): number {
  const filled = (level: number): number =>
    weights.reduce(
      (sum, weight, place) => sum + Math.min(most, Math.max(floors[place] ?? 0, level * weight)),
      0,
    );
  const smallest = Math.min(...weights.filter((weight) => weight > 0));
  let low = 0;
  let high = most / smallest;
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (filled(middle) < total) low = middle;
    else high = middle;
  }
  return high;
}

/** What members of weight 0 must take over because all others are at their largest share. */
function withRemainder<Id>(
  total: number,
  most: number,
  shares: readonly GroupShare<Id>[],
): readonly GroupShare<Id>[] {
  const missing = total - shares.reduce((sum, share) => sum + share.units, 0);
  if (missing <= 1e-9 * Math.max(1, total)) return shares;
  const room = shares.reduce((sum, share) => sum + (most - share.units), 0);
  return shares.map((share) => ({
    ...share,
    units: share.units + (missing * (most - share.units)) / room,
  }));
}
