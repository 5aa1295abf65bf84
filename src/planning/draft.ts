import type { ModelWriter } from './model.ts';
import type { PlanningParameters } from './parameters.ts';
import type { PlannedWeek } from './plan.ts';
import type { WishPrices } from './prices.ts';
import type { PlanningRules } from './rules.ts';
import type { PlanningSets } from './sets.ts';
import type { SpansByItem } from './spans.ts';
import type { PlanColumns } from './variables.ts';

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

/** A model being built: what it ranges over, its numbers, its columns, and where rows go. */
export interface Draft {
  readonly sets: PlanningSets;
  readonly parameters: PlanningParameters;
  readonly rules: PlanningRules;
  readonly prices: WishPrices;
  readonly spans: SpansByItem;
  readonly stage: PlanningStage;
  readonly writer: ModelWriter;
  readonly columns: PlanColumns;
}
