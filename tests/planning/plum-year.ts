import { asJarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import { addWeeks, asDate, weekOf, weeksFrom } from '../../shared/week.ts';
import type { PlannedItem, PlannedRecipe, PlanningYear } from '../../src/planning/planning-year.ts';

const asOf = asDate('2026-11-30');
export const plumWeeks = weeksFrom(weekOf(asOf), 52);
/** Weeks of the year in which there are plums: 34 to 37, August. */
const plumSeason = [34, 35, 36, 37] as const;
const pint = asJarKind('pint', 'regular');

const inSeason = <T>(there: T, otherwise: T): T[] =>
  plumWeeks.map((_, week) => ((plumSeason as readonly number[]).includes(week) ? there : otherwise));
const everyWeek = <T>(value: T): T[] => plumWeeks.map(() => value);

export const plumJam: PlannedItem = {
  id: 'plum-jam' as PlannedItem['id'],
  name: 'Plum jam',
  kind: 'preserve',
  jarKind: pint,
  openingLots: [
    {
      lotId: 'plum-jam-old' as PlannedItem['openingLots'][number]['lotId'],
      units: 30,
      jars: 30,
      jarKind: pint,
      readyFrom: addWeeks(plumWeeks[0] ?? weekOf(asOf), -15),
      bestQualityUntil: addWeeks(plumWeeks[0] ?? weekOf(asOf), 60),
    },
  ],
  useByWeek: everyWeek(0.5),
  yearlyTarget: 26,
  reserveUnits: 2,
  yearEndUnits: 17,
  familyMinimumUnits: null,
  bestQualityWeeks: 52,
  packs: [],
};

export const jamRecipe: PlannedRecipe = {
  id: 'jam-of-plums' as PlannedRecipe['id'],
  name: 'Jam of plums',
  itemId: plumJam.id,
  jarKind: pint,
  yieldLowUnits: 7,
  yieldHighJars: 8,
  produce: [{ crop: 'plum' as PlannedRecipe['produce'][number]['crop'], lb: 10, mayBeFrozen: false }],
  gives: [],
  uses: [],
  supplies: [{ supplyId: 'sugar', quantity: 5 }],
  handsOnMinutes: 90,
  processing: {
    cannerId: 'kettle' as NonNullable<PlannedRecipe['processing']>['cannerId'],
    scheduleKey: 'plum-jam-pint',
    lowAcid: false,
    minutes: 10,
    psi: null,
    jarsPerLoad: 8,
    loadMinutes: 50,
    attendedMinutes: 10,
  },
  readyAfterWeeks: 0,
  crock: null,
  allowedByWeek: null,
};

/** A household of one jam and one tree, small enough to work out by hand: 13 jars are missing at the year's end. */
export function plumYear(change: Partial<PlanningYear> = {}): PlanningYear {
  return {
    asOf,
    weeks: plumWeeks,
    items: [plumJam],
    recipes: [jamRecipe],
    sources: [
      {
        id: 'orchard' as PlanningYear['sources'][number]['id'],
        name: 'Orchard',
        crop: 'plum' as PlanningYear['sources'][number]['crop'],
        kind: 'market',
        lbByWeek: inSeason(20, 0),
        priceCentsPerLbByWeek: plumWeeks.map((_, week) => asCents(week === 35 ? 90 : 120)),
        useByDays: 4,
        poorYearChance: 0,
        poorYearShare: 1,
        fallBack: 'do-without',
      },
    ],
    materials: [],
    canners: [
      { id: 'kettle' as PlanningYear['canners'][number]['id'], name: 'Kettle', method: 'boiling-water' },
    ],
    supplies: [
      { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 4, packQuantity: 5, packPrice: asCents(400) },
    ],
    jars: [{ kind: pint, owned: 60, empty: 30, pack: 12, packPrice: asCents(1500), returnShare: 0.5 }],
    lids: [{ mouth: 'regular', onHand: 10, box: 12, boxPrice: asCents(450) }],
    groups: [],
    time: {
      maxSessionsByWeek: everyWeek(1),
      hoursPerSessionByWeek: everyWeek(5),
      setUpMinutes: 30,
    },
    fund: { opening: asCents(2000), setAsideByWeek: everyWeek(asCents(300)) },
    storage: { freezerQuarts: 20, freezerQuartsPerDay: 5, crockQuarts: 8 },
    kept: [],
    ...change,
  };
}
