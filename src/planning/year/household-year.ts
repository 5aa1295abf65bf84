import type { ItemId } from '../../../shared/ids.ts';
import { type JarKind, nominalMl, sizeOf } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type CalendarDate, mondayOf, type WeekKey, weekOf } from '../../../shared/week.ts';
import { type ItemUse, itemUses } from '../../consumption/items/item-use.ts';
import type { YearlyTarget } from '../../consumption/yearly-target.ts';
import type { SourceYear } from '../../harvest/source-years.ts';
import type { ShopPackSetting } from '../../household/appetite.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import type { Item } from '../../household/item.ts';
import { usualUnits } from '../../household/lot.ts';
import type { Source } from '../../household/source.ts';
import type { Supply } from '../../household/supplies.ts';
import { freshKeeping } from '../../preserving/foods/fresh-keeping.ts';
import { crockOf } from '../../preserving/stages/crock-of.ts';
import { crockQuartsTaken } from '../../preserving/stages/crocks-taken.ts';
import { usualWeekday } from '../days/session-dates.ts';
import { found, orNone } from '../lookup.ts';
import type { PlannedItem, PlannedStages, PlannedSupply, PlanningYear } from '../planning-year.ts';
import { afterYear } from './after-year.ts';
import { alsoFromHand } from './begun-while-ripe.ts';
import { fundAhead } from './fund-ahead.ts';
import { wantedByHand } from './hand-target.ts';
import { itemTarget } from './item-target.ts';
import { isInMonths } from './months.ts';
import type { RecipesHere } from './planned-recipes.ts';
import { leftToFetch, plannedSource, producedAtHand } from './planned-sources.ts';
import { yearEndUnits } from './supply-gap.ts';
import { plannedMaterial } from './supply-weeks.ts';
import { jarsToFill, lidsToClose, noVesselGuesses, type VesselGuesses } from './vessels.ts';
import { horizonWeeks, type ItemSupply, supplyOfYear, weeksLookedAt } from './year-supply.ts';

/** A household's year as the planner takes it, with what it was made from. */
export interface HouseholdYear {
  readonly facts: HouseholdFacts;
  readonly year: PlanningYear;
  readonly useByItem: ReadonlyMap<ItemId, ItemUse>;
  readonly supplyByItem: ReadonlyMap<ItemId, ItemSupply>;
  /** Yearly targets with their parts; items nobody says they eat have none. */
  readonly targetByItem: ReadonlyMap<ItemId, YearlyTarget>;
  readonly seasonsBySource: ReadonlyMap<Source['id'], readonly SourceYear[]>;
  readonly recipes: RecipesHere;
}

/** A household's year from its facts; from changed facts, what it would be. Jars and lids nobody counted are taken as none. */
export function planningYearOf(
  facts: HouseholdFacts,
  asOf: CalendarDate,
  reference: ReferenceTables,
  vesselGuesses: VesselGuesses = noVesselGuesses,
): HouseholdYear {
  const { weekStartsOn: startsOn } = facts.household;
  const supply = supplyOfYear({
    household: facts.household,
    items: facts.items,
    packs: facts.packs,
    recipes: facts.recipes,
    materials: facts.materials,
    sources: facts.sources,
    lateness: facts.lateness,
    canners: facts.canners,
    hours: facts.hours,
    daysOff: facts.daysOff,
    preparations: facts.preparations,
    asOf,
    reference,
  });
  const { firstWeek, weeks, waiting, time, recipes, begun, lbBySource, lastUseBySource, supplyByItem } =
    supply;
  // Where weeks start on Sunday, a Sunday is the first day of the week to come.
  const firstDay = firstWeek === weekOf(asOf) ? asOf : mondayOf(firstWeek);
  const useByItem = itemUses(facts, firstDay, weeksLookedAt);
  const targetByItem = new Map(
    keptItems(facts).flatMap((item) => {
      const use = useByItem.get(item.id);
      const supply = supplyByItem.get(item.id);
      const target =
        use && supply
          ? itemTarget({
              item,
              use,
              supply,
              recipes,
              lbBySource,
              sources: facts.sources,
              discardCeilingMonths: facts.household.discardCeilingMonths,
              byHand: facts.handTargets.get(item.id)?.units ?? null,
            })
          : null;
      return target === null ? [] : [[item.id, target] as const];
    }),
  );
  const crocksTaken = crockQuartsTaken(
    {
      lots: facts.lots,
      recipes: facts.recipes.map((recipe) => ({ ...recipe, crock: crockOf(recipe, reference) })),
    },
    weeks,
    startsOn,
  );
  return {
    facts,
    useByItem,
    supplyByItem,
    targetByItem,
    seasonsBySource: supply.seasonsBySource,
    recipes,
    year: {
      asOf,
      weeks,
      items: keptItems(facts).flatMap((item) => {
        const use = useByItem.get(item.id);
        const supply = supplyByItem.get(item.id);
        return use && supply
          ? [plannedItem(facts, item, { use, supply, target: targetByItem.get(item.id) ?? null }, weeks)]
          : [];
      }),
      recipes: recipes.planned
        .map((recipe) => alsoFromHand(recipe, facts.fetched, waiting))
        .map((recipe) => ({
          ...recipe,
          allowedByWeek: recipe.allowedByWeek?.slice(0, horizonWeeks) ?? null,
          ...(recipe.stages === undefined ? {} : { stages: withinHorizon(recipe.stages) }),
        })),
      ...(begun.length > 0 ? { begun } : {}),
      sources: [
        ...facts.sources.map((source) =>
          plannedSource(
            source,
            leftToFetch(
              facts,
              source,
              found(lbBySource, source.id, 'lbBySource').slice(0, horizonWeeks),
              weeks,
            ),
            weeks,
            found(lastUseBySource, source.id, 'lastUseBySource').slice(0, horizonWeeks),
          ),
        ),
        ...producedAtHand(facts, weeks, waiting),
      ],
      materials: facts.materials.map((material) =>
        plannedMaterial(material, weeks, asOf, { weekday: usualWeekday(facts.hours), startsOn }),
      ),
      canners: facts.canners.map(({ id, name, method }) => ({ id, name, method })),
      supplies: facts.supplies.map((supply) => freshSupply(supply, reference)),
      jars: jarsToFill(recipes.planned, facts.jars, vesselGuesses),
      lids: lidsToClose(recipes.planned, facts.lids, vesselGuesses),
      groups: plannedGroups(facts),
      time: {
        ...time,
        ...(time.awayByWeek === undefined ? {} : { awayByWeek: time.awayByWeek.slice(0, horizonWeeks) }),
        maxSessionsByWeek: time.maxSessionsByWeek.slice(0, horizonWeeks),
        hoursPerSessionByWeek: time.hoursPerSessionByWeek.slice(0, horizonWeeks),
        ...(time.longestSessionByWeek === undefined
          ? {}
          : { longestSessionByWeek: time.longestSessionByWeek.slice(0, horizonWeeks) }),
        ...(time.handsByWeek === undefined ? {} : { handsByWeek: time.handsByWeek.slice(0, horizonWeeks) }),
      },
      fund: fundAhead(facts.fund, weeks, startsOn),
      storage: {
        freezerQuarts: facts.places
          .filter((place) => place.kind === 'freezer')
          .reduce((quarts, place) => quarts + orNone(place.capacityQuarts), 0),
        freezerQuartsPerDay: orNone(facts.household.freezerQuartsPerDay),
        crockQuarts: facts.household.crockQuarts,
        ...(crocksTaken.some((quarts) => quarts > 0) ? { crockQuartsTakenByWeek: crocksTaken } : {}),
      },
      // A decision about a recipe that is not planned here says nothing to the planner.
      kept: facts.kept.filter(({ recipeId }) => recipes.planned.some(({ id }) => id === recipeId)),
      ...listedPurchases(facts.purchases, firstWeek),
    },
  };
}

const withinHorizon = ({ possibleByWeek, ...stages }: PlannedStages): PlannedStages => ({
  ...stages,
  possibleByWeek: possibleByWeek?.slice(0, horizonWeeks) ?? null,
});

/** A supply with the days it stands fresh, where it is one that spoils. */
function freshSupply(supply: Supply, { shelfLives }: ReferenceTables): PlannedSupply {
  const fresh = freshKeeping(supply.name, shelfLives);
  return fresh === null ? supply : { ...supply, freshDays: fresh.days };
}

/** What is planned for; what is no longer kept is only eaten down. */
const keptItems = ({ items }: HouseholdFacts): readonly Item[] =>
  items.filter(({ retiredOn }) => retiredOn === null);

function plannedItem(
  facts: HouseholdFacts,
  item: Item,
  { use, supply, target }: { use: ItemUse; supply: ItemSupply; target: YearlyTarget | null },
  weeks: readonly WeekKey[],
): PlannedItem {
  const isBought = supply.by === 'bought';
  const ahead = use.forecast?.weeklyMean ?? datedByWeek(use.dated, weeks);
  const parts = target?.parts;
  const expected = {
    useByWeek: ahead.slice(0, weeks.length),
    reserveUnits: orNone(parts?.hungryYear) + orNone(parts?.failedCrop),
  };
  const byHand = facts.handTargets.get(item.id);
  const wanted = byHand === undefined ? expected : wantedByHand(byHand.units, expected);
  const after = isBought ? undefined : afterYear(ahead, supply.canArrive, weeks.length, supply.failsChance);
  const yearTotal = wanted.useByWeek.reduce((sum, units) => sum + units, 0);
  return {
    id: item.id,
    name: item.name,
    kind: item.kind,
    jarKind: item.usualJar,
    ...(item.keeping === 'frozen' && item.freezerQuarts !== null
      ? { freezerQuartsPerUnit: item.freezerQuarts }
      : {}),
    openingLots: openingLots(facts, item),
    useByWeek: wanted.useByWeek,
    givenByWeek: datedByWeek(
      use.dated.filter(({ kind }) => kind !== 'occasion'),
      weeks,
    ),
    yearlyTarget: target?.units ?? byHand?.units ?? yearTotal,
    reserveUnits: wanted.reserveUnits,
    ...(target === null || byHand !== undefined || target.notWorthABatch <= 0
      ? {}
      : { reserveNotWorthABatch: target.notWorthABatch }),
    yearEndUnits: yearEndUnits(ahead, supply.canArrive, weeks.length, isBought),
    ...(after === undefined ? {} : { afterYear: after }),
    familyMinimumUnits: item.familyMinimumUnits,
    ...(item.emergencyUnits === null ? {} : { emergencyUnits: item.emergencyUnits }),
    ...weeksKept(item),
    packs: (facts.packs.get(item.id) ?? []).map((pack) => ({
      id: pack.id,
      units: pack.units,
      priceByWeek: weeks.map((week) => priceIn(pack, week)),
    })),
  };
}

/** Units of gifts and occasions by the week they fall in. */
const datedByWeek = (dated: ItemUse['dated'], weeks: readonly WeekKey[]): readonly number[] =>
  weeks.map((week) =>
    dated.filter(({ on }) => weekOf(on) === week).reduce((sum, { units }) => sum + units, 0),
  );

const openingLots = (facts: HouseholdFacts, item: Item): PlannedItem['openingLots'] =>
  facts.lots
    .filter((lot) => lot.itemId === item.id && lot.unitsLeft > 0 && lot.setAside === null)
    .map((lot) => ({
      lotId: lot.id,
      units: usualUnits(item, lot.jarKind, lot.unitsLeft),
      jars: lot.jarKind === null ? 0 : lot.unitsLeft,
      jarKind: lot.jarKind,
      readyFrom: weekOf(lot.readyFrom),
      bestQualityUntil: weekOf(lot.bestQualityUntil),
    }));

const priceIn = ({ price, sale }: ShopPackSetting, week: WeekKey): Cents =>
  sale !== null && isInMonths(week, sale) ? sale.price : price;

/** Lines bought or skipped that the planner knows of, and those it buys nothing of. */
const listedPurchases = (
  purchases: HouseholdFacts['purchases'],
  firstWeek: WeekKey,
): Pick<PlanningYear, 'purchasesKnown' | 'skipped'> => {
  const ahead = purchases.filter(({ week }) => week >= firstWeek);
  const skipped = ahead
    .filter(({ decision }) => decision === 'skipped')
    .map(({ week, kind, what }) => ({ week, kind, what }));
  return {
    ...(ahead.length > 0 ? { purchasesKnown: ahead.map(({ id }) => id) } : {}),
    ...(skipped.length > 0 ? { skipped } : {}),
  };
};

const plannedGroups = ({ groups, items }: HouseholdFacts): PlanningYear['groups'] =>
  groups.map((group) => ({
    id: group.id,
    name: group.name,
    totalUnits: group.totalUnits,
    leastKinds: group.leastKinds,
    largestShare: group.largestShare,
    members: group.members.map((itemId) => ({
      itemId,
      groupUnitsPerUnit: inGroupUnits(
        items.find((item) => item.id === itemId)?.usualJar ?? null,
        group.unitJar,
      ),
    })),
  }));

const inGroupUnits = (jar: JarKind | null, unitJar: JarKind | null): number =>
  jar === null || unitJar === null ? 1 : nominalMl[sizeOf(jar)] / nominalMl[sizeOf(unitJar)];

/**
 * Weeks until best quality ends. What stands in the refrigerator is put up on a Saturday and eaten to the Sunday of its last week:
 * one day more than the weeks, none of them past its days.
 */
const weeksKept = ({
  keeping,
  bestQualityDays,
}: Item): Pick<PlannedItem, 'bestQualityWeeks' | 'neverPastDays'> =>
  keeping === 'refrigerated'
    ? { bestQualityWeeks: Math.max(1, Math.floor((bestQualityDays - 1) / 7)), neverPastDays: true }
    : { bestQualityWeeks: Math.max(1, Math.floor(bestQualityDays / 7)) };
