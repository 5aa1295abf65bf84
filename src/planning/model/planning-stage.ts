import type { PlannedWeek } from '../plan.ts';

/** What a stage of planning holds fixed and asks to be whole. */
export interface PlanningStage {
  /** Whole packs instead of any amount. */
  readonly wholePacks: boolean;
  /** Weeks that decide nothing about canning are joined: a smaller model whose bound still holds for every week. */
  readonly joinedWeeks: boolean;
  /** Batches and sessions already decided; null while they are open. */
  readonly canning: CanningDecision | null;
  /** Weeks of the plan made before, whose near weeks are kept unless a change is worth it; null for a first plan. */
  readonly earlier: readonly PlannedWeek[] | null;
}

export interface CanningDecision {
  /** [recipe][week], in the sorted order of the sets. */
  readonly batches: readonly (readonly number[])[];
  readonly sessionsByWeek: readonly number[];
}
