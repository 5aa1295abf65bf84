import { mouthOf } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, mondayOf, weekOf, weeksFrom } from '../../../shared/week.ts';
import { isAway } from '../../../src/harvest/source-years.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { entry, orNone } from '../../../src/planning/lookup.ts';
import { isInMonths } from '../../../src/planning/year/months.ts';
import { recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { minutesAtStove, minutesInCanner } from '../../../src/planning/year/recipe-time.ts';
import { carryWeeksOf } from '../../../src/planning/year/supply-weeks.ts';
import type { Random } from '../../../src/shelf/draws.ts';
import { between } from './luck.ts';
import { type Lot, livedWeeks, type World, type WorldItem, type WorldRecipe, weeksInAll } from './world.ts';

// The world that a household lives in, from what it says of itself, and what things cost there.

export interface Opening {
  readonly id: string;
  readonly madeOn: CalendarDate;
  readonly units: number;
}

/** What one unit costs a household, hours apart: its cheapest pack, or its share of a batch at the dearest source's price. */
export function usualUnitCents(facts: HouseholdFacts, item: Item): number {
  const packs = facts.packs.get(item.id) ?? [];
  if (packs.length > 0) return Math.min(...packs.map(({ price, units }) => price / units));
  const ways = facts.recipes.filter(({ itemId }) => itemId === item.id);
  return Math.max(
    0,
    ...ways.map((recipe) => batchCents(facts, recipe, Math.max) / Math.max(1, recipe.yieldLow)),
  );
}

/** Produce, supplies and lids of one batch. */
function batchCents(
  { sources, supplies, lids }: HouseholdFacts,
  recipe: Recipe,
  choose: (...prices: number[]) => number,
): number {
  const produce = recipe.produce.reduce((sum, { crop, lb }) => {
    const prices = sources.filter((source) => source.crop === crop).map(({ pricePerLb }) => pricePerLb);
    return sum + (prices.length === 0 ? 0 : lb * choose(...prices));
  }, 0);
  const used = recipe.supplies.reduce((sum, { supplyId, quantity }) => {
    const supply = supplies.find(({ id }) => id === supplyId);
    return sum + (supply === undefined ? 0 : (quantity * supply.packPrice) / supply.packQuantity);
  }, 0);
  const box = lids.find(({ mouth }) => recipe.jarKind !== null && mouthOf(recipe.jarKind) === mouth);
  return produce + used + (box === undefined ? 0 : (recipe.yieldLow * box.boxPrice) / box.box);
}

/** Weeks from the start to a day, counted as the planner does: whole weeks by their Monday. */
const weekFromStart = (startsOn: CalendarDate, day: CalendarDate): number =>
  Math.round((Date.parse(mondayOf(weekOf(day))) - Date.parse(mondayOf(weekOf(startsOn)))) / (7 * 86_400_000));

export function worldOf(
  facts: HouseholdFacts,
  {
    openings,
    startsOn,
    reference,
    random,
  }: {
    readonly openings: readonly Opening[];
    readonly startsOn: CalendarDate;
    readonly reference: ReferenceTables;
    readonly random: Random;
  },
): World {
  const weeks = weeksFrom(weekOf(startsOn), weeksInAll);
  const hourCents = Math.round(between(random, 500, 1500));
  const { planned } = recipesHere(facts.recipes, {
    ...facts,
    weeks,
    asOf: startsOn,
    sessionWeekday: facts.hours.sessionWeekday,
    reference,
  });
  const jarAt = (kind: string | null) => facts.jars.findIndex((one) => one.kind === kind);
  const lidAt = (kind: string | null) => facts.lids.findIndex(({ mouth }) => kind?.endsWith(`/${mouth}`));
  const place = (at: number): number | null => (at < 0 ? null : at);
  const itemAt = new Map(facts.items.map(({ id }, at) => [id, at]));
  const recipes = planned.map((recipe): WorldRecipe => {
    const canner = facts.canners.findIndex(({ id }) => id === recipe.processing?.cannerId);
    return {
      id: recipe.id,
      item: orNone(itemAt.get(recipe.itemId)),
      jars: place(jarAt(recipe.jarKind)),
      lids: place(lidAt(recipe.jarKind)),
      mostUnits: Math.round(recipe.yieldHighJars),
      leastUnits: Math.round(recipe.yieldLowUnits),
      minutes: minutesAtStove(recipe),
      canner: place(canner),
      cannerMinutes: minutesInCanner(recipe),
      produce: recipe.produce,
      supplies: recipe.supplies.map(({ supplyId, quantity }) => ({
        supply: facts.supplies.findIndex(({ id }) => id === supplyId),
        quantity,
      })),
      readyAfterWeeks: recipe.readyAfterWeeks,
      crock: recipe.crock,
      allowedByWeek: weeks.map((_, week) => recipe.allowedByWeek?.[week] ?? true),
    };
  });
  const awayByWeek = weeks.map((week) =>
    Array.from({ length: 7 }, (_, day) => addDays(mondayOf(week), day)).every((day) =>
      isAway(day, facts.daysOff.away),
    ),
  );
  const isOff = (week: (typeof weeks)[number]) =>
    isAway(addDays(mondayOf(week), facts.hours.sessionWeekday - 1), facts.daysOff.away);
  return {
    weeks,
    items: facts.items.map((item, at): WorldItem => {
      const packs = facts.packs.get(item.id) ?? [];
      const prices = packs.map((pack) => ({
        id: pack.id,
        units: pack.units,
        priceByWeek: weeks.map((week) =>
          pack.sale !== null && isInMonths(week, pack.sale) ? pack.sale.price : pack.price,
        ),
      }));
      const ways = facts.recipes.filter(({ itemId }) => itemId === item.id);
      const made = planned.filter(({ itemId }) => itemId === item.id);
      const usual = usualUnitCents(facts, item);
      const hours = Math.max(
        0,
        ...made.map((one) => ((minutesAtStove(one) / 60) * hourCents) / one.yieldLowUnits),
      );
      const opening = entry(openings, at, 'openings');
      const madeIn = weekFromStart(startsOn, opening.madeOn);
      const lifeWeeks = Math.max(1, Math.floor(item.bestQualityDays / 7));
      const lot: Lot = {
        id: opening.id,
        units: opening.units,
        madeIn,
        readyIn: madeIn,
        bestUntil: madeIn + lifeWeeks,
      };
      return {
        id: item.id,
        kind: item.kind,
        jarKind: item.usualJar,
        lifeWeeks,
        leftCents:
          packs.length > 0
            ? Math.min(
                ...prices.flatMap(({ units, priceByWeek }) => priceByWeek.map((price) => price / units)),
              )
            : Math.min(
                ...ways.map(
                  (way) => batchCents({ ...facts }, way, Math.min) / Math.max(1, Math.round(way.yieldHigh)),
                ),
              ),
        missCents:
          packs.length > 0
            ? 3 * Math.max(...packs.map(({ price, units }) => price / units))
            : Math.max(200, 3 * (usual + hours)),
        costCents: usual + hours,
        olderCents: Math.max(5, usual / 20),
        packs: prices,
        openingLots: opening.units > 0 ? [lot] : [],
      };
    }),
    recipes,
    sources: facts.sources.map((source) => ({
      id: source.id,
      crop: source.crop,
      centsPerLb: source.pricePerLb,
      carryWeeks: carryWeeksOf(source.useByDays),
    })),
    supplies: facts.supplies.map(({ id, onHand, packQuantity, packPrice }) => ({
      id,
      onHand,
      pack: packQuantity,
      packCents: packPrice,
    })),
    jars: facts.jars.map(({ kind, empty, pack, price }) => ({ kind, empty, pack, packCents: price })),
    lids: facts.lids.map(({ mouth, onHand, box, boxPrice }) => ({ mouth, onHand, box, boxCents: boxPrice })),
    canners: facts.canners.length,
    sessionsByWeek: weeks.map((week, at) =>
      isOff(week) || at >= livedWeeks ? 0 : facts.hours.sessionsPerWeek,
    ),
    sessionMinutes: facts.hours.hoursPerSession * 60,
    setUpMinutes: facts.hours.setUpMinutes,
    awayByWeek,
    crockQuarts: facts.household.crockQuarts,
    fund: { opening: facts.fund?.balance ?? 0, weekly: facts.fund?.weekly ?? 0 },
    hourCents,
  };
}
