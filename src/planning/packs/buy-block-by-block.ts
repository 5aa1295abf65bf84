import type { BuiltModel } from '../model/build-model.ts';
import type { ColumnBoundsByIndex } from '../solving/held-batches.ts';
import { rungTolerance } from '../solving/rungs.ts';
import type { Solve, SolvedAnswer, UnsolvedAnswer } from '../solving/solving.ts';
import { openPackYear, type PackYear, type WeekBlock } from './pack-year.ts';
import type { PackRounding } from './round-packs.ts';

export interface BlocksRequest {
  /** Bounds that replace the model's own: what a week may overdraw. */
  readonly bounds: ColumnBoundsByIndex;
  /** Safety net of all blocks together, solver seconds. */
  readonly secondsLimit: number;
  /** Weeks that are searched block by block; those beyond are only rounded, all at once. All are searched, when left out. */
  readonly searchedWeeks?: number;
  /** Safety net of one block's search, solver seconds; by the model's columns, unless said. */
  readonly blockSeconds?: number;
  readonly signal?: AbortSignal;
}

/** Weeks whose packs are fixed together. */
const blockWeeks = 4;
/** Ways in which a block is rounded: as any amount buys, as late as may be, and as late as it is paid for. */
const blockRoundings = ['steady', 'late', 'behind'] as const satisfies readonly PackRounding[];
/** Last weeks of the year whose packs are whole in their sum before they are whole week by week. */
const weeksInTotal = 16;
/** A rounding that makes the year no dearer than this needs no search; one block's search ends at it, or after so many nodes. */
const gapOfBlock = 0.005;
/** A rounding that makes the year no dearer than this is as good as any. */
const gapOfRounding = 0.0005;
const nodesOfBlock = 100;
/**
 * Solver seconds of searches, by the columns that are open: of a block whose roundings miss more of the coming weeks than any amount
 * does, since no planning again mends those; of another; of all others together, after which blocks are only rounded.
 */
const comingSecondsOf = (columns: number): number => 0.5 + columns / 1000;
const blockSecondsOf = (columns: number): number => 0.4 + columns / 4000;
const searchSecondsOf = (columns: number): number => 0.5 + columns / 1600;
/**
 * Whole packs for money that is short: what is eaten is bought some weeks at a time, with the weeks before as bought and the
 * weeks to come in any amount, so that each block knows what the rest of the year still has to pay. A block is rounded, and
 * searched, from the best rounding, only where every rounding takes from the year. The last weeks are first made whole in their sum
 * (`wholeTotals`). What canning needs stays as `start` buys it: it cannot be missed, so no block may spend its money. Where only the next
 * weeks are acted upon before all is planned again, `searchedWeeks` leaves those beyond as they are rounded. Relax and fix: Y. Pochet,
 * L. A. Wolsey, Production Planning by Mixed Integer Programming, 2006, from memory.
 */
export async function buyBlockByBlock(
  built: BuiltModel,
  start: SolvedAnswer,
  solve: Solve,
  { bounds, secondsLimit, searchedWeeks = Number.POSITIVE_INFINITY, blockSeconds, ...called }: BlocksRequest,
): Promise<SolvedAnswer | UnsolvedAnswer> {
  const { weekCount } = built.sets;
  const packs = openPackYear(built, start, solve, { bounds, ...called });
  const begun = await packs.inAnyAmount();
  if (begun.status !== 'solved') return begun;
  let year = begun;
  let seconds = begun.seconds;
  let searchSeconds = searchSecondsOf(packs.size);
  let wantsTotals = true;
  let block: WeekBlock = { first: 0, end: 0 };
  for (let first = 0; first < weekCount; first = block.end) {
    if (seconds >= secondsLimit) return { status: 'time limit without plan', detail: `weeks from ${first}` };
    const isNear = first < searchedWeeks;
    block = { first, end: isNear ? first + blockWeeks : weekCount };
    if (wantsTotals && isNear && first > 0 && first + weeksInTotal >= weekCount) {
      wantsTotals = false;
      const calledOff = await packs.holdTotals();
      if (calledOff !== null) return calledOff;
    }
    const rounded = await roundedWays(packs, block, year);
    if ('status' in rounded) return rounded;
    let best = cheapest(rounded);
    seconds += secondsOf(rounded);
    const isDearer = best === undefined || best.objective > year.objective * (1 + gapOfBlock);
    if (best === undefined || (isNear && isDearer && searchSeconds > 0)) {
      const wantsMore = best !== undefined && packs.missedSoon(best) > packs.missedSoon(year) + rungTolerance;
      const usual = blockSeconds ?? (wantsMore ? comingSecondsOf : blockSecondsOf)(packs.size);
      const answer = await packs.searched(
        block,
        {
          gap: gapOfBlock,
          nodeLimit: nodesOfBlock,
          secondsLimit: best === undefined || wantsMore ? usual : Math.min(usual, searchSeconds),
        },
        best,
      );
      if (answer.status === 'cancelled') return answer;
      if (answer.status === 'solved') {
        seconds += answer.seconds;
        if (!wantsMore) searchSeconds -= answer.seconds;
        best = cheapest([...rounded, answer]);
      }
      if (best === undefined) {
        // Whole weeks may not add up to the totals: then the block is bought without.
        if (!packs.letTotalsGo()) return answer;
        block = { first, end: first };
        continue;
      }
    }
    packs.buy(block, best);
    year = best;
  }
  return { ...packs.whole(year), seconds };
}

/** A block rounded in one way after the other, up to the first that takes next to nothing from the year. */
async function roundedWays(
  packs: PackYear,
  block: WeekBlock,
  year: SolvedAnswer,
): Promise<readonly SolvedAnswer[] | UnsolvedAnswer> {
  const found: SolvedAnswer[] = [];
  for (const rounding of blockRoundings) {
    const answer = await packs.rounded(block, year, rounding);
    if (answer.status === 'cancelled') return answer;
    if (answer.status !== 'solved') continue;
    found.push(answer);
    if (answer.objective <= year.objective * (1 + gapOfRounding)) break;
  }
  return found;
}

const secondsOf = (answers: readonly SolvedAnswer[]): number =>
  answers.reduce((sum, { seconds }) => sum + seconds, 0);

const cheapest = (answers: readonly SolvedAnswer[]): SolvedAnswer | undefined =>
  [...answers].sort((one, other) => one.objective - other.objective)[0];
