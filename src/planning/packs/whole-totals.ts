import { entry } from '../lookup.ts';
import type { Entry, Row } from '../model/model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import type { PartOfModel } from '../solving/part-of-model.ts';
import type { Solve, SolveRequest, UnsolvedAnswer } from '../solving/solving.ts';

/** The totals are near enough to the best at this gap; their search ends at it, or after so many nodes or solver seconds. */
const gapOfTotals = 0.003;
const nodesOfTotals = 200;
const secondsOfTotals = 2;

/**
 * How many packs of each kind a year buys in all, whole, while each week still buys any amount: rows that hold every list of columns to
 * its total. Bought in any amount to the end, what is wanted of a dear pack is put off to the last weeks in parts, and no money is left
 * there for whole ones. Null where none are found; called off, it answers that.
 */
export async function wholeTotals(
  { model }: Pick<PartOfModel, 'model'>,
  packs: readonly (readonly number[])[],
  bounds: ColumnBoundsByIndex,
  solve: Solve,
  called: Pick<SolveRequest, 'signal'>,
): Promise<readonly Row[] | UnsolvedAnswer | null> {
  const totalAt = (at: number) => model.columns.length + at;
  const answer = await solve(
    {
      ...model,
      columns: [
        ...model.columns.map((column) => ({ ...column, integer: false })),
        ...packs.map((_, at) => ({ name: nameOf(at), lower: 0, upper: mostPacks, integer: true, cost: 0 })),
      ],
      rows: [...model.rows, ...packs.map((columns, at) => heldTo(columns, at, [[totalAt(at), -1]], 0))],
    },
    {
      ...called,
      gap: gapOfTotals,
      nodeLimit: nodesOfTotals,
      secondsLimit: secondsOfTotals,
      isSmall: true,
      bounds,
    },
  );
  if (answer.status === 'cancelled') return answer;
  if (answer.status !== 'solved') return null;
  return packs.map((columns, at) =>
    heldTo(columns, at, [], Math.round(entry(answer.values, totalAt(at), 'values'))),
  );
}

/** More than anybody buys of one pack in a year. */
const mostPacks = 10_000;
const nameOf = (at: number): string => `pack_total[${at}]`;

const heldTo = (columns: readonly number[], at: number, others: readonly Entry[], total: number): Row => ({
  name: nameOf(at),
  lower: total,
  upper: total,
  entries: [...columns.map((column): Entry => [column, 1]), ...others],
});
