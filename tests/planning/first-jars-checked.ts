import type { Plan } from '../../src/planning/plan.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';
import { loadsByHand } from './independent-checker.ts';

const sum = (list: readonly number[]) => list.reduce((total, amount) => total + amount, 0);

/**
 * What a printed plan misses of every food's first jars, worked out from the printed weeks alone and held against what the
 * plan says of that rung. Silent where when a food could first come takes more than looking: by-products, frozen crops,
 * batches begun, decisions, set-ups and stages.
 */
export function checkFirstJars(plan: Plan, year: PlanningYear): string[] {
  const printed = plan.rungs.find(({ name }) => name === 'first jars');
  const isPlain =
    (year.freezable ?? []).length === 0 &&
    (year.begun ?? []).length === 0 &&
    year.kept.length === 0 &&
    year.recipes.every(
      ({ uses, stages, setUp, produce }) =>
        uses.length === 0 && stages === undefined && setUp === undefined && produce.length <= 1,
    );
  if (printed === undefined || !isPlain) return [];
  const foods = year.items.flatMap((item) => {
    const first = firstWeek(year, item);
    const { servable, missed, atEnd } = played(plan, year, item, first);
    const standing = keptStanding(item);
    const lacking = (item.emergencyUnits ?? 0) - standing;
    const wanted = servable + item.yearEndUnits + lacking;
    if (first >= year.weeks.length || wanted < 1e-6) return [];
    return [{ wanted, had: wanted - missed - Math.max(0, item.yearEndUnits + lacking + standing - atEnd) }];
  });
  const average = sum(foods.map(({ wanted }) => wanted)) / foods.length;
  const missed = sum(
    foods.map(
      ({ wanted, had }) =>
        (average * (Math.max(0, wanted / 2 - had) + 2 * Math.max(0, wanted / 4 - had))) / wanted,
    ),
  );
  return Math.abs(missed - printed.missed) <= 0.1 + 0.01 * missed
    ? []
    : [`first jars: ${missed} missing by the printed weeks, ${printed.missed} said`];
}

/** The first week in which any of an item can stand on the shelf; the year's length where none can. */
function firstWeek(year: PlanningYear, item: PlannedItem): number {
  if (item.packs.length > 0) return 0;
  const first = year.recipes
    .filter(({ itemId }) => itemId === item.id)
    .flatMap((recipe) => {
      const week = year.weeks.findIndex((_, at) => mayBeMade(year, recipe, at));
      return week < 0 ? [] : [week + recipe.readyAfterWeeks];
    });
  return Math.min(year.weeks.length, ...first);
}

function mayBeMade(year: PlanningYear, recipe: PlannedRecipe, week: number): boolean {
  const minutes = (year.time.hoursPerSessionByWeek[week] ?? 0) * 60;
  const { processing } = recipe;
  const loads = processing === null ? 0 : loadsByHand(recipe.yieldHighJars, processing.jarsPerLoad);
  const atStove = recipe.handsOnMinutes + loads * (processing?.attendedMinutes ?? 0);
  const sessions = Math.max(
    atStove / (minutes - year.time.setUpMinutes),
    (loads * (processing?.loadMinutes ?? 0)) / minutes,
  );
  const isReached = recipe.produce.every(({ crop, lb }) => {
    const sources = year.sources.filter((source) => source.crop === crop);
    const keeps = Math.max(0, ...sources.map(({ useByDays }) => Math.floor(useByDays / 7)));
    return (
      sum(sources.flatMap(({ lbByWeek }) => lbByWeek.slice(Math.max(0, week - keeps), week + 1))) >= lb - 1e-9
    );
  });
  return (
    minutes > year.time.setUpMinutes &&
    Math.ceil(sessions - 1e-9) <= (year.time.maxSessionsByWeek[week] ?? 0) &&
    (recipe.allowedByWeek?.[week] ?? true) &&
    (processing === null || year.canners.some(({ id }) => id === processing.cannerId)) &&
    isReached
  );
}

/** What stands for an emergency when the year begins, which nobody eats. */
const keptStanding = ({ emergencyUnits = 0, openingLots }: PlannedItem): number =>
  Math.min(emergencyUnits, sum(openingLots.map(({ units }) => units)));

/** An item's shelf through the printed weeks; use before anything can come counts only as far as the shelf held it. */
function played(plan: Plan, year: PlanningYear, item: PlannedItem, first: number) {
  const kept = keptStanding(item);
  let left = 0;
  let opening = 0;
  let servable = 0;
  let missed = 0;
  plan.weeks.forEach(({ week, purchases }, at) => {
    const ready = item.openingLots
      .filter(({ readyFrom }) => (at === 0 ? readyFrom <= week : readyFrom === week))
      .map(({ units }) => units);
    const made = plan.weeks.flatMap(({ sessions }, madeAt) =>
      sessions.flatMap((session) => {
        const way = year.recipes.find(
          ({ id, jarKind }) => id === session.recipe && jarKind === (session.jars[0]?.kind ?? null),
        );
        return way?.itemId === item.id && madeAt + way.readyAfterWeeks === at
          ? [session.batches * way.yieldLowUnits]
          : [];
      }),
    );
    const bought = purchases
      .filter(({ kind, what }) => kind === 'item' && what === item.id)
      .map(({ quantity }) => quantity);
    opening += sum(ready);
    left += sum([...ready, ...made, ...bought]);
    const use = item.useByWeek[at] ?? 0;
    const toCome = sum(
      item.openingLots.filter(({ readyFrom }) => readyFrom > week).map(({ units }) => units),
    );
    const above = (units: number) => Math.max(0, Math.min(units, units + toCome - kept));
    const wanted = at < first ? Math.min(use, above(opening)) : use;
    opening -= Math.min(use, above(opening));
    servable += wanted;
    const eaten = Math.min(wanted, above(left));
    missed += wanted - eaten;
    left -= eaten;
  });
  return { servable, missed, atEnd: left };
}
