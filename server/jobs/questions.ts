import type { RecipeId, SourceId } from '../../shared/ids.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import type { WeekKey } from '../../shared/week.ts';
import type { Season } from '../../src/harvest/season.ts';
import { moreToAsk } from '../../src/planning/explanation/more-to-ask.ts';
import { type MoveCost, moveCost } from '../../src/planning/explanation/move-cost.ts';
import { type PlannedUnder, withoutHarvest } from '../../src/planning/explanation/without-harvest.ts';
import { type Worth, worthOfMore } from '../../src/planning/explanation/worth-of-more.ts';
import { type StoredPlan, weeksToKeep } from '../../src/planning/stored-plan.ts';
import type { Planner } from './plan-maker.ts';

// What pages ask the planner about the newest plan. A question and its answer are plain data, so that whoever solves may be
// another process.

interface Questions {
  /** The year planned anew, with a harvest and without it; null where one of the two has no plan. */
  readonly 'without harvest': {
    readonly asked: { readonly source: SourceId; readonly season: Pick<Season, 'beginsOn' | 'endsOn'> };
    readonly answer: { readonly now: PlannedUnder; readonly instead: PlannedUnder } | null;
  };
  /** What a little more of what is short would be worth. */
  readonly 'worth of more': { readonly asked: unknown; readonly answer: readonly Worth[] };
  /** What it costs to make a batch a week earlier, and a week later. */
  readonly 'batch moved': {
    readonly asked: { readonly recipe: RecipeId; readonly week: WeekKey };
    readonly answer: { readonly earlier: MoveCost; readonly later: MoveCost };
  };
}

type About = keyof Questions;
export type Question<Of extends About = About> = {
  [One in Of]: { readonly about: One } & Questions[One]['asked'];
}[Of];
export type AnswerTo<Asked extends Question> = Questions[Asked['about']]['answer'];

/** Close enough to say what would change, and soon enough to wait for. */
const closeEnough = { gap: 0.02, secondsLimit: 15 } as const;

/** Works a question out. */
export async function answerTo<Asked extends Question>(
  question: Asked,
  plan: StoredPlan,
  planner: Planner,
): Promise<AnswerTo<Asked>> {
  return (await answers[question.about](question as never, plan, planner)) as AnswerTo<Asked>;
}

const answers: {
  readonly [One in About]: (
    asked: Question<One>,
    plan: StoredPlan,
    planner: Planner,
  ) => Promise<Questions[One]['answer']>;
} = {
  'without harvest': async ({ source, season }, plan, { planYear }) => {
    // The plan that is kept was corrected after it was made: the year with the harvest is planned anew as well, so that nothing but
    // the harvest makes a difference.
    const options = { ...closeEnough, earlier: weeksToKeep(plan, plan.year.weeks) };
    const now = await planYear(plan.year, options);
    const instead = await planYear(withoutHarvest(plan.year, source, season), options);
    return now.outcome === 'planned' && instead.outcome === 'planned'
      ? { now: { plan: now.plan, paths: now.paths }, instead: { plan: instead.plan, paths: instead.paths } }
      : null;
  },
  'worth of more': (_, plan, { solve }) => worthOfMore(plan.year, moreToAsk(plan.year, plan.plan), solve),
  'batch moved': async ({ recipe, week }, plan, { solve }) => ({
    earlier: await moveCost(plan.year, plan.plan, { recipe, week, by: -1 }, solve),
    later: await moveCost(plan.year, plan.plan, { recipe, week, by: 1 }, solve),
  }),
};

/** So many questions of one household wait behind the one that is worked out. */
export const questionsWaiting = 3;

/** Thrown when a household has as many questions waiting as it may. */
export class PlannerBusy extends ShelfwardError {
  constructor() {
    super('planner-busy', `expected at most ${questionsWaiting} questions waiting for the planner`);
  }
}

/** Thrown when whoever asked has gone; nobody reads it. */
export class AskerLeft extends ShelfwardError {
  constructor() {
    super('asker-left', 'whoever asked the planner has gone');
  }
}

/** The planner for one question: what it solves is called off when the asker leaves. */
export const plannerUntil = ({ planYear, solve }: Planner, left: AbortSignal | undefined): Planner =>
  left === undefined
    ? { planYear, solve }
    : {
        planYear: (year, options) => planYear(year, { ...options, signal: left }),
        solve: (model, request) => solve(model, { ...request, signal: left }),
      };
