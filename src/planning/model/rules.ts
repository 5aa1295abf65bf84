/** How the model is built; a household always uses `householdRules`. */
export interface PlanningRules {
  /** `never` makes use a hard demand, as published lot-sizing instances have it; `priced` lets a wish give way. */
  readonly shortage: 'priced' | 'never';
  /** `never` forbids stock past its best quality instead of pricing it. */
  readonly pastBestQuality: 'priced' | 'never';
  /** What a session costs beside its hours, so that the plan does not scatter small ones, cents. */
  readonly sessionCents: number;
  /** What keeping one unit for a week costs unless the item says otherwise, cents: it only breaks ties. */
  readonly keepingCentsPerUnitWeek: number;
  /** What one unit past its best quality costs for each week it stays, cents. */
  readonly olderCentsPerUnitWeek: number;
  /** A change to a near week has to be worth this much for each batch moved, cents. */
  readonly changeCentsPerBatch: number;
}

/** Judgement, no published source: small against any jar's worth, large enough to decide between equal plans. */
export const householdRules: PlanningRules = {
  shortage: 'priced',
  pastBestQuality: 'priced',
  sessionCents: 40,
  keepingCentsPerUnitWeek: 0.05,
  olderCentsPerUnitWeek: 4,
  changeCentsPerBatch: 1000,
};

/** Rules under which published lot-sizing instances mean what their authors meant. */
export const lotSizingRules: PlanningRules = {
  shortage: 'never',
  pastBestQuality: 'never',
  sessionCents: 0,
  keepingCentsPerUnitWeek: 0,
  olderCentsPerUnitWeek: 0,
  changeCentsPerBatch: 0,
};

/** Weeks from now in which an earlier plan is not changed lightly. */
export const steadyWeeks = 4;

/** Weeks from now in which buying is planned week by week; further ahead weeks of it are joined. */
export const nearBuyingWeeks = 8;
