import type { ItemId } from '../../../shared/ids.ts';
import { type JarKind, nominalMl, sizeOf } from '../../../shared/jar.ts';
import type { Cents } from '../../../shared/money.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import {
  addDays,
  type CalendarDate,
  mondayOf,
  type WeekKey,
  weekHolding,
  weekOf,
  weeksFrom,
} from '../../../shared/week.ts';
import { type ItemUse, itemUses } from '../../consumption/items/item-use.ts';
import type { YearlyTarget } from '../../consumption/yearly-target.ts';
import { poundsByWeek, type SourceYear, sourceYears } from '../../harvest/source-years.ts';
import type { ShopPackSetting } from '../../household/appetite.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import { latenessOf } from '../../household/ground.ts';
import type { Item } from '../../household/item.ts';
import { usualUnits } from '../../household/lot.ts';
import type { Source } from '../../household/source.ts';
import type { Supply } from '../../household/supplies.ts';
import { gaugeCheckPlannedOn } from '../../preserving/canner.ts';
import { freshKeeping } from '../../preserving/foods/fresh-keeping.ts';
import { usualWeekday } from '../days/session-dates.ts';
import { orNone } from '../lookup.ts';
import type {
  KitchenTime,
  PlannedItem,
  PlannedStages,
  PlannedSupply,
  PlanningYear,
} from '../planning-year.ts';
import { afterYear, seasonFails } from './after-year.ts';
import { alsoFromHand, begunWhileRipe } from './begun-while-ripe.ts';
import { canningDaysOf, lastUseWeeks } from './fruit-waits.ts';
import { fundAhead } from './fund-ahead.ts';
import { wantedByHand } from './hand-target.ts';
import type { ItemSupply } from './year-supply.ts';
import { itemTarget } from './item-target.ts';
import { kitchenWeeks } from './kitchen-weeks.ts';
import { isInMonths } from './months.ts';
import { type RecipesHere, recipesHere } from './planned-recipes.ts';
import { leftToFetch, plannedSource, producedAtHand } from './planned-sources.ts';
import { begunBatches } from './planned-stages.ts';
import { yearEndUnits } from './supply-gap.ts';
import { cropsAhead, plannedMaterial, seasonStarts, supplyWeeks, withGivers } from './supply-weeks.ts';
import { jarsToFill, lidsToClose, noVesselGuesses, type VesselGuesses } from './vessels.ts';

export const horizonWeeks = 52;
/** The year after the horizon is looked at too: what the last week hands over depends on it. */
const weeksLookedAt = 2 * horizonWeeks;

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
  // Where weeks start on Sunday, a Sunday is the first day of the week to come.
  const firstWeek = weekHolding(asOf, startsOn);
  const firstDay = firstWeek === weekOf(asOf) ? asOf : mondayOf(firstWeek);
  const allWeeks = weeksFrom(firstWeek, weeksLookedAt);
  const weeks = allWeeks.slice(0, horizonWeeks);
  const { away } = facts.daysOff;
  const time = kitchenWeeks({ ...facts.hours, away }, allWeeks, asOf, startsOn);
  const seasonsBySource = new Map(
    facts.sources.map((source) => [
      source.id,
      sourceYears(writtenYears(source), allWeeks, latenessOf(facts.lateness, source.crop)),
    ]),
  );
  const recipes = begunWhileRipe(
    recipesHere(facts.recipes, {
      ...facts,
      weeks: allWeeks,
      asOf,
      sessionWeekday: usualWeekday(facts.hours),
      reference,
      gaugeCheckPlannedOn: gaugeCheckPlannedOn(asOf),
    }),
    facts.sources,
    seasonsBySource,
    allWeeks,
  );
  const begun = facts.recipes
    .filter(({ id }) => recipes.planned.some((planned) => planned.id === id))
    .flatMap((recipe) =>
      begunBatches(recipe, facts.preparations, {
        weeks,
        asOf,
        sessionWeekday: usualWeekday(facts.hours),
        weekStartsOn: startsOn,
        away: facts.daysOff.away,
        timeZone: facts.household.timeZone,
        reference,
      }),
    );
  const useByItem = itemUses(facts, firstDay, weeksLookedAt);
  const lbBySource = new Map(
    facts.sources.map((source) => [
      source.id,
      poundsByWeek(seasonsBySource.get(source.id) ?? [], allWeeks, { startsOn, away }),
    ]),
  );
  const waiting = {
    weeks: allWeeks,
    startsOn,
    asOf,
    away,
    canningDays: canningDaysOf({ ...facts.hours, away }, allWeeks, startsOn, asOf),
  };
  const lastUseBySource = new Map(
    facts.sources.map((source) => [
      source.id,
      lastUseWeeks(seasonsBySource.get(source.id) ?? [], source.useByDays, waiting),
    ]),
  );
  const supplyByItem = suppliesOf(facts, recipes, { lbBySource, lastUseBySource }, time, allWeeks);
  const targetByItem = new Map(
    keptItems(facts).flatMap((item) => {
      const use = useByItem.get(item.id);
      const supply = supplyByItem.get(item.id);
      const target = use && supply ? itemTarget(facts, item, use, supply, { recipes, lbBySource }) : null;
      return target === null ? [] : [[item.id, target] as const];
    }),
  );
  return {
    facts,
    useByItem,
    supplyByItem,
    targetByItem,
    seasonsBySource,
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
            leftToFetch(facts, source, (lbBySource.get(source.id) ?? []).slice(0, horizonWeeks), weeks),
            weeks,
            (lastUseBySource.get(source.id) ?? []).slice(0, horizonWeeks),
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

/** The household's windows end on the day after the last; the harvest core names the last day. */
export const writtenYears = (source: Source) =>
  source.windows.map((window) => ({
    year: window.year,
    beginsOn: window.beginsOn,
    endsOn: addDays(window.endsOn, -1),
    mostActive:
      window.mostActive === null
        ? null
        : { from: window.mostActive.fromOn, to: addDays(window.mostActive.untilOn, -1) },
    lbPerWeek: window.lbPerWeek,
    usualLbPerWeek: window.usualLbPerWeek ?? window.lbPerWeek,
    firstPickedOn: window.firstPickedOn,
  }));

function suppliesOf(
  facts: HouseholdFacts,
  { planned }: RecipesHere,
  {
    lbBySource,
    lastUseBySource,
  }: Readonly<Record<'lbBySource' | 'lastUseBySource', ReadonlyMap<Source['id'], readonly number[]>>>,
  time: KitchenTime,
  weeks: readonly WeekKey[],
): ReadonlyMap<ItemId, ItemSupply> {
  const crops = cropsAhead(
    facts.sources.map(({ id, crop, useByDays }) => ({
      crop,
      useByDays,
      lbByWeek: lbBySource.get(id) ?? [],
      lastUseWeekByWeek: lastUseBySource.get(id) ?? [],
    })),
  );
  const there = new Set(facts.materials.filter(({ waiting }) => waiting > 0).map(({ id }) => id));
  return new Map(
    facts.items.map((item): [ItemId, ItemSupply] => {
      if (item.retiredOn === null && orNone(facts.packs.get(item.id)?.length) > 0) {
        const nextWeek = weeks[1] ?? null;
        return [
          item.id,
          {
            canArrive: weeks.map(() => true),
            nextSupplyWeek: nextWeek,
            nextSeasonWeek: nextWeek,
            seasonAfterWeek: null,
            failsChance: 0,
            by: 'bought',
          },
        ];
      }
      const ways = withGivers(
        planned.filter((recipe) => recipe.itemId === item.id),
        planned,
        there,
      );
      const canArrive = supplyWeeks(ways, crops, time.maxSessionsByWeek);
      const [season, after] = seasonStarts(canArrive);
      return [
        item.id,
        {
          canArrive,
          nextSupplyWeek: weeks[canArrive.indexOf(true)] ?? null,
          nextSeasonWeek: season === undefined ? null : (weeks[season] ?? null),
          seasonAfterWeek: after === undefined ? null : (weeks[after] ?? null),
          failsChance: seasonFails(
            ways,
            facts.sources.map((source) => ({ ...source, lbByWeek: lbBySource.get(source.id) ?? [] })),
          ),
          by: 'made',
        },
      ];
    }),
  );
}

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
