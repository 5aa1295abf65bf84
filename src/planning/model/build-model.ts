import type { PlanningYear } from '../planning-year.ts';
import { begunBatches } from './constraints/begun-batches.ts';
import { bestQuality } from './constraints/best-quality.ts';
import { cannerDay } from './constraints/canner-day.ts';
import { cannerLoads } from './constraints/canner-loads.ts';
import { crockSpace } from './constraints/crock-space.ts';
import { freezerSpace } from './constraints/freezer-space.ts';
import { jarsEmpty } from './constraints/jars-empty.ts';
import { kept, type PinnedBatches } from './constraints/kept.ts';
import { kitchenHours } from './constraints/kitchen-hours.ts';
import { lids } from './constraints/lids.ts';
import { seasonFund } from './constraints/season-fund.ts';
import { setUp } from './constraints/set-up.ts';
import { steadiness } from './constraints/steadiness.ts';
import { stockBalance } from './constraints/stock-balance.ts';
import { supplyBalance } from './constraints/supply-balance.ts';
import { waitingBalance } from './constraints/waiting-balance.ts';
import { wholePacks } from './constraints/whole-packs.ts';
import { familyMinimum } from './constraints/wishes/family-minimum.ts';
import { firstJars } from './constraints/wishes/first-jars.ts';
import { gardenCrop } from './constraints/wishes/garden-crop.ts';
import { groupTotal } from './constraints/wishes/group-total.ts';
import { groupVariety } from './constraints/wishes/group-variety.ts';
import { reserve } from './constraints/wishes/reserve.ts';
import { yearEnd } from './constraints/wishes/year-end.ts';
import { yearNeed } from './constraints/year-need.ts';
import { yearTotals } from './constraints/year-totals.ts';
import type { Draft } from './draft.ts';
import { createModelWriter, type Model, type ObjectiveTerm } from './model.ts';
import { objective } from './objective.ts';
import { planningParameters } from './parameters.ts';
import type { PlanningStage } from './planning-stage.ts';
import { wishPrices } from './prices.ts';
import { householdRules, type PlanningRules } from './rules.ts';
import { planningSets } from './sets.ts';
import { joinedSpans, weeklySpans } from './spans.ts';
import { planVariables } from './variables.ts';

/** A household's year as a model, with everything needed to read an answer back. */
export interface BuiltModel extends Draft {
  readonly model: Model;
  readonly terms: Readonly<Record<string, ObjectiveTerm>>;
  readonly pins: readonly PinnedBatches[];
}

/** Canning is open and any amount may be bought: the stage whose bound is proven. */
export const canningStage: PlanningStage = {
  wholePacks: false,
  joinedWeeks: true,
  canning: null,
  earlier: null,
};

/** Sets, parameters, variables, constraints, objective. Table: README.md beside this file. */
export function buildModel(
  year: PlanningYear,
  stage: PlanningStage = canningStage,
  rules: PlanningRules = householdRules,
): BuiltModel {
  const sets = planningSets(year);
  const parameters = planningParameters(sets);
  const prices = wishPrices(sets, rules);
  const writer = createModelWriter();
  const spans = stage.joinedWeeks ? joinedSpans(sets, parameters) : weeklySpans(sets);
  const columns = planVariables(sets, parameters, spans, rules, stage, writer);
  const draft: Draft = { sets, parameters, rules, prices, spans, stage, writer, columns };

  stockBalance(draft);
  bestQuality(draft);
  reserve(draft);
  yearEnd(draft);
  waitingBalance(draft);
  freezerSpace(draft);
  crockSpace(draft);
  kitchenHours(draft);
  const loads = cannerLoads(draft);
  cannerDay(draft, loads);
  supplyBalance(draft);
  jarsEmpty(draft);
  lids(draft);
  seasonFund(draft);
  gardenCrop(draft);
  firstJars(draft);
  familyMinimum(draft);
  groupTotal(draft);
  groupVariety(draft);
  steadiness(draft);
  const pins = kept(draft);
  const begun = begunBatches(draft);
  setUp(draft);
  yearTotals(draft);
  yearNeed(draft);
  wholePacks(draft);

  objective(draft, [...pins, ...begun]);
  return { ...draft, ...writer.finish(), pins };
}
