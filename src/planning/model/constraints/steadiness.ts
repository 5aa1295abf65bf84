import { found } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import { termIn } from '../terms.ts';

/**
 * Near weeks stay as they were planned unless a change is worth more than a named amount.
 *
 * `changed[r,w] >= |batches over jar sizes - batches planned before|` for the first weeks, batches.
 */
export function steadiness({ sets, columns, writer }: Draft): void {
  for (const change of columns.changes) {
    const batches = found(sets.recipesById, change.recipeId, 'recipesById').flatMap((recipe) =>
      termIn(columns.batches, recipe, change.week, 1),
    );
    const key = `${change.recipeId},${sets.year.weeks[change.week]}`;
    writer.row(
      `steadiness_more[${key}]`,
      Number.NEGATIVE_INFINITY,
      [...batches, [change.column, -1]],
      change.plannedBefore,
    );
    writer.row(
      `steadiness_fewer[${key}]`,
      change.plannedBefore,
      [...batches, [change.column, 1]],
      Number.POSITIVE_INFINITY,
    );
  }
}
