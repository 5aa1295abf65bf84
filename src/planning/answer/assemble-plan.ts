import { asCents, type Cents, sumCents } from '../../../shared/money.ts';
import { addDays, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { cell, entry, noneBeyond, orNone } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets, RecipeInSets } from '../model/sets.ts';
import type {
  GaveWay,
  Plan,
  PlannedItemYear,
  PlannedLeftOver,
  PlannedMaterialMove,
  PlannedPurchase,
  PlannedSession,
  PlannedStageWork,
  PlannedWeek,
} from '../plan.ts';
import type { PlanDecision } from '../solving/decision.ts';
import { jarsAsidePerBatch, loadsPerBatch, minutesInWeek } from '../year/recipe-time.ts';
import { stageWeeks } from '../year/stage-weeks.ts';
import { gardenWishes, groupWishes, itemWishes } from './gave-way.ts';
import { type PlanPath, planPaths } from './plan-path.ts';

/** What a solve proved, beside the plan itself. */
export type PlanProof = Pick<Plan, 'objective' | 'bound' | 'gap' | 'solveSeconds' | 'packRounding' | 'rungs'>;

/** How long an item lasts under a plan, as the projection knows it. */
export type LastingUnderPlan = Pick<PlannedItemYear, 'runOutWeek' | 'chanceOfLasting'>;
export type OutlookOf = (path: PlanPath) => LastingUnderPlan;

/**
 * A decision written out as a plan: every hour, load and cent worked out from whole batches, packs and prices, so that
 * whoever adds up the printed plan gets the same.
 */
export function assemblePlan(
  sets: PlanningSets,
  parameters: PlanningParameters,
  decision: PlanDecision,
  proof: PlanProof,
  outlookOf: OutlookOf = (path) => expectedOutlook(sets, path),
): { readonly plan: Plan; readonly paths: readonly PlanPath[] } {
  const paths = planPaths(sets, decision);
  const weeks = plannedWeeks(sets, decision);
  const plan: Plan = {
    asOf: sets.year.asOf,
    horizonWeeks: sets.weekCount,
    ...proof,
    weeks,
    items: sets.items.map((item, at) => ({
      item: item.id,
      yearlyTarget: item.yearlyTarget,
      openingStock: item.openingLots.reduce(
        (sum, { units }) => sum + units,
        orNone(item.emergency?.standing),
      ),
      ...outlookOf(entry(paths, at, 'paths')),
    })),
    gaveWay: [
      ...overdrafts(weeks),
      ...unkeptPins(sets, decision),
      ...unloadedBatches(sets, decision),
      ...gardenWishes(sets, parameters, decision),
      ...groupWishes(sets, paths),
      ...itemWishes(sets, parameters, paths),
    ],
  };
  return { plan, paths };
}

/** What is never missed under a plan. */
export const neverRunsOut: LastingUnderPlan = {
  runOutWeek: { p10: null, p50: null, p90: null },
  chanceOfLasting: 1,
};

/** Run-out when use comes exactly as expected: one week for all three, and a chance of nought or one. */
function expectedOutlook({ year }: PlanningSets, path: PlanPath): LastingUnderPlan {
  const at = path.missedByWeek.findIndex((units) => units > 0.01);
  if (at < 0) return neverRunsOut;
  const week = entry(year.weeks, at, 'weeks');
  return { runOutWeek: { p10: week, p50: week, p90: week }, chanceOfLasting: 0 };
}

function plannedWeeks(sets: PlanningSets, decision: PlanDecision): PlannedWeek[] {
  let fund: number = sets.year.fund.opening;
  return sets.year.weeks.map((week, at) => {
    const sessions = plannedSessions(sets, decision, at);
    const stageWork = plannedStageWork(sets, decision, at);
    const purchases = plannedPurchases(sets, decision, at);
    const materials = materialMoves(sets, decision, at);
    const leftOver = gardenLeftOver(sets, decision, at);
    const kitchenSessions = entry(decision.canning.sessionsByWeek, at, 'sessionsByWeek');
    const spend = sumCents(purchases.map(({ cost }) => cost));
    fund += entry(sets.year.fund.setAsideByWeek, at, 'setAsideByWeek') - spend;
    return {
      week,
      ...(at === 0 ? { from: sets.year.asOf } : {}),
      sessions,
      ...(stageWork.length > 0 ? { stageWork } : {}),
      purchases,
      materials,
      ...(leftOver.length > 0 ? { leftOver } : {}),
      kitchenSessions,
      kitchenMinutes:
        kitchenSessions * sets.year.time.setUpMinutes +
        sessions.reduce((sum, { handsOnMinutes }) => sum + handsOnMinutes, 0) +
        stageWork.reduce((sum, { minutes }) => sum + minutes, 0),
      spend,
      fundAfter: asCents(fund),
    };
  });
}

function plannedSessions(
  { recipes, year }: PlanningSets,
  { canning }: PlanDecision,
  week: number,
): PlannedSession[] {
  const taken = new Set(
    recipes.flatMap(({ uses }, at) =>
      cell(canning.batches, at, week, 'batches') > 0 ? uses.map(({ materialId }) => materialId) : [],
    ),
  );
  return recipes.flatMap((recipe, at): PlannedSession[] => {
    const batches = cell(canning.batches, at, week, 'batches');
    if (batches <= 0) return [];
    return [
      {
        recipe: recipe.id,
        batches,
        jars:
          recipe.jarKind === null ? [] : [{ kind: recipe.jarKind, count: batches * recipe.yieldHighJars }],
        units: batches * recipe.yieldLowUnits,
        handsOnMinutes: batches * minutesInWeek(recipe, 0),
        canner: recipe.processing?.cannerId ?? null,
        loads: batches * loadsPerBatch(recipe),
        ...(jarsAsidePerBatch(recipe) === 0 ? {} : { jarsAside: batches * jarsAsidePerBatch(recipe) }),
        ...beginning(recipe, year.weeks, week),
        ...(recipe.uses.length > 0 || recipe.gives.some(({ materialId }) => taken.has(materialId))
          ? { sharesByProduct: true as const }
          : {}),
      },
    ];
  });
}

/** When batches loaded in a week are begun, or that they are. */
function beginning(
  { stages, begun }: RecipeInSets,
  weeks: readonly WeekKey[],
  week: number,
): Pick<PlannedSession, 'begin' | 'begun'> {
  if (begun !== undefined) return { begun: { id: begun.id, on: begun.begunOn } };
  if (stages === undefined) return {};
  const begunIn = entry(weeks, week - stages.weeks, 'weeks');
  return { begin: { week: begunIn, on: addDays(mondayOf(begunIn), stages.daysFromMonday) } };
}

function plannedStageWork(
  { recipes, year }: PlanningSets,
  { canning }: PlanDecision,
  week: number,
): PlannedStageWork[] {
  return recipes.flatMap((recipe, at) =>
    Array.from({ length: stageWeeks(recipe) }, (_, before) => before + 1).flatMap(
      (before): PlannedStageWork[] => {
        const batches = noneBeyond(entry(canning.batches, at, 'batches'), week + before);
        const minutes = batches * minutesInWeek(recipe, before);
        const loadWeek = year.weeks[week + before];
        return minutes > 0 && loadWeek !== undefined
          ? [{ recipe: recipe.id, batches, loadWeek, minutes }]
          : [];
      },
    ),
  );
}

function plannedPurchases(sets: PlanningSets, { buying }: PlanDecision, week: number): PlannedPurchase[] {
  const { year, items, sources } = sets;
  const packed = (
    kind: PlannedPurchase['kind'],
    what: string,
    unit: string,
    pack: { readonly id: string; readonly quantity: number; readonly price: Cents },
    count: number,
  ): PlannedPurchase[] =>
    count <= 0
      ? []
      : [
          {
            what,
            kind,
            quantity: count * pack.quantity,
            unit,
            packs: { id: pack.id, count },
            cost: asCents(count * pack.price),
          },
        ];
  return [
    ...items.flatMap((item, at) =>
      item.packs.flatMap((pack, packAt) =>
        packed(
          'item',
          item.id,
          item.jarKind === null ? 'unit' : 'jar',
          { id: pack.id, quantity: pack.units, price: entry(pack.priceByWeek, week, 'priceByWeek') },
          cell(entry(buying.packs, at, 'packs'), packAt, week, 'packs'),
        ),
      ),
    ),
    ...sources.flatMap((source, at): PlannedPurchase[] => {
      const lb = cell(buying.produceLb, at, week, 'produceLb');
      const cost = asCents(lb * entry(source.priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'));
      return lb <= 0 || source.isAtHand === true
        ? []
        : [{ what: source.id, kind: 'produce', quantity: lb, unit: 'lb', packs: null, cost }];
    }),
    ...year.supplies.flatMap((supply, at) =>
      packed(
        'supply',
        supply.id,
        supply.unit,
        { id: supply.id, quantity: supply.packQuantity, price: supply.packPrice },
        cell(buying.supplyPacks, at, week, 'supplyPacks'),
      ),
    ),
    ...year.jars.flatMap((holding, at) =>
      packed(
        'jars',
        holding.kind,
        'jar',
        { id: holding.kind, quantity: holding.pack, price: holding.packPrice },
        cell(buying.jarPacks, at, week, 'jarPacks'),
      ),
    ),
    ...year.lids.flatMap((holding, at) =>
      packed(
        'lids',
        holding.mouth,
        'lid',
        { id: holding.mouth, quantity: holding.box, price: holding.boxPrice },
        cell(buying.lidBoxes, at, week, 'lidBoxes'),
      ),
    ),
  ];
}

function materialMoves(sets: PlanningSets, { buying }: PlanDecision, week: number): PlannedMaterialMove[] {
  const { freeze, thaw, waiting, frozen, lost } = buying.materials;
  return sets.rawMaterials.flatMap((rawMaterial, at): PlannedMaterialMove[] => {
    const move = {
      what: rawMaterial.key,
      unit: sets.year.materials.find(({ id }) => id === rawMaterial.key)?.unit ?? 'lb',
      freeze: cell(freeze, at, week, 'freeze'),
      thaw: cell(thaw, at, week, 'thaw'),
      waiting: cell(waiting, at, week, 'waiting'),
      frozen: cell(frozen, at, week, 'frozen'),
      lost: cell(lost, at, week, 'lost'),
    };
    const isQuiet = move.freeze + move.thaw + move.waiting + move.frozen + move.lost < 0.001;
    return isQuiet ? [] : [move];
  });
}

/** Below this a crop is eaten in passing, lb. Judged, no source. */
const worthGivingAwayLb = 0.5;

function gardenLeftOver(
  { sources }: PlanningSets,
  { buying }: PlanDecision,
  week: number,
): PlannedLeftOver[] {
  return sources.flatMap(({ id, kind, lbByWeek }, at): PlannedLeftOver[] => {
    const lb = entry(lbByWeek, week, 'lbByWeek') - cell(buying.produceLb, at, week, 'produceLb');
    return kind === 'garden' && lb >= worthGivingAwayLb
      ? [{ source: id, lb: Math.round(lb * 100) / 100 }]
      : [];
  });
}

/** Weeks in which whole packs and bills rounded to cents cost more than the fund held. */
function overdrafts(weeks: readonly PlannedWeek[]): GaveWay[] {
  return weeks.flatMap(({ week, fundAfter }): GaveWay[] =>
    fundAfter < 0 ? [{ rung: 'cash and hours', what: week, amount: -fundAfter, unit: 'cents' }] : [],
  );
}

function unkeptPins(sets: PlanningSets, { canning }: PlanDecision): GaveWay[] {
  return sets.year.kept.flatMap((kept): GaveWay[] => {
    const week = sets.weekIndex.get(kept.week);
    if (kept.decision !== 'pinned' || week === undefined) return [];
    const planned = (sets.recipesById.get(kept.recipeId) ?? []).reduce(
      (sum, recipe) => sum + cell(canning.batches, recipe, week, 'batches'),
      0,
    );
    const missing = kept.batches - planned;
    return missing > 0
      ? [
          {
            rung: 'cash and hours',
            what: `${kept.recipeId} in ${kept.week}`,
            amount: missing,
            unit: 'batches',
            batches: { recipe: kept.recipeId, pinnedIn: kept.week, begunOn: null },
          },
        ]
      : [];
  });
}

/** Batches begun already for which no week has a canner load while their stages allow it. */
function unloadedBatches({ recipes }: PlanningSets, { canning }: PlanDecision): GaveWay[] {
  return recipes.flatMap(({ id, begun }, at): GaveWay[] => {
    if (begun === undefined) return [];
    const planned = entry(canning.batches, at, 'batches').reduce((sum, batches) => sum + batches, 0);
    const missing = begun.batches - planned;
    return missing > 0
      ? [
          {
            rung: 'cash and hours',
            what: `${id} begun ${begun.begunOn}`,
            amount: missing,
            unit: 'batches',
            batches: { recipe: id, pinnedIn: null, begunOn: begun.begunOn },
          },
        ]
      : [];
  });
}
