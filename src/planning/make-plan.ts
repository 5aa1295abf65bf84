import type { ItemId, RecipeId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import {
  assemblePlan,
  type LastingUnderPlan,
  neverRunsOut,
  type OutlookOf,
  type PlanProof,
} from './answer/assemble-plan.ts';
import { type PlanPath, planPaths } from './answer/plan-path.ts';
import { type PlanSoFar, planSoFar } from './answer/plan-so-far.ts';
import { objectiveByTerm, readBuying, readCanning } from './answer/read-back.ts';
import { entry, orNone } from './lookup.ts';
import { type BuiltModel, buildModel, canningStage } from './model/build-model.ts';
import type { Draft } from './model/draft.ts';
import { moneyTerms } from './model/objective.ts';
import type { CanningDecision } from './model/planning-stage.ts';
import { householdRules, type PlanningRules } from './model/rules.ts';
import { buyAsNeeded } from './packs/buy-as-needed.ts';
import { keptForPacks, servesBetter } from './packs/kept-for-packs.ts';
import { solvePackStage } from './packs/pack-stage.ts';
import { roundUpPacks } from './packs/round-up-packs.ts';
import type { Plan, PlannedWeek } from './plan.ts';
import type { PlanningYear } from './planning-year.ts';
import type { PlanDecision } from './solving/decision.ts';
import { type ColumnBoundsByIndex, heldBatches, type MayChange } from './solving/held-batches.ts';
import { itemsChanged, recipesBesides, recipesOf } from './solving/items-changed.ts';
import { isHeavierThanReserve, rungTolerance } from './solving/rungs.ts';
import { type RungsAnswer, type RungsRequest, solveInRungs } from './solving/solve-in-rungs.ts';
import type { Solve, SolvedAnswer, SolveFailure, SolveProgress, UnsolvedAnswer } from './solving/solving.ts';
import { missedOn, wishRungs } from './solving/wish-rungs.ts';
import { checkPlanningYear } from './year/input-checks.ts';

export interface PlanOptions {
  /** Proven gap at which the canning stage stops, 0 to 1; 0.01 unless said. */
  readonly gap?: number;
  /** Safety net of all solves together, solver seconds; 60 unless said. */
  readonly secondsLimit?: number;
  readonly onProgress?: (progress: PlanProgress) => void;
  readonly signal?: AbortSignal;
  readonly rules?: PlanningRules;
  /** Weeks of the plan made before: its near weeks are kept unless a change is worth it. */
  readonly earlier?: readonly PlannedWeek[] | null;
  /**
   * A plan that the search begins from, where its batches still fit, and whose packs are kept where they still do. Both searches end
   * where they are about as near to the best as that plan was.
   */
  readonly beginsFrom?: PlanBefore;
  /** Which batches of that plan may change at all; any, when left out. */
  readonly mayChange?: MayChange;
  /** How long each item lasts under the plan; expected use alone decides when left out. */
  readonly outlookOf?: AskOutlook;
}

/** A plan with the year it was made of. */
export interface PlanBefore {
  readonly year: Pick<PlanningYear, 'items'>;
  readonly plan: Pick<Plan, 'weeks' | 'gap' | 'rungs' | 'packRounding'>;
}

/** How far the canning stage is, and what the best plan so far comes to; left out until there is one. */
export interface PlanProgress extends Omit<SolveProgress, 'values'> {
  readonly soFar?: PlanSoFar;
}

/** How long an item lasts, at once or in a while: asked item by item, so that others are served between two. */
export type AskOutlook = (path: PlanPath) => LastingUnderPlan | Promise<LastingUnderPlan>;

export type PlanningAnswer = PlannedYear | PlanningFailure;

export interface PlannedYear {
  readonly outcome: 'planned';
  readonly plan: Plan;
  readonly paths: readonly PlanPath[];
  /** What ended the canning stage; only `gap` is a proof at the gap asked for. */
  readonly stoppedBy: SolvedAnswer['stoppedBy'];
  readonly size: ModelSize;
  /** Seconds until the canning stage was proven within its gap; the packs come after. */
  readonly canningSeconds: number;
}

export interface PlanningFailure {
  readonly outcome: Exclude<SolveFailure, 'unbounded'>;
  /** For the log, not for the page. */
  readonly detail: string;
  /** Nothing is put up, what runs short is bought: always there. */
  readonly fallback: { readonly plan: Plan; readonly paths: readonly PlanPath[] };
}

export interface ModelSize {
  readonly rows: number;
  readonly columns: number;
  readonly integers: number;
}

/** The model with joined weeks stops at this share of the gap asked for: the weekly plan may cost a little more. */
const joinedWeeksGapShare = 0.9;
/** Share of the seconds for canning with joined weeks; the rest is for the same week by week and for the packs. */
const canningShare = 0.8;
/** Week by week nothing is left to branch on: no more than a safety net, since without an answer there is no plan. */
const weeklySeconds = 10;
/** For an earlier plan's batches made whole, where they still fit; for those of items that changed, and how near to the best. */
const begunFromSeconds = 10;
const changedSeconds = 2;
const begunFromGap = 0.002;
/** For canning that goes on from a plan of an earlier week, by the model's columns: what it began from is seldom bettered by more. */
const newWeekSeconds = (columns: number): number => 1.5 + columns / 1000;
/** For canning that goes on from a plan of the same week, all of it and one rung: what is not found around that at once seldom is. */
const goingOnSeconds = 1.5;
const goingOnRungSeconds = 0.3;
/** Times the gap of the plan begun from at which the search ends: its proof comes out a little otherwise every day. Judged, no source. */
const aboutAsNear = 1.1;
/** For canning rounded down, where the search ended without a plan. */
const roundedDownSeconds = 30;

/**
 * Plans a household's year in two stages: what to put up when, with any amount bought (proven within a gap), then whole
 * packs around that canning plan. What was worked out stands: packs that are not found in time are rounded up, and batches
 * that are not are the relaxation's rounded down. Every other failure of the solver is an answer with a name and a plan that
 * needs no solver.
 *
 * Where whole packs overdraw the fund in the coming weeks, or leave too little of it for a wish that comes before any jar, all is planned once more with what they cost over any
 * amount kept back, beginning from the plan that was found, and that plan stands where it serves the wish better.
 */
export async function makePlan(
  year: PlanningYear,
  solve: Solve,
  options: PlanOptions = {},
): Promise<PlanningAnswer> {
  const { beginsFrom, ...asked } = options;
  const packsBefore = beginsFrom?.plan;
  const { answer, kept } = await planOnce(year, solve, options, { packsBefore });
  if (answer.outcome !== 'planned' || kept === null) return answer;
  const again = await planOnce(
    year,
    solve,
    { ...asked, beginsFrom: { year, plan: answer.plan } },
    { packsBefore, keptForPacksByWeek: kept },
  );
  if (again.answer.outcome === 'cancelled') return again.answer;
  return again.answer.outcome === 'planned' && servesBetter(again.answer.plan, answer.plan)
    ? again.answer
    : answer;
}

/** A plan, and the cents by week that would have to be kept back for whole packs; null where they need not. */
interface PlannedOnce {
  readonly answer: PlanningAnswer;
  readonly kept: readonly number[] | null;
}

async function planOnce(
  year: PlanningYear,
  solve: Solve,
  options: PlanOptions,
  {
    packsBefore,
    keptForPacksByWeek,
  }: {
    /** The plan whose packs are kept where they still do. */
    readonly packsBefore: PlanBefore['plan'] | undefined;
    readonly keptForPacksByWeek?: readonly number[];
  },
): Promise<PlannedOnce> {
  const {
    rules = householdRules,
    earlier = null,
    beginsFrom,
    mayChange,
    gap = 0.01,
    secondsLimit = 60,
    onProgress,
    signal,
    outlookOf,
  } = options;
  requireSoundYear(year);
  const canned =
    keptForPacksByWeek === undefined ? year : { ...year, fund: { ...year.fund, keptForPacksByWeek } };
  const built = buildModel(canned, { ...canningStage, earlier }, rules);
  const called = signal === undefined ? {} : { signal };
  const request = {
    gap: gap * joinedWeeksGapShare,
    secondsLimit: secondsLimit * canningShare,
    ...(onProgress === undefined ? {} : { onProgress: countedBy(built, onProgress) }),
    ...called,
  };
  const asked =
    earlier === null || mayChange === undefined
      ? await solveInRungs(built, solve, {
          ...request,
          ...(beginsFrom === undefined
            ? {}
            : await begunFrom(built, solve, beginsFrom, {
                gap,
                secondsLimit: secondsLimit * canningShare,
                ...called,
              })),
        })
      : await solveNear(built, solve, request, heldBatches(built, earlier, mayChange));
  const { answer: canningAnswer, rungs } =
    asked.answer.status === 'time limit without plan' ? await roundedDown(built, solve, called) : asked;
  if (canningAnswer.status !== 'solved')
    return withNothingKept(await failed(canningAnswer, 'canning', built, outlookOf));

  const canning = readCanning(built, canningAnswer.values);
  const weekly = buildModel(canned, { wholePacks: false, joinedWeeks: false, canning, earlier }, rules);
  const { answer: weeklyAnswer, rungs: weeklyRungs } = await solveInRungs(weekly, solve, {
    gap: 0,
    secondsLimit: weeklySeconds,
    settled: rungs,
    ...called,
  });
  // Batches rounded down have no produce worked out until they are planned week by week.
  if (
    weeklyAnswer.status === 'cancelled' ||
    (weeklyAnswer.status !== 'solved' && asked.answer.status !== 'solved')
  )
    return withNothingKept(await failed(weeklyAnswer, 'week by week', built, outlookOf));
  const settled = weeklyAnswer.status === 'solved' ? weeklyRungs : rungs;
  const packs =
    weeklyAnswer.status === 'solved'
      ? await solvePackStage(year, canning, rules, solve, {
          settled,
          ...(packsBefore === undefined ? {} : { before: packsBefore }),
          ...called,
        })
      : null;
  if (packs?.answer.status === 'cancelled')
    return withNothingKept(await failed(packs.answer, 'whole packs', built, outlookOf));

  // Without the weekly answer the stage with joined weeks stands for it.
  const inAnyAmount =
    weeklyAnswer.status === 'solved'
      ? { built: weekly, values: weeklyAnswer.values, seconds: weeklyAnswer.seconds }
      : { built, values: canningAnswer.values, seconds: 0 };
  const moneyInAnyAmount = moneyOf(inAnyAmount.built, inAnyAmount.values);
  const bought =
    packs?.answer.status === 'solved'
      ? {
          buying: readBuying(packs.built, packs.answer.values),
          seconds: packs.answer.seconds,
          rungs: packs.rungs,
          packRounding: {
            cost: asCents(moneyOf(packs.built, packs.answer.values) - moneyInAnyAmount),
            gap: relativeGap(packs.answer.objective, packs.answer.bound),
          },
        }
      : roundedUp(inAnyAmount, canning, settled, moneyInAnyAmount);
  const decision: PlanDecision = { canning, buying: bought.buying };
  const objective = objectiveByTerm(inAnyAmount.built, inAnyAmount.values);
  const total = objective.total;
  const proof: PlanProof = {
    objective,
    bound: Math.min(canningAnswer.bound, total),
    gap: relativeGap(total, canningAnswer.bound),
    solveSeconds: canningAnswer.seconds + inAnyAmount.seconds + bought.seconds,
    packRounding: bought.packRounding,
    rungs: bought.rungs.map((rung) => ({
      ...rung,
      atLeast: Math.min(rung.missed, orNone(rungs.find(({ name }) => name === rung.name)?.atLeast)),
    })),
  };
  const kept =
    weeklyAnswer.status === 'solved' && packs?.answer.status === 'solved'
      ? keptForPacks(
          { built: weekly, values: weeklyAnswer.values, rungs: settled },
          { built: packs.built, values: packs.answer.values, rungs: packs.rungs },
        )
      : null;
  const answer: PlannedYear = {
    outcome: 'planned',
    ...assemblePlan(
      built.sets,
      built.parameters,
      decision,
      proof,
      await outlooks(built, decision, outlookOf),
    ),
    stoppedBy: canningAnswer.stoppedBy,
    canningSeconds: canningAnswer.seconds,
    size: {
      rows: built.model.rows.length,
      columns: built.model.columns.length,
      integers: built.model.columns.filter(({ integer }) => integer).length,
    },
  };
  return { answer, kept };
}

const withNothingKept = (answer: PlanningAnswer): PlannedOnce => ({ answer, kept: null });

/** Tells of progress as a household counts it: what the best plan so far comes to goes along until a better one is found. */
function countedBy(
  built: BuiltModel,
  tell: (progress: PlanProgress) => void,
): (progress: SolveProgress) => void {
  let soFar: PlanSoFar | null = null;
  return ({ values, ...progress }) => {
    if (values !== undefined) soFar = planSoFar(built, values);
    tell(soFar === null ? progress : { ...progress, soFar });
  };
}

/**
 * What the search begins from: the earlier plan's batches with what else they ask for; while a wish heavier than reserve is missed
 * more than by that plan, those of items of which another amount is missing now as they are best, and of what shares a crop with
 * them, with all others held. Most days little has changed, and the search then only has to prove that it is still good. Where that
 * plan's search ended unproven, one that goes on in the same week ends where it is about as near to the best, or soon; in a new week it
 * ends soon. Where nothing of the plan fits any more, there is nothing to begin from.
 */
async function begunFrom(
  built: BuiltModel,
  solve: Solve,
  { year, plan }: PlanBefore,
  { gap, secondsLimit, signal }: Pick<RungsRequest, 'gap' | 'secondsLimit' | 'signal'>,
): Promise<Partial<RungsRequest>> {
  const items = itemsChanged(year, built.sets.year);
  const open = [new Set<RecipeId>(), recipesOf(items, built.sets), recipesBesides(items, built.sets)];
  let begun: SolvedAnswer | null = null;
  for (const recipes of open) {
    if (begun !== null && missesNoMore(built, begun, plan)) break;
    const answer = await solve(built.model, {
      gap: begunFromGap,
      secondsLimit: recipes.size === 0 ? begunFromSeconds : changedSeconds,
      bounds: heldBatches(built, plan.weeks, ({ id }) => recipes.has(id)),
      ...(begun === null ? {} : { start: begun.values }),
      ...(signal === undefined ? {} : { signal }),
    });
    if (answer.status === 'solved' && !(begun !== null && begun.objective <= answer.objective))
      begun = answer;
  }
  if (begun === null) return {};
  const { values: start } = begun;
  if (plan.weeks[0]?.week !== built.sets.year.weeks[0])
    return { start, secondsLimit: Math.min(newWeekSeconds(built.model.columns.length), secondsLimit) };
  const provenBefore = { gap: plan.gap * aboutAsNear, rungs: plan.rungs };
  return {
    start,
    rungSeconds: goingOnRungSeconds,
    ...(plan.gap > gap ? { provenBefore, secondsLimit: Math.min(goingOnSeconds, secondsLimit) } : {}),
  };
}

/** Whether no wish heavier than reserve is missed more than by a plan before. */
function missesNoMore(built: BuiltModel, { values }: SolvedAnswer, { rungs }: Pick<Plan, 'rungs'>): boolean {
  return wishRungs(built)
    .filter(({ name }) => isHeavierThanReserve(name))
    .every((rung) => {
      const missedBefore = orNone(rungs.find(({ name }) => name === rung.name)?.missed);
      return missedOn(rung, values) <= missedBefore + rungTolerance;
    });
}

/**
 * Canning with some batches held. Held batches prove nothing about other plans, so the bound is the relaxation's with none
 * held; where they no longer fit, the whole question is asked.
 */
async function solveNear(
  built: BuiltModel,
  solve: Solve,
  request: RungsRequest,
  bounds: ColumnBoundsByIndex,
): Promise<RungsAnswer> {
  const near = await solveInRungs(built, solve, { ...request, bounds });
  if (near.answer.status === 'cancelled') return near;
  if (near.answer.status !== 'solved') return solveInRungs(built, solve, request);
  const relaxed = await solve(built.model, { ...request, relaxed: true });
  if (relaxed.status === 'cancelled') return { answer: relaxed, rungs: [] };
  const bound = relaxed.status === 'solved' ? Math.min(relaxed.bound, near.answer.objective) : 0;
  return {
    answer: { ...near.answer, bound },
    rungs: near.rungs.map((rung) => ({ ...rung, atLeast: 0 })),
  };
}

/** The packs of a stage rounded up, where the search for better ones ended without any. */
function roundedUp(
  stage: { readonly built: BuiltModel; readonly values: ArrayLike<number> },
  canning: CanningDecision,
  rungs: RungsAnswer['rungs'],
  moneyInAnyAmount: number,
) {
  const buying = roundUpPacks(stage.built, stage.values, canning);
  const spent = spendOf(stage.built, { canning, buying });
  return {
    buying,
    seconds: 0,
    rungs,
    packRounding: {
      cost: asCents(spent - moneyInAnyAmount),
      gap: relativeGap(spent, moneyInAnyAmount),
      isRoundedUp: true as const,
    },
  };
}

/**
 * Canning where the search ended without a plan: the relaxation's batches rounded down, with the sessions they need. Less is
 * made than could be; the bound is the relaxation's and says by how much at most.
 */
async function roundedDown(
  built: BuiltModel,
  solve: Solve,
  called: Pick<RungsRequest, 'signal'>,
): Promise<RungsAnswer> {
  const relaxed = await solve(built.model, {
    gap: 0,
    relaxed: true,
    secondsLimit: roundedDownSeconds,
    ...called,
  });
  if (relaxed.status !== 'solved') return { answer: relaxed, rungs: [] };
  const values = Float64Array.from(relaxed.values);
  for (const column of built.columns.batches.flat())
    if (column !== null) values[column] = Math.floor(entry(values, column, 'values') + 1e-6);
  for (const column of built.columns.sessions)
    values[column] = Math.max(0, Math.ceil(entry(values, column, 'values') - 1e-6));
  return {
    answer: { ...relaxed, values, stoppedBy: 'time limit' },
    // What such a plan misses is not looked at more closely.
    rungs: wishRungs(built).map(({ name }) => ({ name, missed: Number.POSITIVE_INFINITY, atLeast: 0 })),
  };
}

/** Cents of all purchases of a decision. */
const spendOf = ({ sets, parameters }: BuiltModel, decision: PlanDecision): number =>
  assemblePlan(sets, parameters, decision, unproven).plan.weeks.reduce((sum, { spend }) => sum + spend, 0);

async function failed(
  answer: UnsolvedAnswer,
  stage: string,
  built: BuiltModel,
  outlookOf: AskOutlook | undefined,
): Promise<PlanningFailure> {
  return {
    outcome: answer.status === 'unbounded' ? 'solver crashed' : answer.status,
    detail: `${stage}: ${answer.detail}`,
    fallback: await fallbackPlan(built, outlookOf),
  };
}

/** A year that breaks a rule is the caller's to mend beforehand; planning it all the same is refused, low acid above all. */
function requireSoundYear(year: PlanningYear): void {
  const problems = checkPlanningYear(year);
  if (problems.length > 0)
    throw new ShelfwardError('planning-year-not-sound', problems.map(({ message }) => message).join(' '));
}

const unproven: PlanProof = {
  objective: { total: 0 },
  bound: 0,
  gap: 1,
  solveSeconds: 0,
  packRounding: { cost: asCents(0), gap: 0 },
  rungs: [],
};

/** The plan of `buyAsNeeded`, with nothing proven: bound 0 and gap 1. */
async function fallbackPlan(
  draft: Pick<Draft, 'sets' | 'parameters'>,
  outlookOf: AskOutlook | undefined,
): Promise<PlanningFailure['fallback']> {
  const { sets, parameters } = draft;
  const decision = buyAsNeeded(sets, parameters);
  const { plan, paths } = assemblePlan(
    sets,
    parameters,
    decision,
    unproven,
    await outlooks(draft, decision, outlookOf),
  );
  const groceries = plan.weeks.reduce((sum, { spend }) => sum + spend, 0);
  return { plan: { ...plan, objective: { groceries, total: groceries } }, paths };
}

/** Asks how long each item lasts under a decision, one after the other. */
async function outlooks(
  { sets }: Pick<Draft, 'sets'>,
  decision: PlanDecision,
  ask: AskOutlook | undefined,
): Promise<OutlookOf | undefined> {
  if (ask === undefined) return undefined;
  const answers = new Map<ItemId, LastingUnderPlan>();
  for (const path of planPaths(sets, decision)) answers.set(path.item, await ask(path));
  return ({ item }) => answers.get(item) ?? neverRunsOut;
}

function moneyOf(built: BuiltModel, values: ArrayLike<number>): number {
  const byTerm = objectiveByTerm(built, values);
  return moneyTerms.reduce((sum, term) => sum + orNone(byTerm[term]), 0);
}

function relativeGap(objective: number, bound: number): number {
  if (objective - bound <= 1e-9) return 0;
  return (objective - bound) / Math.max(Math.abs(objective), 1e-9);
}

/** Plans a year; passed in, so that a job can be tested without a solver. */
export type PlanYear = (year: PlanningYear, options?: PlanOptions) => Promise<PlanningAnswer>;
