import type { RecipeId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import type { WeekKey } from '../../../shared/week.ts';
import type { BatchDecision } from '../../household/decision.ts';
import { orNone } from '../lookup.ts';
import type { PlannedPurchase, PlannedSession, PlannedWeek } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { StoredPlan } from '../stored-plan.ts';
import type { PlanPath } from './plan-path.ts';

/**
 * What is left of a plan once what was written down, ruled out or moved since it was made is taken out of it: batches, the
 * hours they take, what was to be picked and bought for them alone, and the jars they were to bring. What the plan knew when
 * it was made is in it already and taken out of nothing. Sessions are the household's; the proof of the plan stays that of the whole.
 */
export function standingPlan(kept: StoredPlan, decisions: readonly BatchDecision[]): StoredPlan {
  const weeks = kept.plan.weeks.map((week) => standingWeek(week, kept.year, decisions));
  if (weeks.every((week, at) => week === kept.plan.weeks[at])) return kept;
  return { ...kept, plan: { ...kept.plan, weeks }, paths: standingPaths(kept, weeks) };
}

/** Batches of a recipe in a week that were written down since the plan looked; all of them where it was ruled out since. */
const batchesOut = (
  { year }: Pick<StoredPlan, 'year'>,
  decisions: readonly BatchDecision[],
  recipe: RecipeId,
  week: WeekKey,
): number => {
  const now = decisions.find((one) => one.recipeId === recipe && one.week === week);
  // Plans of early programs kept no decisions with their year.
  const then = (year.kept ?? []).find((one) => one.recipeId === recipe && one.week === week);
  if (now?.decision === 'ruled-out') return then?.decision === 'ruled-out' ? 0 : Number.POSITIVE_INFINITY;
  if (now?.decision !== 'done') return 0;
  return Math.max(0, now.batches - (then?.decision === 'done' ? then.batches : 0));
};

function standingWeek(
  week: PlannedWeek,
  year: PlanningYear,
  decisions: readonly BatchDecision[],
): PlannedWeek {
  const out = new Map<RecipeId, number>();
  const sessions = week.sessions.flatMap((session): PlannedSession[] => {
    const left = out.get(session.recipe) ?? batchesOut({ year }, decisions, session.recipe, week.week);
    const gone = Math.min(session.batches, left);
    out.set(session.recipe, left - gone);
    return gone >= session.batches
      ? []
      : [gone === 0 ? session : withBatches(session, session.batches - gone)];
  });
  if (sessions.length === week.sessions.length && sessions.every((one, at) => one === week.sessions[at]))
    return week;
  const purchases = standingPurchases(week, sessions, year);
  const minutes = (of: readonly PlannedSession[]) => of.reduce((sum, one) => sum + one.handsOnMinutes, 0);
  return {
    ...week,
    sessions,
    purchases,
    kitchenSessions: sessions.length === 0 ? 0 : week.kitchenSessions,
    kitchenMinutes:
      sessions.length === 0
        ? 0
        : Math.max(0, week.kitchenMinutes - minutes(week.sessions) + minutes(sessions)),
    spend: asCents(purchases.reduce((sum, { cost }) => sum + cost, 0)),
  };
}

const withBatches = (session: PlannedSession, batches: number): PlannedSession => {
  const share = batches / session.batches;
  return {
    ...session,
    batches,
    jars: session.jars.map(({ kind, count }) => ({ kind, count: Math.ceil(count * share - 1e-9) })),
    units: session.units * share,
    handsOnMinutes: session.handsOnMinutes * share,
    loads: Math.ceil(session.loads * share - 1e-9),
  };
};

/** Less than this of a crop is nothing to fetch, lb. */
const leastLb = 0.05;

/** Produce only for what is left to do; jars, lids and supplies only where something left takes them, or nothing done did. */
function standingPurchases(
  week: PlannedWeek,
  left: readonly PlannedSession[],
  year: PlanningYear,
): readonly PlannedPurchase[] {
  const recipeOf = (id: RecipeId) => year.recipes.find((recipe) => recipe.id === id);
  const batchesLeft = (id: RecipeId) =>
    left.filter(({ recipe }) => recipe === id).reduce((sum, { batches }) => sum + batches, 0);
  const ids = [...new Set(week.sessions.map(({ recipe }) => recipe))];
  const gone = ids
    .map((id) => ({
      id,
      batches:
        week.sessions.filter(({ recipe }) => recipe === id).reduce((sum, { batches }) => sum + batches, 0) -
        batchesLeft(id),
    }))
    .filter(({ batches }) => batches > 0);
  const usedLb = (crop: string) =>
    gone.reduce(
      (sum, { id, batches }) =>
        sum +
        batches *
          (recipeOf(id)?.produce ?? []).reduce((lb, part) => (part.crop === crop ? lb + part.lb : lb), 0),
      0,
    );
  const cropOf = (what: string) => year.sources.find(({ id }) => id === what)?.crop ?? null;
  const lbOf = (crop: string) =>
    week.purchases
      .filter(({ kind, what }) => kind === 'produce' && cropOf(what) === crop)
      .reduce((sum, { quantity }) => sum + quantity, 0);
  const takes = (id: RecipeId, { kind, what }: PlannedPurchase): boolean => {
    const recipe = recipeOf(id);
    if (kind === 'supply') return recipe?.supplies.some(({ supplyId }) => supplyId === what) ?? false;
    if (kind === 'jars') return recipe?.jarKind === what;
    return recipe?.jarKind?.endsWith(`/${what}`) ?? false;
  };
  return week.purchases.flatMap((purchase): PlannedPurchase[] => {
    if (purchase.kind === 'item') return [purchase];
    if (purchase.kind !== 'produce') {
      const isSpent =
        gone.some(({ id }) => takes(id, purchase)) && !left.some(({ recipe }) => takes(recipe, purchase));
      return isSpent ? [] : [purchase];
    }
    const crop = cropOf(purchase.what);
    if (crop === null || usedLb(crop) === 0) return [purchase];
    const share = Math.max(0, 1 - usedLb(crop) / Math.max(lbOf(crop), 1e-9));
    const quantity = purchase.quantity * share;
    return quantity < leastLb
      ? []
      : [{ ...purchase, quantity, cost: asCents(Math.round(purchase.cost * share)) }];
  });
}

/** What was written down stands on the shelf already, what was ruled out does not come: neither is counted as still coming. */
function standingPaths(
  { plan, paths, year }: StoredPlan,
  weeks: readonly PlannedWeek[],
): readonly PlanPath[] {
  return paths.map((path) => {
    const madeByWeek = [...path.madeByWeek];
    const readyByWeek = [...path.readyByWeek];
    plan.weeks.forEach((before, at) => {
      for (const recipe of year.recipes.filter(({ itemId }) => itemId === path.item)) {
        const units = (week: PlannedWeek | undefined) =>
          (week?.sessions ?? [])
            .filter((session) => session.recipe === recipe.id)
            .reduce((sum, session) => sum + session.units, 0);
        if (year.recipes.findIndex(({ id }) => id === recipe.id) !== year.recipes.indexOf(recipe)) continue;
        const gone = units(before) - units(weeks[at]);
        if (gone <= 0) continue;
        const ready = at + recipe.readyAfterWeeks;
        madeByWeek[at] = Math.max(0, orNone(madeByWeek[at]) - gone);
        if (readyByWeek[ready] !== undefined) readyByWeek[ready] = Math.max(0, readyByWeek[ready] - gone);
      }
    });
    return { ...path, madeByWeek, readyByWeek };
  });
}
