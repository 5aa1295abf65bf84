import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { PlanOptions } from '../../../src/planning/make-plan.ts';
import type { Solve } from '../../../src/planning/solving/solving.ts';
import { foresee } from './foresight.ts';
import { catalog, cutHousehold, type HouseholdSize, type LimitClass } from './household.ts';
import { liveByTheOdds, targetsByTheOdds } from './knowing.ts';
import { liveByPaper, paperRules } from './paper.ts';
import { drawPath } from './path.ts';
import { liveByProgram, type ProgramYear } from './program.ts';
import { meanScore, type Score, type ScoreMeans } from './score.ts';

/** One household of the bench under one class of limits, to be lived on so many paths. */
export interface LivedTask {
  readonly seed: number;
  readonly isDemo: boolean;
  readonly limits: LimitClass;
  readonly paths: number;
  readonly size?: HouseholdSize;
  readonly weeks?: number;
  /** Of the search for foresight's year; its bound holds however soon it ends. */
  readonly foresightSeconds?: number;
}

/** All rules on one path. */
export interface LivedPathResult {
  readonly household: string;
  readonly limits: LimitClass;
  readonly program: ProgramYear;
  readonly paper: readonly Score[];
  /** By who knows all odds and no outcome. */
  readonly knowing: Score;
  readonly foresight: Score;
  /** Proven: no score on this path is lower, cents. */
  readonly bound: number;
}

const foresightSeconds = 12;

const limitClasses: readonly LimitClass[] = ['relaxed', 'tight'];

/** The households of a bench, in both classes: by their seeds, the invented one of the demo as the last where there are three or more. */
export function tasksOf(households: number, paths: number, seed: number): LivedTask[] {
  return Array.from({ length: households }, (_, at) => at)
    .toReversed()
    .flatMap((at) =>
      limitClasses.map((limits) => ({
        seed: 1000 * seed + at,
        isDemo: households >= 3 && at === households - 1,
        limits,
        paths,
      })),
    );
}

/** Lives one household's paths by every rule. */
export async function liveTask(
  task: LivedTask,
  {
    reference,
    solve,
    options,
    onPath,
  }: {
    readonly reference: ReferenceTables;
    readonly solve: Solve;
    readonly options?: PlanOptions;
    readonly onPath?: (result: LivedPathResult) => void;
  },
): Promise<LivedPathResult[]> {
  const household = cutHousehold(await catalog(), task, reference);
  const targets = targetsByTheOdds(household, task.seed);
  const results: LivedPathResult[] = [];
  for (let at = 0; at < task.paths; at += 1) {
    const pathSeed = 100 * task.seed + at;
    const path = drawPath(household, pathSeed);
    const paper = paperRules.map((rule) => liveByPaper(household, path, rule));
    const knowing = liveByTheOdds(household, path, targets);
    const program = await liveByProgram(household, path, pathSeed, {
      reference,
      solve,
      ...(options === undefined ? {} : { options }),
      ...(task.weeks === undefined ? {} : { weeks: task.weeks }),
    });
    const best = [program, knowing, ...paper].reduce((least, one) =>
      one.score.score < least.score.score ? one : least,
    );
    const foreseen = await foresee(
      household.world,
      path,
      solve,
      task.foresightSeconds ?? foresightSeconds,
      best.deeds,
    );
    const everyone = [
      ...[program, knowing, ...paper].map(({ score }) => score),
      ...(foreseen.score === null ? [] : [foreseen.score]),
    ];
    for (const { score } of everyone)
      if (score < foreseen.bound - boundTolerance * Math.abs(foreseen.bound) - 1)
        throw new Error(
          `${household.name}, ${task.limits}, path ${at}: a score of ${score} cents is below the bound ${foreseen.bound}`,
        );
    // Within its gap somebody may still have done better; who foresees it would have done that.
    const foresight = everyone.reduce((best, one) => (one.score < best.score ? one : best));
    const result = {
      household: household.name,
      limits: task.limits,
      program,
      paper: paper.map(({ score }) => score),
      knowing: knowing.score,
      foresight,
      bound: foreseen.bound,
    };
    results.push(result);
    onPath?.(result);
  }
  return results;
}

/** What a solver's tolerances may add up to. */
const boundTolerance = 1e-4;

export interface LivedReport {
  readonly households: number;
  readonly paths: number;
  readonly seed: number;
  readonly classes: readonly ClassReport[];
}

export interface ClassReport {
  readonly name: LimitClass;
  readonly program: ScoreMeans & { readonly churn: number };
  readonly paper: readonly (ScoreMeans & { readonly rule: string })[];
  readonly foresight: ScoreMeans;
}

/** Means per household and year. */
export function reportOf(
  { households, paths, seed }: Omit<LivedReport, 'classes'>,
  results: readonly LivedPathResult[],
): LivedReport {
  return {
    households,
    paths,
    seed,
    classes: limitClasses.map((name) => {
      const own = results.filter(({ limits }) => limits === name);
      const churn = own.reduce((sum, { program }) => sum + program.churn, 0) / Math.max(1, own.length);
      return {
        name,
        program: {
          ...meanScore(own.map(({ program }) => program.score)),
          churn: Number(churn.toFixed(2)),
        },
        paper: paperRules.map((rule, at) => ({
          rule: rule.name,
          ...meanScore(own.flatMap(({ paper }) => paper.slice(at, at + 1))),
        })),
        foresight: meanScore(own.map(({ foresight }) => foresight)),
      };
    }),
  };
}

/** Regret of the program beside that of the best paper rule of a class, a mean over households with its 95 % interval, dollars. */
export function regretOf(results: readonly LivedPathResult[], name: LimitClass): Regret {
  const own = results.filter(({ limits }) => limits === name);
  const households = [...new Set(own.map(({ household }) => household))];
  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  const ofHousehold = (score: (result: LivedPathResult) => number) =>
    households.map(
      (household) =>
        mean(
          own.filter((one) => one.household === household).map((one) => score(one) - one.foresight.score),
        ) / 100,
    );
  const papers = paperRules.map((rule, at) => ({
    rule: rule.name,
    regrets: ofHousehold(({ paper }) => paper[at]?.score ?? Number.NaN),
  }));
  const best = papers.toSorted((one, other) => mean(one.regrets) - mean(other.regrets))[0];
  if (best === undefined) throw new Error('regret: expected paper rules, found none');
  const program = ofHousehold((one) => one.program.score.score);
  return {
    name,
    program: withInterval(program),
    bestPaper: { rule: best.rule, ...withInterval(best.regrets) },
    knowing: withInterval(ofHousehold((one) => one.knowing.score)),
    /** The program's regret less half of the paper's: below 0 where the promise holds. */
    overHalf: withInterval(program.map((regret, at) => regret - (best.regrets[at] ?? Number.NaN) / 2)),
  };
}

export interface Regret {
  readonly name: LimitClass;
  readonly program: Interval;
  readonly bestPaper: Interval & { readonly rule: string };
  /** Of who knows all odds: what cannot be saved by knowing the household better. */
  readonly knowing: Interval;
  readonly overHalf: Interval;
}

/** Half the width of the 95 % interval is null where one household says nothing of others. */
export interface Interval {
  readonly mean: number;
  readonly half: number | null;
}

/** Two-sided 95 % quantiles of Student's t with 1, 2, … degrees of freedom (any table of it); beyond them 1.96 is near enough. */
const studentT = [12.71, 4.3, 3.18, 2.78, 2.57, 2.45, 2.36, 2.31, 2.26, 2.23, 2.2, 2.18, 2.16, 2.14, 2.13];

function withInterval(values: readonly number[]): Interval {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (values.length < 2) return { mean, half: null };
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { mean, half: (studentT[values.length - 2] ?? 1.96) * Math.sqrt(variance / values.length) };
}
