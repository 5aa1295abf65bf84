import type { CanningDecision } from '../model/planning-stage.ts';

/** Everything a person has to do, and nothing that follows from it: a plan is worked out from this alone. */
export interface PlanDecision {
  readonly canning: CanningDecision;
  readonly buying: BuyingDecision;
}

/** What is bought; lists follow the sorted order of the sets, last index the week. */
export interface BuyingDecision {
  /** [item][pack][week] packs. */
  readonly packs: readonly (readonly (readonly number[])[])[];
  /** [source][week] lb, to a hundredth. */
  readonly produceLb: readonly (readonly number[])[];
  /** [supply][week] packs. */
  readonly supplyPacks: readonly (readonly number[])[];
  /** [jar kind][week] packs. */
  readonly jarPacks: readonly (readonly number[])[];
  /** [mouth][week] boxes. */
  readonly lidBoxes: readonly (readonly number[])[];
  readonly materials: MaterialDecision;
}

/** What happens to raw material; [rawMaterial][week], lb or the material's unit, to a thousandth. */
export interface MaterialDecision {
  readonly freeze: readonly (readonly number[])[];
  readonly thaw: readonly (readonly number[])[];
  readonly waiting: readonly (readonly number[])[];
  readonly frozen: readonly (readonly number[])[];
  readonly lost: readonly (readonly number[])[];
}
