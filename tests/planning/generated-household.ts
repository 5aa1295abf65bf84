import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { asJarKind, type JarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { addWeeks, asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import type {
  PlannedItem,
  PlannedRecipe,
  PlannedSource,
  PlanningYear,
} from '../../src/planning/planning-year.ts';

export interface HouseholdSize {
  readonly seed: number;
  readonly preserves: number;
  readonly staples: number;
  /** Share of the usual money set aside; below 1 money is short. */
  readonly fundShare?: number;
  /** By-products worked up, crops frozen at harvest, a crock, groups, minimums, decisions kept. */
  readonly rich?: boolean;
}

/** A household made up from a seed, of any size, in amounts a family could eat: invented data for measuring the planner. */
export function generatedHousehold({
  seed,
  preserves,
  staples,
  fundShare = 1,
  rich = false,
}: HouseholdSize): PlanningYear {
  const generator = xoroshiro128plus(seed);
  const between = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  const pick = <T>(list: readonly [T, ...T[]]): T => list[whole(0, list.length - 1)] ?? list[0];
  const asOf = asDate('2026-11-25');
  const weeks = weeksFrom(weekOf(asOf), 52);
  const byWeek = <T>(make: (week: number) => T) => weeks.map((_, week) => make(week));
  const pint = asJarKind('pint', 'regular');
  const quart = asJarKind('quart', 'wide');
  const halfPint = asJarKind('half-pint', 'regular');

  const items: PlannedItem[] = [];
  const recipes: PlannedRecipe[] = [];
  const sources: PlannedSource[] = [];
  for (let at = 0; at < preserves; at += 1) {
    const key = String(at).padStart(3, '0');
    const lowAcid = at % 5 === 4;
    const spread = at % 5 === 1 || at % 5 === 3;
    const jarKind: JarKind = spread ? halfPint : lowAcid ? pint : pick([pint, quart, quart]);
    const usePerWeek = between(0.25, spread ? 0.8 : 1.3);
    const peak = whole(28, 44);
    const seasonWeeks = whole(4, 9);
    const openingUnits = Math.round(usePerWeek * between(18, 36));
    const madeIn = addWeeks(weeks[0] ?? weekOf(asOf), -whole(8, 18));
    items.push({
      id: `preserve-${key}` as PlannedItem['id'],
      name: `Preserve ${key}`,
      kind: 'preserve',
      jarKind,
      openingLots: [
        {
          lotId: `lot-${key}` as PlannedItem['openingLots'][number]['lotId'],
          units: openingUnits,
          jars: openingUnits,
          jarKind,
          readyFrom: madeIn,
          bestQualityUntil: addWeeks(madeIn, 52),
        },
      ],
      useByWeek: byWeek(() => usePerWeek),
      yearlyTarget: Math.round(usePerWeek * 52),
      reserveUnits: Math.round(usePerWeek * 4),
      yearEndUnits: Math.round(usePerWeek * 30),
      familyMinimumUnits: null,
      bestQualityWeeks: 52,
      packs:
        at % 3 === 0 ? [{ id: 'shop', units: 1, priceByWeek: byWeek(() => asCents(between(350, 650))) }] : [],
    });
    const crop = `crop-${key}` as PlannedSource['crop'];
    const isGarden = at % 4 === 0;
    const price = whole(60, 260);
    const lbPerBatch = whole(6, 21);
    sources.push({
      id: `source-${key}` as PlannedSource['id'],
      name: `Source ${key}`,
      crop,
      kind: isGarden ? 'garden' : at % 4 === 1 ? 'pick-your-own' : 'market',
      lbByWeek: byWeek((week) =>
        week >= peak - seasonWeeks / 2 && week < peak + seasonWeeks / 2
          ? whole(isGarden ? 10 : 60, isGarden ? 45 : 120)
          : 0,
      ),
      priceCentsPerLbByWeek: byWeek((week) => asCents(isGarden ? 0 : price + 6 * Math.abs(week - peak))),
      useByDays: pick([3, 5, 10, 30]),
      poorYearChance: 0.15,
      poorYearShare: 0.4,
      fallBack: 'buy',
    });
    const jars = jarKind === quart ? 7 : jarKind === pint ? 9 : 8;
    recipes.push({
      id: `recipe-${key}` as PlannedRecipe['id'],
      name: `Recipe ${key}`,
      itemId: `preserve-${key}` as PlannedItem['id'],
      jarKind,
      yieldLowUnits: jars - 1,
      yieldHighJars: jars,
      produce: [{ crop, lb: lbPerBatch, mayBeFrozen: spread }],
      gives: [],
      uses: [],
      supplies: spread
        ? [
            { supplyId: 'sugar', quantity: whole(3, 7) },
            { supplyId: 'pectin', quantity: 1 },
          ]
        : [{ supplyId: 'vinegar', quantity: between(0, 1.5) }],
      handsOnMinutes: whole(50, 150),
      processing: {
        cannerId: (lowAcid ? 'pressure' : 'kettle') as NonNullable<PlannedRecipe['processing']>['cannerId'],
        scheduleKey: `schedule-${key}`,
        lowAcid,
        minutes: lowAcid ? 75 : 30,
        psi: lowAcid ? 11 : null,
        jarsPerLoad: jarKind === quart ? 7 : 9,
        loadMinutes: lowAcid ? 125 : 60,
        attendedMinutes: lowAcid ? 40 : 10,
      },
      readyAfterWeeks: at % 7 === 6 ? 4 : 0,
      crock: null,
      allowedByWeek: null,
    });
  }
  for (let at = 0; at < staples; at += 1) {
    const key = String(at).padStart(3, '0');
    const usePerWeek = between(0.3, 3);
    const price = whole(150, 500);
    const packUnits = pick([1, 5, 10]);
    items.push({
      id: `staple-${key}` as PlannedItem['id'],
      name: `Staple ${key}`,
      kind: 'staple',
      jarKind: null,
      openingLots: [
        {
          lotId: `staple-lot-${key}` as PlannedItem['openingLots'][number]['lotId'],
          units: Math.round(usePerWeek * 4),
          jars: 0,
          jarKind: null,
          readyFrom: weeks[0] ?? weekOf(asOf),
          bestQualityUntil: addWeeks(weeks[0] ?? weekOf(asOf), 40),
        },
      ],
      useByWeek: byWeek(() => usePerWeek),
      yearlyTarget: Math.round(usePerWeek * 52),
      reserveUnits: Math.round(usePerWeek * 2),
      yearEndUnits: Math.round(usePerWeek * 4),
      familyMinimumUnits: null,
      bestQualityWeeks: pick([20, 52, 104]),
      packs: [
        {
          id: 'usual',
          units: packUnits,
          priceByWeek: byWeek((week) => asCents(packUnits * price * (week % 13 === 5 ? 0.8 : 1))),
        },
      ],
    });
  }
  const minutesWanted = recipes.reduce((sum, recipe, at) => {
    const wantedUnits = (items[at]?.useByWeek[0] ?? 0) * 62;
    return sum + Math.ceil(wantedUnits / recipe.yieldLowUnits) * (recipe.handsOnMinutes + 40);
  }, 0);
  // About half as much again as the work wanted, over the five months in which crops ripen.
  const minutesAWeek = (1.5 * minutesWanted) / 22;
  const sessionsAWeek = Math.min(4, Math.max(2, Math.ceil(minutesAWeek / 360)));
  const weeklyMoney = fundShare * (preserves * 300 + staples * 600);
  const year: PlanningYear = {
    asOf,
    weeks,
    items,
    recipes,
    sources,
    materials: [],
    canners: [
      { id: 'kettle' as PlanningYear['canners'][number]['id'], name: 'Kettle', method: 'boiling-water' },
      {
        id: 'pressure' as PlanningYear['canners'][number]['id'],
        name: 'Pressure canner',
        method: 'pressure',
      },
    ],
    supplies: [
      { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 10, packQuantity: 10, packPrice: asCents(799) },
      { id: 'pectin', name: 'Pectin', unit: 'box', onHand: 2, packQuantity: 1, packPrice: asCents(389) },
      { id: 'vinegar', name: 'Vinegar', unit: 'quart', onHand: 1, packQuantity: 4, packPrice: asCents(479) },
    ],
    jars: [
      {
        kind: pint,
        owned: preserves * 16,
        empty: preserves * 4,
        pack: 12,
        packPrice: asCents(1499),
        returnShare: 0.5,
      },
      {
        kind: quart,
        owned: preserves * 16,
        empty: preserves * 4,
        pack: 12,
        packPrice: asCents(1699),
        returnShare: 0.5,
      },
      {
        kind: halfPint,
        owned: preserves * 12,
        empty: preserves * 3,
        pack: 12,
        packPrice: asCents(1299),
        returnShare: 0.5,
      },
    ],
    lids: [
      { mouth: 'regular', onHand: 48, box: 12, boxPrice: asCents(449) },
      { mouth: 'wide', onHand: 36, box: 12, boxPrice: asCents(549) },
    ],
    groups: [],
    time: {
      maxSessionsByWeek: byWeek((week) => (week === 35 ? 0 : sessionsAWeek)),
      hoursPerSessionByWeek: byWeek(() => Math.max(4, Math.ceil(minutesAWeek / sessionsAWeek / 60))),
      setUpMinutes: 30,
    },
    fund: { opening: asCents(15000), setAsideByWeek: byWeek(() => asCents(weeklyMoney)) },
    storage: { freezerQuarts: 40, freezerQuartsPerDay: 8, crockQuarts: 8 },
    kept: [],
  };
  return rich ? withEverything(year) : year;
}

/** The same household with material that waits and freezes, a crock, a group of its spreads, minimums and decisions. */
function withEverything(year: PlanningYear): PlanningYear {
  const spreads = year.items.filter(({ jarKind }) => jarKind === asJarKind('half-pint', 'regular'));
  const giver = year.recipes[0];
  const taker = year.recipes.find(({ itemId }) => itemId === spreads[0]?.id);
  const pulp = 'pulp-of-first';
  return {
    ...year,
    items: year.items.map((item, at) =>
      at % 4 === 1 ? { ...item, familyMinimumUnits: Math.round(item.yearlyTarget / 3) } : item,
    ),
    recipes: [
      ...year.recipes.map((recipe, at) => ({
        ...recipe,
        ...(recipe.id === giver?.id ? { gives: [{ materialId: pulp, quantity: 5 }] } : {}),
        ...(at === 2 ? { processing: null, crock: { quarts: 4, weeks: 4 }, readyAfterWeeks: 4 } : {}),
      })),
      ...(taker === undefined
        ? []
        : [
            {
              ...taker,
              id: 'recipe-of-pulp' as PlannedRecipe['id'],
              name: 'Recipe of pulp',
              produce: [],
              uses: [{ materialId: pulp, quantity: 6 }],
            },
          ]),
    ],
    materials: [
      {
        id: pulp,
        name: 'Pulp',
        unit: 'lb',
        opening: 2,
        keepsDaysCold: 7,
        keepsMonthsFrozen: 8,
        quartsPerUnit: 0.5,
      },
    ],
    freezable: year.recipes
      .flatMap(({ produce }) => produce.filter(({ mayBeFrozen }) => mayBeFrozen))
      .slice(0, 3)
      .map(({ crop }, at) => ({
        crop,
        openingLb: at === 0 ? 6 : 0,
        keepsMonthsFrozen: 8,
        quartsPerLb: 0.75,
      })),
    groups:
      spreads.length < 2
        ? []
        : [
            {
              id: 'spreads' as PlanningYear['groups'][number]['id'],
              name: 'Spreads',
              members: spreads.map(({ id }) => ({ itemId: id, groupUnitsPerUnit: 1 })),
              totalUnits: spreads.reduce((sum, { yearlyTarget }) => sum + yearlyTarget, 0),
              leastKinds: 2,
              largestShare: 0.7,
            },
          ],
    kept: year.recipes.slice(1, 2).map(({ id }) => ({
      recipeId: id,
      week: year.weeks[30] ?? ('' as never),
      decision: 'ruled-out' as const,
    })),
  };
}
