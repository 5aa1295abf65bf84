import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { asJarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { addWeeks, asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';

/**
 * A year of five weeks (unless more are wanted) small enough to try every canning plan: three preserves, four ways to make them (one works up the
 * by-product of another), few jars, a group, short best quality, a crock, a pin. Everything varies with the seed.
 */
export function tinyYear(seed: number, weekCount = 5): PlanningYear {
  const generator = xoroshiro128plus(seed);
  const chance = (share: number) => uniformFloat64(generator) < share;
  const whole = (low: number, high: number) => low + Math.floor(uniformFloat64(generator) * (high - low + 1));
  const asOf = asDate('2027-07-05');
  const weeks = weeksFrom(weekOf(asOf), weekCount);
  const pint = asJarKind('pint', 'regular');
  const byWeek = <T>(make: (week: number) => T) => weeks.map((_, week) => make(week));
  const item = (id: string, extra: Partial<PlannedItem>): PlannedItem => {
    const opening = whole(0, 6);
    const bestQualityWeeks = extra.bestQualityWeeks ?? (chance(0.5) ? whole(1, 3) : 52);
    return {
      id: id as PlannedItem['id'],
      name: id,
      kind: 'preserve',
      jarKind: pint,
      openingLots: [
        {
          lotId: `${id}-old` as PlannedItem['openingLots'][number]['lotId'],
          units: opening,
          jars: opening,
          jarKind: pint,
          readyFrom: addWeeks(weeks[0] ?? weekOf(asOf), -20),
          bestQualityUntil: addWeeks(weeks[0] ?? weekOf(asOf), whole(0, Math.min(6, bestQualityWeeks))),
        },
      ].filter(({ units }) => units > 0),
      useByWeek: byWeek(() => whole(0, 3)),
      yearlyTarget: 0,
      reserveUnits: whole(0, 2),
      yearEndUnits: whole(0, 4),
      familyMinimumUnits: chance(0.3) ? whole(1, 8) : null,
      bestQualityWeeks,
      packs: [],
      ...extra,
    };
  };
  const shopPrice = whole(100, 900);
  const items = [
    item('jam', {}),
    item('juice', {}),
    item('sauce', {
      bestQualityWeeks: 52,
      openingLots: [],
      packs: chance(0.5) ? [{ id: 'shop', units: 1, priceByWeek: byWeek(() => asCents(shopPrice)) }] : [],
    }),
  ];
  const allowedTwo = () => {
    const first = whole(0, 3);
    return byWeek((week) => week === first || week === first + 1);
  };
  const recipe = (id: string, itemId: string, extra: Partial<PlannedRecipe>): PlannedRecipe => {
    const jars = whole(3, 6);
    return {
      id: id as PlannedRecipe['id'],
      name: id,
      itemId: itemId as PlannedItem['id'],
      jarKind: pint,
      yieldLowUnits: jars - whole(0, 1),
      yieldHighJars: jars,
      produce: [
        { crop: 'plum' as PlannedRecipe['produce'][number]['crop'], lb: whole(4, 8), mayBeFrozen: false },
      ],
      gives: [],
      uses: [],
      supplies: [{ supplyId: 'sugar', quantity: whole(1, 4) }],
      handsOnMinutes: whole(70, 150),
      processing: {
        cannerId: 'kettle' as NonNullable<PlannedRecipe['processing']>['cannerId'],
        scheduleKey: id,
        lowAcid: false,
        minutes: 10,
        psi: null,
        jarsPerLoad: whole(3, 6),
        loadMinutes: whole(30, 70),
        attendedMinutes: whole(0, 20),
      },
      readyAfterWeeks: chance(0.3) ? 1 : 0,
      crock: null,
      allowedByWeek: allowedTwo(),
      ...extra,
    };
  };
  const pressing = allowedTwo();
  const recipes = [
    recipe('jam-of-plums', 'jam', { readyAfterWeeks: 0 }),
    recipe('juice-of-plums', 'juice', {
      allowedByWeek: pressing,
      gives: [{ materialId: 'pulp', quantity: whole(2, 4) }],
    }),
    recipe('jam-of-pulp', 'jam', {
      produce: [],
      uses: [{ materialId: 'pulp', quantity: whole(2, 5) }],
      allowedByWeek: byWeek((week) => pressing[week] === true || pressing[week - 1] === true),
      readyAfterWeeks: 0,
    }),
    recipe('sauce-in-crock', 'sauce', {
      processing: null,
      crock: chance(0.5) ? { quarts: whole(3, 6), weeks: whole(1, 3) } : null,
    }),
  ];
  return {
    asOf,
    weeks,
    items,
    recipes,
    sources: [
      {
        id: 'orchard' as PlanningYear['sources'][number]['id'],
        name: 'Orchard',
        crop: 'plum' as PlanningYear['sources'][number]['crop'],
        kind: 'pick-your-own',
        lbByWeek: byWeek(() => whole(4, 14)),
        priceCentsPerLbByWeek: byWeek(() => asCents(whole(40, 120))),
        useByDays: 4,
        poorYearChance: 0,
        poorYearShare: 1,
        fallBack: 'buy',
      },
      {
        id: 'stall' as PlanningYear['sources'][number]['id'],
        name: 'Stall',
        crop: 'plum' as PlanningYear['sources'][number]['crop'],
        kind: 'market',
        lbByWeek: byWeek(() => whole(0, 10)),
        priceCentsPerLbByWeek: byWeek(() => asCents(whole(60, 260))),
        useByDays: 4,
        poorYearChance: 0,
        poorYearShare: 1,
        fallBack: 'buy',
      },
    ],
    materials: [
      {
        id: 'pulp',
        name: 'Pulp',
        unit: 'lb',
        opening: 0,
        keepsDaysCold: chance(0.5) ? 7 : 3,
        keepsMonthsFrozen: null,
        quartsPerUnit: 0.5,
      },
    ],
    canners: [
      { id: 'kettle' as PlanningYear['canners'][number]['id'], name: 'Kettle', method: 'boiling-water' },
    ],
    supplies: [
      {
        id: 'sugar',
        name: 'Sugar',
        unit: 'lb',
        onHand: whole(0, 6),
        packQuantity: 4,
        packPrice: asCents(whole(200, 500)),
      },
    ],
    jars: [
      {
        kind: pint,
        owned: 30,
        empty: whole(0, 10),
        pack: 12,
        packPrice: asCents(whole(900, 2400)),
        returnShare: 0.5,
      },
    ],
    lids: [{ mouth: 'regular', onHand: whole(0, 24), box: 12, boxPrice: asCents(whole(300, 600)) }],
    groups: chance(0.6)
      ? [
          {
            id: 'sweet' as PlanningYear['groups'][number]['id'],
            name: 'Sweet',
            members: [
              { itemId: 'jam' as PlannedItem['id'], groupUnitsPerUnit: 1 },
              { itemId: 'juice' as PlannedItem['id'], groupUnitsPerUnit: chance(0.5) ? 1 : 2 },
            ],
            totalUnits: whole(4, 16),
            leastKinds: whole(1, 2),
            largestShare: chance(0.5) ? 0.7 : 1,
          },
        ]
      : [],
    time: {
      maxSessionsByWeek: byWeek(() => (chance(0.1) ? 2 : chance(0.8) ? 1 : 0)),
      hoursPerSessionByWeek: byWeek(() => whole(3, 4)),
      setUpMinutes: 20,
    },
    fund: { opening: asCents(1_000_000), setAsideByWeek: byWeek(() => asCents(0)) },
    storage: {
      freezerQuarts: 0,
      freezerQuartsPerDay: 0,
      crockQuarts: 6,
      // In every third year a ferment put up before stands in it for two weeks more.
      ...(seed % 3 === 0 ? { crockQuartsTakenByWeek: byWeek((week) => (week < 2 ? 4 : 0)) } : {}),
    },
    kept: chance(0.2)
      ? [
          {
            recipeId: 'jam-of-plums' as PlannedRecipe['id'],
            week: weeks[whole(0, 4)] ?? weekOf(asOf),
            decision: 'pinned',
            batches: 1,
          },
        ]
      : [],
  };
}
