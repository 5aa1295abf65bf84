import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { objectiveOf } from '../model/model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import {
  boundsOfPart,
  type PartOfModel,
  partOfModel,
  rowsByColumn,
  withPart,
} from '../solving/part-of-model.ts';
import {
  goingOnFrom,
  type Solve,
  type SolveAnswer,
  type SolvedAnswer,
  type SolveRequest,
  type UnsolvedAnswer,
} from '../solving/solving.ts';
import { missedOn, wishRungs } from '../solving/wish-rungs.ts';
import { type PackRounding, roundedPacks } from './round-packs.ts';
import { sharedColumns, storesOfItems } from './stores.ts';
import { wholeTotals } from './whole-totals.ts';

/** Weeks from one on, up to another that is none of them. */
export interface WeekBlock {
  readonly first: number;
  readonly end: number;
}

/** One search's request: what a linear year does not need. */
export type SearchRequest = Pick<SolveRequest, 'gap' | 'nodeLimit' | 'secondsLimit'>;

/** A year whose packs of what is eaten are bought block by block: what is bought so far, and what may be asked of the rest. */
export interface PackYear {
  /** Columns that are open, of the whole model's. */
  readonly size: number;
  /** The rest of the year in any amount. */
  inAnyAmount(): Promise<SolveAnswer>;
  /** A block rounded as a year in any amount buys it, the rest after it in any amount. */
  rounded(block: WeekBlock, year: SolvedAnswer, rounding: PackRounding): Promise<SolveAnswer>;
  /** A block in whole packs, some weeks after it too, the rest in any amount. */
  searched(block: WeekBlock, request: SearchRequest, begun: SolvedAnswer | undefined): Promise<SolveAnswer>;
  /** Packs of a block as an answer buys them: they stay. */
  buy(block: WeekBlock, answer: SolvedAnswer): void;
  /** Whole packs in all of each kind, from here on, where they are found (`wholeTotals`); an answer only where it is called off. */
  holdTotals(): Promise<UnsolvedAnswer | null>;
  /** Lets go of the totals, where there are any. */
  letTotalsGo(): boolean;
  /** What an answer misses in the coming weeks, units. */
  missedSoon(answer: SolvedAnswer): number;
  /** An answer as one to the whole model. */
  whole(answer: SolvedAnswer): SolvedAnswer;
}

/** Weeks after a block that its search looks at in whole packs too. */
const weeksAhead = 2;
/** Of one year in any amount, solver seconds: a safety net, it takes a twentieth of a second. */
const relaxedSeconds = 8;

/** Opens a year whose packs stand as `start` buys them, within bounds that replace the model's own. */
export function openPackYear(
  built: BuiltModel,
  start: SolvedAnswer,
  solve: Solve,
  { bounds, ...called }: Pick<SolveRequest, 'signal'> & { readonly bounds: ColumnBoundsByIndex },
): PackYear {
  const { model } = built;
  const open = [...storesOfItems(built).flatMap(({ columns }) => columns), ...sharedColumns(built)];
  const free = partOfModel(model, start.values, open, rowsByColumn(model));
  const packs = packsEaten(built, free);
  const weekOf = new Map(packs.flatMap((weeks) => weeks.map(({ at, week }) => [at, week] as const)));
  const bought = new Map(boundsOfPart(bounds, free));
  const coming = wishRungs(built).find(({ name }) => name === 'coming weeks');
  let part: PartOfModel = free;
  let from: Pick<SolveRequest, 'basis'> = {};

  const valuesOf = ({ values }: SolvedAnswer) => withPart(start.values, free, values);

  // One year differs from the next in a few bounds, so each goes on from where the last one ended.
  async function relaxed(fixed: ColumnBoundsByIndex): Promise<SolveAnswer> {
    const answer = await solve(part.model, {
      ...called,
      gap: 0,
      relaxed: true,
      secondsLimit: relaxedSeconds,
      bounds: new Map([...bought, ...fixed]),
      ...from,
    });
    if (answer.status === 'solved') from = goingOnFrom(answer);
    return answer;
  }

  function become(other: PartOfModel): void {
    part = other;
    from = {};
  }

  return {
    size: open.length,
    inAnyAmount: () => relaxed(new Map()),
    rounded(block, year, rounding) {
      const packs = boundsOfPart(roundedPacks(built, valuesOf(year), rounding), free);
      return relaxed(new Map([...packs].filter(([at]) => isWithin(weekOf.get(at), block))));
    },
    searched({ end }, request, begun) {
      const later = { first: end + weeksAhead, end: Number.POSITIVE_INFINITY };
      const columns = part.model.columns.map((column, at) =>
        isWithin(weekOf.get(at), later) ? { ...column, integer: false } : column,
      );
      return solve(
        { ...part.model, columns },
        {
          ...called,
          ...request,
          isSmall: true,
          bounds: bought,
          ...(begun === undefined ? {} : { start: begun.values }),
        },
      );
    },
    buy(block, { values }) {
      for (const [at, week] of weekOf) {
        const count = Math.round(entry(values, at, 'values'));
        if (isWithin(week, block)) bought.set(at, [count, count]);
      }
    },
    async holdTotals() {
      const columns = packs.map((weeks) => weeks.map(({ at }) => at));
      const totals = await wholeTotals(free, columns, bought, solve, called);
      if (totals !== null && 'status' in totals) return totals;
      if (totals !== null)
        become({ ...free, model: { ...free.model, rows: [...free.model.rows, ...totals] } });
      return null;
    },
    letTotalsGo() {
      if (part === free) return false;
      become(free);
      return true;
    },
    missedSoon: (answer) => (coming === undefined ? 0 : missedOn(coming, valuesOf(answer))),
    whole(answer) {
      const values = valuesOf(answer);
      return { ...answer, values, objective: objectiveOf(model, values) };
    },
  };
}

/** No week is within any. */
const isWithin = (week = Number.NaN, { first, end }: WeekBlock) => week >= first && week < end;

/** By pack of something eaten: the columns of a part that count it, with their weeks. */
function packsEaten(
  { columns }: BuiltModel,
  part: PartOfModel,
): readonly (readonly { readonly at: number; readonly week: number }[])[] {
  const placeOf = new Map(part.columns.map((column, at) => [column, at]));
  return columns.purchases
    .flat()
    .map((weeks) =>
      weeks.flatMap((column, week) => {
        const at = column === null ? undefined : placeOf.get(column);
        return at === undefined ? [] : [{ at, week }];
      }),
    )
    .filter((weeks) => weeks.length > 0);
}
