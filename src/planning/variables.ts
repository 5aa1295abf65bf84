import type { PlanningStage } from './draft.ts';
import type { ModelWriter } from './model.ts';
import type { PlanningParameters } from './parameters.ts';
import type { PlanningRules } from './rules.ts';
import { type PlanningSets, recipeLabel } from './sets.ts';

/** A column's index, or null where the model has none because the amount can only be nought. */
export type MaybeColumn = number | null;

/** Columns of the model by what they stand for; each list is indexed as its comment says. */
export interface PlanColumns {
  /** [recipe][week] whole batches. */
  readonly batches: readonly (readonly MaybeColumn[])[];
  /** [recipe] whole batches over the year: redundant, and what lets the solver branch on how much before when. */
  readonly totals: readonly MaybeColumn[];
  /** [recipe][week] 1 where a recipe with a set-up is made. */
  readonly makes: readonly (readonly MaybeColumn[])[];
  /** [item][pack][week] packs bought. */
  readonly purchases: readonly (readonly (readonly number[])[])[];
  /** [item][week] units at the week's end. */
  readonly stock: readonly (readonly number[])[];
  /** [item][week] of these, past best quality. */
  readonly older: readonly (readonly MaybeColumn[])[];
  /** [item][week] units of use missed. */
  readonly shortage: readonly (readonly MaybeColumn[])[];
  /** [item] units missing from the reserve when it is lowest. */
  readonly reserveShortage: readonly MaybeColumn[];
  /** [item] units missing from what the last week hands over. */
  readonly yearEndShortage: readonly MaybeColumn[];
  /** [source][week] lb taken. */
  readonly produce: readonly (readonly MaybeColumn[])[];
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

/** Adds every column of the model, in the order of DESIGN's table of variables. */
export function planVariables(
  sets: PlanningSets,
  parameters: PlanningParameters,
  rules: PlanningRules,
  stage: PlanningStage,
  writer: ModelWriter,
): PlanColumns {
  const { year, weekIndexes, items, recipes, sources } = sets;
  const { wholePacks, canning } = stage;
  const weekly = (make: (week: number, key: string) => MaybeColumn): MaybeColumn[] =>
    weekIndexes.map((week) => make(week, year.weeks[week] ?? ''));
  const always = (make: (week: number, key: string) => number): number[] =>
    weekIndexes.map((week) => make(week, year.weeks[week] ?? ''));
  const open = (name: string) => writer.column(name, { lower: 0 });
  const packs = (name: string) => writer.column(name, { lower: 0, integer: wholePacks });
  const lastCanningWeek = (mayUse: (recipe: number) => boolean) =>
    Math.max(
      -1,
      ...recipes.flatMap((_, recipe) =>
        mayUse(recipe) ? [(parameters.mostBatches[recipe] ?? []).findLastIndex((most) => most > 0)] : [],
      ),
    );
  const supplyWeeks = year.supplies.map(({ id }) =>
    lastCanningWeek((at) => recipes[at]?.supplies.some(({ supplyId }) => supplyId === id) ?? false),
  );
  const jarWeeks = year.jars.map(({ kind }) => lastCanningWeek((at) => recipes[at]?.jarKind === kind));
  const lidWeeks = year.lids.map(({ mouth }) =>
    lastCanningWeek((at) => recipes[at]?.jarKind?.endsWith(`/${mouth}`) ?? false),
  );
  const stores = (lastWeeks: readonly number[], labels: readonly string[], name: string, packed: boolean) =>
    labels.map((label, at) =>
      weekly((week, key) => {
        if (week > (lastWeeks[at] ?? -1)) return null;
        return packed ? packs(`${name}[${label},${key}]`) : open(`${name}[${label},${key}]`);
      }),
    );
  const supplyIds = year.supplies.map(({ id }) => id);
  const jarKinds = year.jars.map(({ kind }) => kind);
  const mouths = year.lids.map(({ mouth }) => mouth);

  return {
    batches: recipes.map((recipe, at) =>
      weekly((week, key) => {
        const most = parameters.mostBatches[at]?.[week] ?? 0;
        if (most <= 0) return null;
        const decided = canning?.batches[at]?.[week];
        return writer.column(`batches[${recipeLabel(recipe)},${key}]`, {
          lower: decided ?? 0,
          upper: decided ?? most,
          integer: recipe.setUp === undefined,
        });
      }),
    ),
    totals: recipes.map((recipe, at) => {
      const most = (parameters.mostBatches[at] ?? []).reduce((sum, batches) => sum + batches, 0);
      if (most <= 0 || recipe.setUp !== undefined) return null;
      return writer.column(`total_batches[${recipeLabel(recipe)}]`, { lower: 0, upper: most, integer: true });
    }),
    makes: recipes.map((recipe, at) =>
      weekly((week, key) =>
        recipe.setUp === undefined || (parameters.mostBatches[at]?.[week] ?? 0) <= 0
          ? null
          : writer.column(`makes[${recipeLabel(recipe)},${key}]`, { lower: 0, upper: 1, integer: true }),
      ),
    ),
    purchases: items.map((item) =>
      item.packs.map((pack) => always((_, key) => packs(`purchases[${item.id},${pack.id},${key}]`))),
    ),
    stock: items.map((item) => always((_, key) => open(`stock[${item.id},${key}]`))),
    older: items.map((item, at) =>
      weekly((week, key) => {
        const standing = parameters.opening[at];
        const mayBeOlder = week >= item.bestQualityWeeks || (standing?.olderByWeek[week] ?? 0) > 1e-9;
        if (!mayBeOlder) return null;
        return writer.column(`older[${item.id},${key}]`, {
          lower: 0,
          ...(rules.pastBestQuality === 'never' ? { upper: 0 } : {}),
        });
      }),
    ),
    shortage: items.map((item, at) =>
      weekly((week, key) => {
        const use = parameters.useByWeek[at]?.[week] ?? 0;
        if (rules.shortage === 'never' || use <= 1e-9) return null;
        return writer.column(`shortage[${item.id},${key}]`, { lower: 0, upper: use });
      }),
    ),
    reserveShortage: items.map((item) =>
      rules.shortage === 'never' || item.reserveUnits <= 0 ? null : open(`reserve_shortage[${item.id}]`),
    ),
    yearEndShortage: items.map((item) =>
      rules.shortage === 'never' || item.yearEndUnits <= 0 ? null : open(`year_end_shortage[${item.id}]`),
    ),
    produce: sources.map((source) =>
      weekly((week, key) => {
        const lb = source.lbByWeek[week] ?? 0;
        return lb > 0 ? writer.column(`produce[${source.id},${key}]`, { lower: 0, upper: lb }) : null;
      }),
    ),
    supplyBought: stores(supplyWeeks, supplyIds, 'supply_bought', true),
    supplyLeft: stores(supplyWeeks, supplyIds, 'supply_left', false),
    jarsBought: stores(jarWeeks, jarKinds, 'jars_bought', true),
    jarsEmpty: stores(jarWeeks, jarKinds, 'jars_empty', false),
    lidsBought: stores(lidWeeks, mouths, 'lids_bought', true),
    lidsLeft: stores(lidWeeks, mouths, 'lids_left', false),
    sessions: always((week, key) => {
      const decided = canning?.sessionsByWeek[week];
      return writer.column(`sessions[${key}]`, {
        lower: decided ?? 0,
        upper: decided ?? parameters.mostSessionsByWeek[week] ?? 0,
        integer: true,
      });
    }),
    fund: always((week, key) =>
      writer.column(`fund[${key}]`, { lower: parameters.fundFloorByWeek[week] ?? 0 }),
    ),
    fundOver: weekly((_, key) => (wholePacks ? open(`fund_over[${key}]`) : null)),
  };
}
