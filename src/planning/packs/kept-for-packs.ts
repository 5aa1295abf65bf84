import { entry, orNone } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { purchasePrices } from '../model/purchase-prices.ts';
import type { Plan } from '../plan.ts';
import { type RungName, rungNames, rungTolerance, type ServedRung } from '../solving/rungs.ts';
import { centTolerance, lackingSoon, overdrawnSoon } from './overdraft.ts';

/** A stage with what it decided. */
export interface DecidedStage {
  readonly built: BuiltModel;
  readonly values: ArrayLike<number>;
  readonly rungs: readonly ServedRung[];
}

/** Wishes that no canning is worth going without. */
const beforeCanning: readonly RungName[] = rungNames.slice(0, rungNames.indexOf('first jars'));

/**
 * Cents by week that what canning needs costs in whole packs, over what it costs in any amount, from the first week up to each: what has
 * to be left in the fund for it. Null where whole packs overdraw nothing in the coming weeks and miss no more of the wishes heavier than any
 * jar than any amount does, so that the fund reaches for both.
 */
export function keptForPacks(inAnyAmount: DecidedStage, inPacks: DecidedStage): readonly number[] | null {
  const reaches = overdrawnSoon(inPacks.built, inPacks.values) <= centTolerance;
  if (reaches && !missesMore(inPacks.rungs, inAnyAmount.rungs)) return null;
  let over = 0;
  return inPacks.built.sets.weekIndexes.map((week) => {
    over += canningSpend(inPacks, week) - canningSpend(inAnyAmount, week);
    return Math.max(0, over);
  });
}

/** Whether a plan can be paid for in the coming weeks where another cannot, or, where they are alike, misses less before any jar. */
export function servesBetter(
  one: Pick<Plan, 'weeks' | 'rungs'>,
  other: Pick<Plan, 'weeks' | 'rungs'>,
): boolean {
  const lacking = lackingSoon(one.weeks) - lackingSoon(other.weeks);
  return Math.abs(lacking) > centTolerance ? lacking < 0 : missesMore(other.rungs, one.rungs);
}

/** Whether a plan misses more than another of a wish heavier than any jar, and no less of one heavier still. */
export function missesMore(one: readonly ServedRung[], other: readonly ServedRung[]): boolean {
  const missedOf = (rungs: readonly ServedRung[], name: RungName) =>
    orNone(rungs.find((rung) => rung.name === name)?.missed);
  const differing = beforeCanning.find(
    (name) => Math.abs(missedOf(one, name) - missedOf(other, name)) > rungTolerance,
  );
  return differing !== undefined && missedOf(one, differing) > missedOf(other, differing);
}

const canningSpend = ({ built, values }: DecidedStage, week: number): number =>
  purchasePrices(built, week)
    .filter(({ term }) => term !== 'groceries')
    .reduce((sum, { column, cents }) => sum + cents * entry(values, column, 'values'), 0);
