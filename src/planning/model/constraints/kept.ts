import type { BatchDecision } from '../../../household/decision.ts';
import type { Draft } from '../draft.ts';
import { termIn } from '../terms.ts';

/** A pinned batch and the column that counts how many of it could not be kept. */
export interface PinnedBatches {
  readonly kept: BatchDecision & { readonly decision: 'pinned' };
  readonly missing: number;
}

/**
 * Pinned stays in, ruled out stays out, done is a fact.
 *
 * `sum over jar sizes of batches[r,w] + pin_missing[r,w] >= pinned batches`; a pin that hard facts forbid carries a price
 * instead of making the year impossible. Ruled-out weeks have no column; done batches are constants of the hours.
 */
export function kept({ sets, columns, writer }: Draft): PinnedBatches[] {
  return sets.year.kept.flatMap((decision): PinnedBatches[] => {
    const week = sets.weekIndex.get(decision.week);
    if (decision.decision !== 'pinned' || week === undefined) return [];
    const label = `${decision.recipeId},${decision.week}`;
    const missing = writer.column(`pin_missing[${label}]`, { lower: 0, upper: decision.batches });
    const batches = (sets.recipesById.get(decision.recipeId) ?? []).flatMap((recipe) =>
      termIn(columns.batches, recipe, week, 1),
    );
    writer.row(`kept[${label}]`, decision.batches, [[missing, 1], ...batches], Number.POSITIVE_INFINITY);
    return [{ kept: decision, missing }];
  });
}
