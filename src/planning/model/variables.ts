import type { RecipeId } from '../../../shared/ids.ts';
import { mouthOf } from '../../../shared/jar.ts';
import type { PurchaseKind } from '../../household/purchase.ts';
import { cell, entry, found, noneBeyond, orNone } from '../lookup.ts';
import { type PlannedRecipe, reserveHeld } from '../planning-year.ts';
import type { OpeningShelf } from '../year/opening-shelf.ts';
import { begunInWeek, stageWeeks } from '../year/stage-weeks.ts';
import { lastUseWeek } from '../year/supply-weeks.ts';
import { comingReserveWeeks } from './coming-weeks.ts';
import { heldWithinYear } from './emergency-shelf.ts';
import { firstJarBands } from './first-jars.ts';
import type { ModelWriter } from './model.ts';
import type { PlanningParameters } from './parameters.ts';
import type { PlanningStage } from './planning-stage.ts';
import { needOf, type RawMaterial } from './raw-materials.ts';
import { freshReach, frozenReach } from './reachable-material.ts';
import { type PlanningRules, steadyWeeks } from './rules.ts';
import { type PlanningSets, recipeLabel } from './sets.ts';
import { type Span, type SpansByItem, sumOver } from './spans.ts';

/** A column's index, or null where the model has none because the amount can only be nought. */
export type MaybeColumn = number | null;

/** Batches of a recipe in a near week, against the plan made before. */
export interface PlanChange {
  readonly recipeId: RecipeId;
  readonly week: number;
  readonly plannedBefore: number;
  readonly column: number;
}

/** Columns of the model by what they stand for; each list is indexed as its comment says. */
export interface PlanColumns {
  /** [recipe][week] whole batches. */
  readonly batches: readonly (readonly MaybeColumn[])[];
  /** [recipe] whole batches over the year: redundant, and what lets the solver branch on how much before when. */
  readonly totals: readonly MaybeColumn[];
  /** [recipe][week] 1 where a recipe with a set-up is made. */
  readonly makes: readonly (readonly MaybeColumn[])[];
  /** [item][pack][week] packs bought; at the last week of each span of the item. */
  readonly purchases: readonly (readonly (readonly MaybeColumn[])[])[];
  /** [item][week] units at the week's end; at the last week of each span of the item. */
  readonly stock: readonly (readonly MaybeColumn[])[];
  /** [item][week] of these, past best quality. */
  readonly older: readonly (readonly MaybeColumn[])[];
  /** [item][week] units of use missed. */
  readonly shortage: readonly (readonly MaybeColumn[])[];
  /** [item] units missing from the reserve when it is lowest within the year, beyond what its end misses. */
  readonly reserveShortage: readonly MaybeColumn[];
  /** [item] units missing from the reserve of what is bought when it is lowest in the coming weeks. */
  readonly comingReserveShortage: readonly MaybeColumn[];
  /** [item] units missing from the reserve that the last week hands over. */
  readonly reserveAtEndShortage: readonly MaybeColumn[];
  /** [item] units missing from what the last week hands over. */
  readonly yearEndShortage: readonly MaybeColumn[];
  /** [item][band of first jars] units missing of them. */
  readonly firstJarsMissing: readonly (readonly MaybeColumn[])[];
  /** [source][week] lb taken. */
  readonly produce: readonly (readonly MaybeColumn[])[];
  /** [rawMaterial][week] unfrozen raw material at the week's end. */
  readonly waiting: readonly (readonly MaybeColumn[])[];
  /** [source][week] of these, what came from the source; only where a crop has several sources. */
  readonly sourceWaiting: readonly (readonly MaybeColumn[])[];
  /** [rawMaterial][week] put into the freezer in the week. */
  readonly frozenIn: readonly (readonly MaybeColumn[])[];
  /** [rawMaterial][week] in the freezer at the week's end. */
  readonly frozen: readonly (readonly MaybeColumn[])[];
  /** [rawMaterial][week] taken out of the freezer and used in the week. */
  readonly thawed: readonly (readonly MaybeColumn[])[];
  /** [rawMaterial][week] by-product not used in time. */
  readonly lost: readonly (readonly MaybeColumn[])[];
  /** [week] quarts by which items that live in the freezer exceed it. */
  readonly freezerOver: readonly MaybeColumn[];
  /** [garden crop] lb the year could have used and the plan leaves. */
  readonly gardenLost: readonly MaybeColumn[];
  /** [item] units missing from the family minimum. */
  readonly familyShortage: readonly MaybeColumn[];
  /** [group] group units missing from the total. */
  readonly groupShortage: readonly number[];
  /** [group][member] 1 where the year has at least one group unit of the kind. */
  readonly kinds: readonly (readonly MaybeColumn[])[];
  /** [group] kinds missing. */
  readonly kindsMissing: readonly MaybeColumn[];
  /** [group][member] group units over the largest share. */
  readonly shareOver: readonly (readonly MaybeColumn[])[];
  /** Near batches an earlier plan holds or could hold, and how far this plan departs. */
  readonly changes: readonly PlanChange[];
  /** [supply][week] packs bought; on hand from the next week on (in week 0 at once). */
  readonly supplyBought: readonly (readonly MaybeColumn[])[];
  /** [supply][week] quantity left at the week's end. */
  readonly supplyLeft: readonly (readonly MaybeColumn[])[];
  /** [jar kind][week] packs bought. */
  readonly jarsBought: readonly (readonly MaybeColumn[])[];
  /** [jar kind][week] empty jars at the week's end. */
  readonly jarsEmpty: readonly (readonly MaybeColumn[])[];
  /** [mouth][week] boxes bought. */
  readonly lidsBought: readonly (readonly MaybeColumn[])[];
  /** [mouth][week] lids at the week's end. */
  readonly lidsLeft: readonly (readonly MaybeColumn[])[];
  /** [week] sessions held. */
  readonly sessions: readonly number[];
  /** [week] cents in the season fund at the week's end. */
  readonly fund: readonly number[];
  /** [week] cents by which whole packs overdraw the fund; stage two only. */
  readonly fundOver: readonly MaybeColumn[];
}

/** Adds every column of the model. */
export function planVariables(
  sets: PlanningSets,
  parameters: PlanningParameters,
  spans: SpansByItem,
  rules: PlanningRules,
  stage: PlanningStage,
  writer: ModelWriter,
): PlanColumns {
  const { year, weekIndexes, items, recipes, sources } = sets;
  const { wholePacks, canning } = stage;
  const weekly = (make: (week: number, key: string) => MaybeColumn): MaybeColumn[] =>
    weekIndexes.map((week) => make(week, entry(year.weeks, week, 'weeks')));
  const always = (make: (week: number, key: string) => number): number[] =>
    weekIndexes.map((week) => make(week, entry(year.weeks, week, 'weeks')));
  const open = (name: string) => writer.column(name, { lower: 0 });
  const packs = (name: string) => writer.column(name, { lower: 0, integer: wholePacks });
  const usedInWeek = (
    mayUse: (recipe: PlannedRecipe) => boolean,
    weeksBefore: (recipe: PlannedRecipe) => number = () => 0,
  ): boolean[] => {
    const users = recipes.flatMap((recipe, at) =>
      mayUse(recipe) ? [{ at, before: weeksBefore(recipe) }] : [],
    );
    return weekIndexes.map((week) =>
      users.some(
        ({ at, before }) => noneBeyond(entry(parameters.mostBatches, at, 'mostBatches'), week + before) > 0,
      ),
    );
  };
  const supplyWeeks = year.supplies.map(({ id }) =>
    usedInWeek(({ supplies }) => supplies.some(({ supplyId }) => supplyId === id), stageWeeks),
  );
  const jarWeeks = year.jars.map(({ kind }) => usedInWeek(({ jarKind }) => jarKind === kind));
  const lidWeeks = year.lids.map(({ mouth }) =>
    usedInWeek(({ jarKind }) => jarKind !== null && mouthOf(jarKind) === mouth),
  );
  const isAway = (week: number): boolean => year.time.awayByWeek?.[week] === true;
  const { skipped = [] } = year;
  const isSkipped = (kind: PurchaseKind, what: string, week: number): boolean =>
    skipped.some((line) => line.kind === kind && line.what === what && line.week === year.weeks[week]);
  const mayBuyIn = (item: string, { from, to }: Span): boolean =>
    weekIndexes.slice(from, to + 1).some((week) => !isAway(week) && !isSkipped('item', item, week));
  // A store that costs the same every week is best bought just before it is used, so only those weeks have a column; before
  // weeks in which nobody can shop, the last one in which somebody can. What spoils is bought in the week of its use.
  const boughtBeforeUse = (
    used: readonly boolean[],
    week: number,
    isClosed: (week: number) => boolean,
    isFresh: boolean,
  ): boolean => {
    if (isClosed(week)) return false;
    if (isFresh) return used[week] === true;
    if (week === 0 && used[0] === true) return true;
    let next = week + 1;
    while (isClosed(next) && used[next] !== true) next += 1;
    return used[next] === true;
  };
  const bought = (
    kind: PurchaseKind,
    usedByStore: readonly boolean[][],
    labels: readonly string[],
    name: string,
  ) =>
    labels.map((label, at) =>
      weekly((week, key) =>
        boughtBeforeUse(
          entry(usedByStore, at, 'usedByStore'),
          week,
          (one) => isAway(one) || isSkipped(kind, label, one),
          kind === 'supply' && entry(year.supplies, at, 'supplies').freshDays !== undefined,
        )
          ? packs(`${name}[${label},${key}]`)
          : null,
      ),
    );
  const left = (usedByStore: readonly boolean[][], labels: readonly string[], name: string) =>
    labels.map((label, at) =>
      weekly((week, key) =>
        week <= entry(usedByStore, at, 'usedByStore').lastIndexOf(true)
          ? open(`${name}[${label},${key}]`)
          : null,
      ),
    );
  const supplyIds = year.supplies.map(({ id }) => id);
  const jarKinds = year.jars.map(({ kind }) => kind);
  const mouths = year.lids.map(({ mouth }) => mouth);

  const isHeldWithin = (item: number): boolean =>
    entry(parameters.reserveWeeks, item, 'reserveWeeks').some((week) => week < sets.weekCount - 1);

  return {
    batches: recipes.map((recipe, at) =>
      weekly((week, key) => {
        const most = cell(parameters.mostBatches, at, week, 'mostBatches');
        if (most <= 0) return null;
        const decided = canning === null ? undefined : cell(canning.batches, at, week, 'batches');
        return writer.column(`batches[${recipeLabel(recipe)},${key}]`, {
          ...decidedOrUpTo(decided, most),
          integer: recipe.setUp === undefined,
        });
      }),
    ),
    totals: recipes.map((recipe, at) => {
      const most = entry(parameters.mostBatches, at, 'mostBatches').reduce(
        (sum, batches) => sum + batches,
        0,
      );
      if (most <= 0 || recipe.setUp !== undefined) return null;
      const decided =
        canning === null
          ? undefined
          : entry(canning.batches, at, 'batches').reduce((sum, batches) => sum + batches, 0);
      return writer.column(`total_batches[${recipeLabel(recipe)}]`, {
        ...decidedOrUpTo(decided, most),
        integer: true,
      });
    }),
    makes: recipes.map((recipe, at) =>
      weekly((week, key) =>
        recipe.setUp === undefined || cell(parameters.mostBatches, at, week, 'mostBatches') <= 0
          ? null
          : writer.column(`makes[${recipeLabel(recipe)},${key}]`, { lower: 0, upper: 1, integer: true }),
      ),
    ),
    purchases: items.map((item, at) =>
      item.packs.map((pack) =>
        weekly((week, key) => {
          const span = cell(spans, at, week, 'spans');
          return span !== null && mayBuyIn(item.id, span)
            ? packs(`purchases[${item.id},${pack.id},${key}]`)
            : null;
        }),
      ),
    ),
    stock: items.map((item, at) =>
      weekly((week, key) =>
        cell(spans, at, week, 'spans') === null ? null : open(`stock[${item.id},${key}]`),
      ),
    ),
    older: items.map((item, at) =>
      weekly((week, key) => {
        const standing = entry(parameters.opening, at, 'opening');
        if (cell(spans, at, week, 'spans') === null) return null;
        const mayBeOlder =
          week >= item.bestQualityWeeks || entry(standing.olderByWeek, week, 'olderByWeek') > 1e-9;
        if (!mayBeOlder) return null;
        return writer.column(`older[${item.id},${key}]`, {
          lower: 0,
          ...(rules.pastBestQuality === 'never'
            ? { upper: 0 }
            : item.neverPastDays === true
              ? { upper: openingPast(standing, week) }
              : {}),
        });
      }),
    ),
    shortage: items.map((item, at) =>
      weekly((week, key) => {
        const span = cell(spans, at, week, 'spans');
        if (span === null || rules.shortage === 'never') return null;
        const use = sumOver(entry(parameters.useByWeek, at, 'useByWeek'), span);
        return use > 1e-9 ? writer.column(`shortage[${item.id},${key}]`, { lower: 0, upper: use }) : null;
      }),
    ),
    reserveShortage: items.map((item, at) =>
      rules.shortage === 'never' || heldWithinYear(item) <= 0 || !isHeldWithin(at)
        ? null
        : open(`reserve_shortage[${item.id}]`),
    ),
    comingReserveShortage: items.map((item, at) =>
      rules.shortage === 'never' ||
      reserveHeld(item) <= 0 ||
      comingReserveWeeks(sets, parameters, at).length === 0
        ? null
        : open(`coming_reserve_shortage[${item.id}]`),
    ),
    reserveAtEndShortage: items.map((item) =>
      rules.shortage === 'never' || reserveHeld(item) <= 0
        ? null
        : open(`reserve_at_end_shortage[${item.id}]`),
    ),
    yearEndShortage: items.map((item) =>
      rules.shortage === 'never' || item.yearEndUnits <= 0 ? null : open(`year_end_shortage[${item.id}]`),
    ),
    firstJarsMissing: items.map(({ id }, at) =>
      firstJarBands.map(({ name }) =>
        rules.shortage === 'never' || entry(parameters.firstJars, at, 'firstJars') === null
          ? null
          : open(`first_jars_missing[${id},${name}]`),
      ),
    ),
    produce: sources.map((source) =>
      weekly((week, key) => {
        const lb = entry(source.lbByWeek, week, 'lbByWeek');
        return lb > 0 && lastUseWeek(source, week) >= week && !isSkipped('produce', source.id, week)
          ? writer.column(`produce[${source.id},${key}]`, { lower: 0, upper: lb })
          : null;
      }),
    ),
    ...rawMaterialColumns(sets, parameters, writer, weekly),
    freezerOver: weekly((_, key) =>
      items.some(({ freezerQuartsPerUnit }) => freezerQuartsPerUnit !== undefined)
        ? open(`freezer_over[${key}]`)
        : null,
    ),
    gardenLost: parameters.gardenCrops.map(({ rawMaterial }) =>
      rules.shortage === 'never'
        ? null
        : open(`garden_lost[${entry(sets.rawMaterials, rawMaterial, 'rawMaterials').key}]`),
    ),
    familyShortage: items.map((item) =>
      rules.shortage === 'never' || item.familyMinimumUnits === null
        ? null
        : open(`family_shortage[${item.id}]`),
    ),
    groupShortage: year.groups.map((group) => open(`group_shortage[${group.id}]`)),
    kinds: year.groups.map((group) =>
      group.members.map(({ itemId }) =>
        group.leastKinds <= 1
          ? null
          : writer.column(`kind[${group.id},${itemId}]`, { lower: 0, upper: 1, integer: true }),
      ),
    ),
    kindsMissing: year.groups.map((group) =>
      group.leastKinds <= 1 ? null : open(`kinds_missing[${group.id}]`),
    ),
    shareOver: year.groups.map((group) =>
      group.members.map(({ itemId }) =>
        group.largestShare >= 1 ? null : open(`share_over[${group.id},${itemId}]`),
      ),
    ),
    changes: plannedChanges(sets, parameters, stage, writer),
    supplyBought: bought('supply', supplyWeeks, supplyIds, 'supply_bought'),
    supplyLeft: left(supplyWeeks, supplyIds, 'supply_left'),
    jarsBought: bought('jars', jarWeeks, jarKinds, 'jars_bought'),
    jarsEmpty: left(jarWeeks, jarKinds, 'jars_empty'),
    lidsBought: bought('lids', lidWeeks, mouths, 'lids_bought'),
    lidsLeft: left(lidWeeks, mouths, 'lids_left'),
    sessions: always((week, key) => {
      const decided = canning === null ? undefined : entry(canning.sessionsByWeek, week, 'sessionsByWeek');
      return writer.column(`sessions[${key}]`, {
        ...decidedOrUpTo(decided, entry(parameters.mostSessionsByWeek, week, 'mostSessionsByWeek')),
        integer: true,
      });
    }),
    fund: always((week, key) =>
      writer.column(`fund[${key}]`, { lower: entry(parameters.fundFloorByWeek, week, 'fundFloorByWeek') }),
    ),
    fundOver: weekly((_, key) => (wholePacks ? open(`fund_over[${key}]`) : null)),
  };
}

/** What is decided stays as it is; what is open may be anything from nought to its most. */
const decidedOrUpTo = (decided: number | undefined, most: number) =>
  decided === undefined ? { lower: 0, upper: most } : { lower: decided, upper: decided };

type RawMaterialColumns = Pick<
  PlanColumns,
  'waiting' | 'sourceWaiting' | 'frozenIn' | 'frozen' | 'thawed' | 'lost'
>;

/** Columns of the raw materials, only where there could be any. */
function rawMaterialColumns(
  sets: PlanningSets,
  parameters: PlanningParameters,
  writer: ModelWriter,
  weekly: (make: (week: number, key: string) => MaybeColumn) => MaybeColumn[],
): RawMaterialColumns {
  const columnsWhere = (name: string, possible: (rawMaterial: RawMaterial, week: number) => boolean) =>
    sets.rawMaterials.map((rawMaterial) =>
      weekly((week, key) =>
        possible(rawMaterial, week)
          ? writer.column(`${name}[${rawMaterial.key},${key}]`, { lower: 0 })
          : null,
      ),
    );
  const lastUse = new Map(
    sets.rawMaterials.map((rawMaterial) => [rawMaterial.key, lastWeekUsed(sets, parameters, rawMaterial)]),
  );
  const usedAfter = (rawMaterial: RawMaterial, week: number) =>
    week < found(lastUse, rawMaterial.key, 'lastUse');
  const isFresh = (rawMaterial: RawMaterial, week: number) =>
    freshReach(sets, parameters.mostBatches, rawMaterial, week) > 0;
  // Every week that may thaw has its frozen stock too, the last one included: the balance hangs on it.
  const isFrozenAndWanted = (rawMaterial: RawMaterial, week: number) =>
    rawMaterial.freezer !== null &&
    week <= found(lastUse, rawMaterial.key, 'lastUse') &&
    frozenReach(sets, parameters.mostBatches, rawMaterial, week) > 0;
  const mayWait = (rawMaterial: RawMaterial, week: number) =>
    rawMaterial.carryWeeks > 0 && usedAfter(rawMaterial, week) && isFresh(rawMaterial, week);
  const waitsIn = (source: PlanningSets['sources'][number], week: number) =>
    weeksBack(week).some(
      (came) => entry(source.lbByWeek, came, 'lbByWeek') > 0 && lastUseWeek(source, came) > week,
    );
  return {
    waiting: columnsWhere('waiting', mayWait),
    sourceWaiting: sets.sources.map((source, at) => {
      const rawMaterial = sets.rawMaterials.find(({ sources }) => sources.includes(at));
      if (rawMaterial === undefined || rawMaterial.sources.length < 2) return weekly(() => null);
      return weekly((week, key) =>
        mayWait(rawMaterial, week) && waitsIn(source, week)
          ? writer.column(`waiting_of[${source.id},${key}]`, { lower: 0 })
          : null,
      );
    }),
    frozenIn: columnsWhere(
      'frozen_in',
      (rawMaterial, week) =>
        rawMaterial.freezer !== null && usedAfter(rawMaterial, week) && isFresh(rawMaterial, week),
    ),
    frozen: columnsWhere('frozen', isFrozenAndWanted),
    thawed: columnsWhere(
      'thawed',
      (rawMaterial, week) =>
        isFrozenAndWanted(rawMaterial, week) &&
        sets.recipes.some(
          (recipe, at) =>
            needOf(recipe, rawMaterial).any > needOf(recipe, rawMaterial).freshOnly &&
            orNone(begunInWeek(entry(parameters.mostBatches, at, 'mostBatches'), recipe, week)) > 0,
        ),
    ),
    lost: columnsWhere(
      'lost',
      (rawMaterial, week) => rawMaterial.kind === 'by-product' && isFresh(rawMaterial, week),
    ),
  };
}

const weeksBack = (week: number): readonly number[] => Array.from({ length: week + 1 }, (_, came) => came);

function lastWeekUsed(sets: PlanningSets, parameters: PlanningParameters, rawMaterial: RawMaterial): number {
  return Math.max(
    -1,
    ...sets.recipes.map((recipe, at) =>
      needOf(recipe, rawMaterial).any > 0
        ? entry(parameters.mostBatches, at, 'mostBatches').findLastIndex((most) => most > 0) -
          stageWeeks(recipe)
        : -1,
    ),
  );
}

/** Weeks from beginning to load, of the longest of some recipes: what is begun in a near week is near. */
const longestStages = ({ recipes }: PlanningSets, positions: readonly number[]): number =>
  Math.max(0, ...positions.map((at) => stageWeeks(entry(recipes, at, 'recipes'))));

/** Near batches that an earlier plan holds, or that could be planned now. */
function plannedChanges(
  sets: PlanningSets,
  parameters: PlanningParameters,
  { earlier }: PlanningStage,
  writer: ModelWriter,
): PlanChange[] {
  if (earlier === null) return [];
  return [...sets.recipesById].flatMap(([recipeId, recipes]) =>
    sets.weekIndexes.slice(0, steadyWeeks + longestStages(sets, recipes)).flatMap((week): PlanChange[] => {
      const key = sets.year.weeks[week];
      const plannedBefore = (earlier.find((planned) => planned.week === key)?.sessions ?? [])
        .filter(({ recipe }) => recipe === recipeId)
        .reduce((sum, { batches }) => sum + batches, 0);
      const isPossible = recipes.some((at) => cell(parameters.mostBatches, at, week, 'mostBatches') > 0);
      if (!isPossible && plannedBefore === 0) return [];
      const column = writer.column(`changed[${recipeId},${key}]`, { lower: 0 });
      return [{ recipeId, week, plannedBefore, column }];
    }),
  );
}

/** What of the opening lots may be past its days at a week's end, were none of it taken: nothing that is made is. */
const openingPast = ({ readyByWeek, freshByWeek }: OpeningShelf, week: number): number =>
  Math.max(
    0,
    readyByWeek.slice(0, week + 1).reduce((sum, units) => sum + units, 0) -
      entry(freshByWeek, week, 'freshByWeek'),
  );
