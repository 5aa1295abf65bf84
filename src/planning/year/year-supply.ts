import type { ItemId } from '../../../shared/ids.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, type WeekKey, weekHolding, weeksFrom } from '../../../shared/week.ts';
import { poundsByWeek, type SourceYear, sourceYears } from '../../harvest/source-years.ts';
import type { HouseholdFacts } from '../../household/facts.ts';
import { latenessOf } from '../../household/ground.ts';
import type { Source } from '../../household/source.ts';
import { gaugeCheckPlannedOn } from '../../preserving/canner.ts';
import { usualWeekday } from '../days/session-dates.ts';
import { found, orNone } from '../lookup.ts';
import type { BegunBatches, KitchenTime } from '../planning-year.ts';
import { seasonFails } from './after-year.ts';
import { begunWhileRipe } from './begun-while-ripe.ts';
import { canningDaysOf, lastUseWeeks, type WaitingDays } from './fruit-waits.ts';
import { kitchenWeeks } from './kitchen-weeks.ts';
import { type RecipesHere, recipesHere } from './planned-recipes.ts';
import { begunBatches } from './planned-stages.ts';
import { cropsAhead, seasonStarts, supplyWeeks, withGivers } from './supply-weeks.ts';

export const horizonWeeks = 52;
/** The year after the horizon is looked at too: what the last week hands over depends on it. */
export const weeksLookedAt = 2 * horizonWeeks;

/** When an item can be made or bought again. */
export interface ItemSupply {
  /** By week of two years: something new can be ready. Always true for what is bought. */
  readonly canArrive: readonly boolean[];
  /** First week from now on in which something new can be ready; for what is bought, next week. */
  readonly nextSupplyWeek: WeekKey | null;
  /** First week of the next season of making, the one running now left out; what is put up now must last until then. */
  readonly nextSeasonWeek: WeekKey | null;
  /** First week of the season after that one; null when none is known within two years. */
  readonly seasonAfterWeek: WeekKey | null;
  /** Chance that a season brings nothing new at all, 0 to 1: see `seasonFails`. */
  readonly failsChance: number;
  readonly by: 'made' | 'bought';
}

/** What the supply of a year depends on. Nothing of it changes when a jar is taken, found or counted. */
export type SupplyAsked = Pick<
  HouseholdFacts,
  | 'household'
  | 'items'
  | 'packs'
  | 'recipes'
  | 'materials'
  | 'sources'
  | 'lateness'
  | 'canners'
  | 'hours'
  | 'daysOff'
  | 'preparations'
> & { readonly asOf: CalendarDate; readonly reference: ReferenceTables };

/** What comes to a household's shelf in a year and the year after it, and what its kitchen has to make it with. */
export interface YearSupply {
  readonly firstWeek: WeekKey;
  /** The planned year; `allWeeks` has the year after it too. */
  readonly weeks: readonly WeekKey[];
  readonly allWeeks: readonly WeekKey[];
  readonly time: KitchenTime;
  readonly waiting: WaitingDays;
  readonly recipes: RecipesHere;
  readonly begun: readonly BegunBatches[];
  readonly seasonsBySource: ReadonlyMap<Source['id'], readonly SourceYear[]>;
  /** Pounds to be had, and the week in which what was picked is used at the latest; by week of both years. */
  readonly lbBySource: ReadonlyMap<Source['id'], readonly number[]>;
  readonly lastUseBySource: ReadonlyMap<Source['id'], readonly number[]>;
  readonly supplyByItem: ReadonlyMap<ItemId, ItemSupply>;
}

/** The supply of a household's year; answered from memory while nothing it depends on was read anew. */
export const supplyOfYear = whileTheSame('recipes', (facts: SupplyAsked): YearSupply => {
  const { asOf, reference } = facts;
  const { weekStartsOn: startsOn } = facts.household;
  const firstWeek = weekHolding(asOf, startsOn);
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
  const lbBySource = new Map(
    facts.sources.map((source) => [
      source.id,
      poundsByWeek(found(seasonsBySource, source.id, 'seasonsBySource'), allWeeks, { startsOn, away }),
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
      lastUseWeeks(found(seasonsBySource, source.id, 'seasonsBySource'), source.useByDays, waiting),
    ]),
  );
  const supplyByItem = suppliesOf(facts, recipes, { lbBySource, lastUseBySource }, time, allWeeks);
  return {
    firstWeek,
    weeks,
    allWeeks,
    time,
    waiting,
    recipes,
    begun,
    seasonsBySource,
    lbBySource,
    lastUseBySource,
    supplyByItem,
  };
});

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
  facts: SupplyAsked,
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
      lbByWeek: found(lbBySource, id, 'lbBySource'),
      lastUseWeekByWeek: found(lastUseBySource, id, 'lastUseBySource'),
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
            facts.sources.map((source) => ({
              ...source,
              lbByWeek: found(lbBySource, source.id, 'lbBySource'),
            })),
          ),
          by: 'made',
        },
      ];
    }),
  );
}
