import type { ModelWriter } from './model.ts';
import type { PlanningParameters } from './parameters.ts';
import type { PlanningStage } from './planning-stage.ts';
import type { WishPrices } from './prices.ts';
import type { PlanningRules } from './rules.ts';
import type { PlanningSets } from './sets.ts';
import type { SpansByItem } from './spans.ts';
import type { PlanColumns } from './variables.ts';

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
