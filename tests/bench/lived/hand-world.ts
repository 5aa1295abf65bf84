import { asJarKind } from '../../../shared/jar.ts';
import { asDate, weekOf, weeksFrom } from '../../../shared/week.ts';
import { livedWeeks, type Path, type World, weeksInAll } from './world.ts';

// A world small enough to reckon by hand: quince jam in half-pints, made in weeks 2 and 3 only, and salt from the shop.

const kind = asJarKind('half-pint', 'regular');
const weeks = weeksFrom(weekOf(asDate('2026-04-06')), weeksInAll);
const everyWeek = <T>(value: T): T[] => weeks.map(() => value);

export const handWorld: World = {
  weeks,
  items: [
    {
      id: 'quince-jam',
      kind: 'preserve',
      jarKind: kind,
      lifeWeeks: 30,
      leftCents: 100,
      missCents: 900,
      costCents: 300,
      olderCents: 10,
      packs: [],
      openingLots: [{ id: 'last-year', units: 3, madeIn: -20, readyIn: -20, bestUntil: 10 }],
    },
    {
      id: 'salt',
      kind: 'staple',
      jarKind: null,
      lifeWeeks: 500,
      leftCents: 50,
      missCents: 300,
      costCents: 100,
      olderCents: 5,
      packs: [
        { id: 'one', units: 1, priceByWeek: everyWeek(80) },
        { id: 'five', units: 5, priceByWeek: everyWeek(250) },
      ],
      openingLots: [],
    },
  ],
  recipes: [
    {
      id: 'quince-jam',
      item: 0,
      jars: 0,
      lids: 0,
      mostUnits: 6,
      leastUnits: 4,
      minutes: 60,
      canner: 0,
      cannerMinutes: 40,
      produce: [{ crop: 'quince', lb: 5 }],
      supplies: [{ supply: 0, quantity: 2 }],
      readyAfterWeeks: 1,
      crock: null,
      allowedByWeek: everyWeek(true),
    },
  ],
  sources: [{ id: 'tree', crop: 'quince', centsPerLb: 20, carryWeeks: 0 }],
  supplies: [{ id: 'sugar', onHand: 1, pack: 4, packCents: 400 }],
  jars: [{ kind, empty: 4, pack: 6, packCents: 600 }],
  lids: [{ mouth: 'regular', onHand: 0, box: 12, boxCents: 360 }],
  canners: 1,
  sessionsByWeek: weeks.map((_, week) => (week < livedWeeks ? 1 : 0)),
  sessionMinutes: 180,
  setUpMinutes: 30,
  awayByWeek: everyWeek(false),
  crockQuarts: 0,
  fund: { opening: 3000, weekly: 100 },
  hourCents: 600,
};

/** One jar of jam every fourth week, a unit of salt every tenth; eight pounds of quinces in each of two weeks; batches of five jars. */
export const handPath: Path = {
  use: [weeks.map((_, week) => (week % 4 === 0 ? 1 : 0)), weeks.map((_, week) => (week % 10 === 9 ? 1 : 0))],
  harvest: [weeks.map((_, week) => (week === 2 || week === 3 ? 8 : 0))],
  yields: [everyWeek(5)],
  countedWeeks: [60, livedWeeks],
};
