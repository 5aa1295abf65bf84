import type { RecipeId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { addDays, addWeeks, type WeekKey, weeksBetween } from '../../../shared/week.ts';
import type { BatchDecision } from '../../household/decision.ts';
import { isSameLine, type LinePurchase } from '../../household/purchase.ts';
import { entry, orNone } from '../lookup.ts';
import type { Plan, PlannedPurchase, PlannedSession, PlannedWeek } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { StoredPlan } from '../stored-plan.ts';
import { isLimited } from '../year/fund-ahead.ts';
import type { PlanPath } from './plan-path.ts';

/** What a kept plan says, whenever and by whom it was made. */
export type PlanContent = Pick<StoredPlan, 'plan' | 'paths' | 'year'>;

/**
 * What is left of a plan once what was written down, bought, skipped, ruled out or moved since it was made is taken out of it:
 * batches, the hours they take, what was to be picked and bought for them alone, and the jars they were to bring. Batches that
 * were moved stand in their new week with what is still to be bought for them. What the plan knew when it was made is in it
 * already and taken out of nothing. Sessions are the household's; the proof of the plan stays that of the whole.
 */
export function standingPlan<Kept extends PlanContent>(
  kept: Kept,
  decisions: readonly BatchDecision[],
  purchases: readonly LinePurchase[] = [],
): Kept {
  const known = new Set(kept.year.purchasesKnown ?? []);
  const since = purchases.filter(({ id }) => !known.has(id));
  const left = kept.plan.weeks.map((week) =>
    standingWeek(withoutBought(week, since), kept.year, decisions, fetchedLb(week, kept.year, since)),
  );
  const unbought = kept.plan.weeks.map((week) => withoutBought(week, since));
  const weeks = left.map((week) => withMoved(week, { left, unbought }, kept.year, decisions));
  if (weeks.every((week, at) => week === kept.plan.weeks[at])) return kept;
  return { ...kept, plan: { ...kept.plan, weeks }, paths: standingPaths(kept, weeks) };
}

/**
 * The plan with what the season fund holds as it stands now: another price, an amount bought beside the list or a fund told anew since
 * the plan was made count from today on. After each week: what is in it this week, with the shares that come until then, less what is
 * still to be bought. Without a fund, then or now, nothing changes.
 */
export function withFundNow(standing: StoredPlan, now: Pick<PlanningYear, 'weeks' | 'fund'>): StoredPlan {
  const { plan, year } = standing;
  if (!isLimited(year.fund) || !isLimited(now.fund)) return standing;
  let fund: number = now.fund.opening;
  const weeks = plan.weeks.map((week) => {
    const at = now.weeks.indexOf(week.week);
    if (at === -1) return week;
    fund += orNone(now.fund.setAsideByWeek[at]) - week.spend;
    return week.fundAfter === fund ? week : { ...week, fundAfter: asCents(fund) };
  });
  return weeks.every((week, at) => week === plan.weeks[at])
    ? standing
    : { ...standing, plan: { ...plan, weeks } };
}

/** The plan without what was ruled out or moved; what was done is in it, for the days of batches take that off by what was filled. */
export const planAtTheStove = (kept: PlanContent, decisions: readonly BatchDecision[]): Plan =>
  standingPlan(
    kept,
    decisions.filter(({ decision }) => decision !== 'done'),
  ).plan;

/** A week without the lines that were bought or skipped; of a line whose rest is still asked for, the rest in whole packs. */
function withoutBought(week: PlannedWeek, since: readonly LinePurchase[]): PlannedWeek {
  const ofWeek = since.filter((one) => one.week === week.week);
  if (ofWeek.length === 0) return week;
  const purchases = week.purchases.flatMap((purchase): readonly PlannedPurchase[] => {
    const said = ofWeek.filter((one) =>
      isSameLine(one, { week: week.week, ...purchase, pack: purchase.packs?.id ?? null }),
    );
    if (said.some(({ settles }) => settles)) return [];
    const left = purchase.quantity - said.reduce((sum, { quantity }) => sum + quantity, 0);
    return said.length === 0 ? [purchase] : restOf(purchase, left);
  });
  return { ...week, purchases, spend: spendOf(purchases) };
}

/** Less than this of a line is nothing to go shopping for, in its unit. */
const leastRest = 0.05;

function restOf(purchase: PlannedPurchase, left: number): readonly PlannedPurchase[] {
  const { packs, quantity } = purchase;
  if (left < leastRest) return [];
  if (packs === null) {
    const cost = asCents(Math.round((purchase.cost * left) / quantity));
    return [{ ...purchase, quantity: left, cost }];
  }
  const count = Math.ceil((packs.count * left) / quantity - 1e-9);
  const share = count / packs.count;
  return [
    {
      ...purchase,
      quantity: quantity * share,
      packs: { ...packs, count },
      cost: asCents(Math.round(purchase.cost * share)),
    },
  ];
}

const spendOf = (purchases: readonly PlannedPurchase[]) =>
  asCents(purchases.reduce((sum, { cost }) => sum + cost, 0));

/** Pounds of each crop at hand for a week's batches: fetched since the plan was made, or before it for its first week. */
function fetchedLb(
  week: PlannedWeek,
  { sources, weeks }: PlanningYear,
  since: readonly LinePurchase[],
): ReadonlyMap<string, number> {
  const lbByCrop = new Map<string, number>();
  const add = (crop: string, lb: number) => lbByCrop.set(crop, orNone(lbByCrop.get(crop)) + lb);
  for (const one of since)
    if (one.week === week.week && one.kind === 'produce') {
      const crop = sources.find(({ id }) => id === one.what)?.crop;
      if (crop !== undefined) add(crop, one.quantity);
    }
  for (const source of sources)
    if (source.isAtHand === true && week.week === weeks[0]) add(source.crop, orNone(source.lbByWeek[0]));
  return lbByCrop;
}

/**
 * Batches that were moved into a week since the plan was made: ruled out in another and pinned here. They stand here as they stood
 * there, with what was to be fetched for them and no week asks for any more.
 */
function withMoved(
  week: PlannedWeek,
  { left, unbought }: { readonly left: readonly PlannedWeek[]; readonly unbought: readonly PlannedWeek[] },
  year: PlanningYear,
  decisions: readonly BatchDecision[],
): PlannedWeek {
  const pinned = decisions.filter(
    (one) =>
      one.week === week.week &&
      one.decision === 'pinned' &&
      !(year.kept ?? []).some(
        (then) => then.decision === 'pinned' && then.week === one.week && then.recipeId === one.recipeId,
      ),
  );
  let standing = week;
  for (const { recipeId } of pinned)
    standing = withMovedRecipe(standing, recipeId, { left, unbought }, year, decisions);
  return standing;
}

function withMovedRecipe(
  week: PlannedWeek,
  recipeId: RecipeId,
  { left, unbought }: { readonly left: readonly PlannedWeek[]; readonly unbought: readonly PlannedWeek[] },
  year: PlanningYear,
  decisions: readonly BatchDecision[],
): PlannedWeek {
  const stood = unbought
    .filter((one) => batchesOut({ year }, decisions, recipeId, one.week) === Number.POSITIVE_INFINITY)
    .flatMap((from) => from.sessions.map((moved) => ({ from, moved })))
    .find(({ moved }) => moved.recipe === recipeId);
  const stands = week.sessions.some(({ recipe }) => recipe === recipeId);
  if (stood === undefined || stands) return week;
  const { from, moved } = stood;
  const still = left.filter((one) => one.week === from.week).flatMap(({ purchases }) => purchases);
  const brought = from.purchases.filter(
    (one) =>
      isFor(recipeId, one, year) &&
      ![...still, ...week.purchases].some((other) => other.kind === one.kind && other.what === one.what),
  );
  const purchases = [...week.purchases, ...brought];
  return {
    ...week,
    sessions: [...week.sessions, begunLater(moved, weeksBetween(from.week, week.week))],
    purchases,
    kitchenSessions: Math.max(1, week.kitchenSessions),
    kitchenMinutes: (week.kitchenMinutes || year.time.setUpMinutes) + moved.handsOnMinutes,
    spend: spendOf(purchases),
  };
}

const begunLater = ({ begin, ...session }: PlannedSession, weeks: number): PlannedSession =>
  begin === undefined
    ? session
    : {
        ...session,
        begin: { week: addWeeks(begin.week, weeks), on: addDays(begin.on, 7 * weeks) },
      };

/** Whether a line is bought for a recipe: one of its crops, supplies, its jar or its lid. */
const isFor = (id: RecipeId, { kind, what }: PlannedPurchase, year: PlanningYear): boolean => {
  const recipe = year.recipes.find((one) => one.id === id);
  switch (kind) {
    case 'item':
      return false;
    case 'produce':
      return recipe?.produce.some(({ crop }) => crop === cropOf(what, year)) ?? false;
    case 'supply':
      return recipe?.supplies.some(({ supplyId }) => supplyId === what) ?? false;
    case 'jars':
      return recipe?.jarKind === what;
    case 'lids':
      return recipe?.jarKind?.endsWith(`/${what}`) ?? false;
  }
};

const cropOf = (what: string, { sources }: PlanningYear): string | null =>
  sources.find(({ id }) => id === what)?.crop ?? null;

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
  atHand: ReadonlyMap<string, number>,
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
  const purchases = standingPurchases(week, sessions, year, atHand);
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
    spend: spendOf(purchases),
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
  atHand: ReadonlyMap<string, number>,
): readonly PlannedPurchase[] {
  const recipeOf = (id: RecipeId) => year.recipes.find((recipe) => recipe.id === id);
  const batchesLeft = (id: RecipeId) =>
    left.filter(({ recipe }) => recipe === id).reduce((sum, { batches }) => sum + batches, 0);
  const ids = [...new Set(week.sessions.map(({ recipe }) => recipe))];
  const gone = ids.map((id) => ({
    id,
    batches:
      week.sessions.filter(({ recipe }) => recipe === id).reduce((sum, { batches }) => sum + batches, 0) -
      batchesLeft(id),
  }));
  // What is at hand goes first.
  const usedLb = (crop: string) =>
    gone.reduce(
      (sum, { id, batches }) =>
        sum +
        batches *
          (recipeOf(id)?.produce ?? []).reduce((lb, part) => (part.crop === crop ? lb + part.lb : lb), 0),
      0,
    );
  const fromList = (crop: string) => Math.max(0, usedLb(crop) - orNone(atHand.get(crop)));
  const lbOf = (crop: string) =>
    week.purchases
      .filter(({ kind, what }) => kind === 'produce' && cropOf(what, year) === crop)
      .reduce((sum, { quantity }) => sum + quantity, 0);
  const takes = (id: RecipeId, purchase: PlannedPurchase) => isFor(id, purchase, year);
  return week.purchases.flatMap((purchase): PlannedPurchase[] => {
    if (purchase.kind !== 'produce') {
      const isSpent =
        gone.some(({ id }) => takes(id, purchase)) && !left.some(({ recipe }) => takes(recipe, purchase));
      return isSpent ? [] : [purchase];
    }
    const crop = cropOf(purchase.what, year);
    if (crop === null || fromList(crop) === 0) return [purchase];
    const share = Math.max(0, 1 - fromList(crop) / Math.max(lbOf(crop), 1e-9));
    const quantity = purchase.quantity * share;
    return quantity < leastLb
      ? []
      : [{ ...purchase, quantity, cost: asCents(Math.round(purchase.cost * share)) }];
  });
}

/**
 * What was written down or bought stands on the shelf already, what was ruled out or skipped does not come: none is counted as still
 * coming. What was moved comes with the week it stands in now.
 */
function standingPaths(
  { plan, paths, year }: PlanContent,
  weeks: readonly PlannedWeek[],
): readonly PlanPath[] {
  return paths.map((path) => {
    const madeByWeek = [...path.madeByWeek];
    const readyByWeek = [...path.readyByWeek];
    const boughtByWeek = [...path.boughtByWeek];
    plan.weeks.forEach((before, at) => {
      const after = entry(weeks, at, 'weeks');
      const bought = ({ purchases }: PlannedWeek) =>
        purchases
          .filter(({ kind, what }) => kind === 'item' && what === path.item)
          .reduce((sum, { quantity }) => sum + quantity, 0);
      const onTheShelf = bought(before) - bought(after);
      boughtByWeek[at] = Math.max(0, orNone(boughtByWeek[at]) - onTheShelf);
      for (const recipe of year.recipes.filter(({ itemId }) => itemId === path.item)) {
        const units = ({ sessions }: PlannedWeek) =>
          sessions
            .filter((session) => session.recipe === recipe.id)
            .reduce((sum, session) => sum + session.units, 0);
        if (year.recipes.findIndex(({ id }) => id === recipe.id) !== year.recipes.indexOf(recipe)) continue;
        const gone = units(before) - units(after);
        const ready = at + recipe.readyAfterWeeks;
        madeByWeek[at] = Math.max(0, orNone(madeByWeek[at]) - gone);
        if (readyByWeek[ready] !== undefined) readyByWeek[ready] = Math.max(0, readyByWeek[ready] - gone);
      }
    });
    return { ...path, madeByWeek, readyByWeek, boughtByWeek };
  });
}
