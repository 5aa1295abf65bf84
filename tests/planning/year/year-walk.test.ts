import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { YearlyTarget } from '../../../src/consumption/yearly-target.ts';
import { gaveWayUnits, yearWalk } from '../../../src/planning/year/year-walk.ts';
import { plumJam } from '../plum-year.ts';

const weeks = Array.from({ length: 52 }, () => 0);
const parts = { use: 0, occasions: 0, gifts: 0, promised: 0, hungryYear: 0, failedCrop: 0 };

/** A year that wants `use` and `reserve`, and `after` to last from its end until more can be made. */
const yearOf = ({
  use,
  reserve,
  after = 0,
  byHand = null as number | null,
  emergency = 0,
}: {
  use: number;
  reserve: number;
  after?: number;
  byHand?: number | null;
  emergency?: number;
}) => {
  const fromForecast = use + reserve;
  const target: YearlyTarget = {
    units: byHand ?? Math.ceil(fromForecast - 1e-6),
    parts: { ...parts, use, hungryYear: reserve },
    fromForecast,
    expectedWaste: 0,
    byHand:
      byHand === null ? null : { units: byHand, difference: byHand - fromForecast, chanceOfCovering: 1 },
  };
  const reserveUnits = byHand === null ? reserve : Math.min(reserve, byHand);
  const forUse = byHand === null ? use : byHand - reserveUnits;
  const item = {
    ...plumJam,
    useByWeek: weeks.map(() => forUse / 52),
    reserveUnits,
    yearEndUnits: after,
    yearlyTarget: target.units,
    ...(emergency > 0 ? { emergencyUnits: emergency } : {}),
  };
  return { item, target };
};

describe('from need to missing', () => {
  test('what is kept for an emergency is a part of its own, and what stands of it is not to come', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4, emergency: 6 });

    expect(yearWalk(item, { target, standing: 6, planned: 0 })).toMatchObject({
      parts: [
        { part: 'use', units: 18 },
        { part: 'hungryYear', units: 4 },
        { part: 'emergency', units: 6 },
      ],
      need: 28,
      reserve: 10,
      toCome: 22,
    });
    const byHand = yearOf({ use: 18, reserve: 4, byHand: 20, emergency: 6 });
    expect(yearWalk(byHand.item, { target: byHand.target, standing: 2, planned: 0 })).toMatchObject({
      parts: [
        { part: 'byHand', units: 20 },
        { part: 'emergency', units: 6 },
      ],
      need: 26,
      toCome: 24,
    });
  });

  test('what the plan serves exactly leaves nothing missing, though need is said in whole jars', () => {
    const { item, target } = yearOf({ use: 18, reserve: 3.3, after: 9.4 });

    expect(yearWalk(item, { target, standing: 13, planned: 18 })).toMatchObject({
      parts: [
        { part: 'use', units: 18 },
        { part: 'hungryYear', units: 4 },
      ],
      need: 22,
      reserve: 4,
      carryOver: 9,
      standing: 13,
      toCome: 18,
      planned: 18,
      missing: 0,
      over: 0,
    });
  });

  test('what neither stands nor is planned is missing, of the reserve first', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4 });
    const walk = yearWalk(item, { target, standing: 6, planned: 10 });

    expect(walk.missing).toBe(6);
    expect(gaveWayUnits(walk, { rung: 'reserve', amount: 9 })).toBe(4);
    expect(gaveWayUnits(walk, { rung: 'use', amount: 9 })).toBe(2);
  });

  test('a number set by hand is the need; what use and reserve come to stays known', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4, byHand: 30 });

    expect(yearWalk(item, { target, standing: 0, planned: 0 })).toMatchObject({
      parts: [{ part: 'byHand', units: 30 }],
      need: 30,
      needByUse: 22,
      missing: 30,
    });
  });

  test('half jars fill a jar: two that are too few by less than half a one are enough', () => {
    const { item, target } = yearOf({ use: 12, reserve: 0 });

    expect(yearWalk(item, { target, standing: 6.25, planned: 5.5 }).missing).toBe(0);
    expect(yearWalk(item, { target, standing: 6.25, planned: 5 }).missing).toBe(1);
  });

  const hundredths = (most: number) => fc.integer({ min: 0, max: most * 100 }).map((units) => units / 100);
  const figures = fc.record({
    use: hundredths(80),
    reserve: hundredths(20),
    after: fc.oneof(fc.constant(0), hundredths(40)),
    byHand: fc.option(fc.integer({ min: 0, max: 90 })),
    standing: fc.integer({ min: 0, max: 240 }).map((quarters) => quarters / 4),
    planned: fc.integer({ min: 0, max: 240 }).map((quarters) => quarters / 4),
    emergency: fc.integer({ min: 0, max: 30 }),
  });

  test('every step is whole, and they add up', () => {
    fc.assert(
      fc.property(figures, ({ standing, planned, ...year }) => {
        const { item, target } = yearOf(year);
        const walk = yearWalk(item, { target, standing, planned });
        const { parts: _parts, otherJars: _jars, ...units } = walk;

        for (const amount of [...Object.values(units), ...walk.parts.map((part) => part.units)]) {
          expect(Number.isInteger(amount)).toBe(true);
          expect(amount).toBeGreaterThanOrEqual(0);
        }
        expect(walk.parts.reduce((sum, part) => sum + part.units, 0)).toBe(walk.need);
        expect(walk.need + walk.carryOver + walk.over).toBe(walk.standing + walk.planned + walk.missing);
        expect(Math.min(walk.missing, walk.over)).toBe(0);
        const wanted =
          item.useByWeek.reduce((sum, units) => sum + units, 0) +
          item.reserveUnits +
          item.yearEndUnits +
          year.emergency;
        expect(walk.missing > 0).toBe(wanted - standing - planned > 0.5 + 1e-6);
        expect(Math.abs(walk.missing - Math.max(0, wanted - standing - planned))).toBeLessThanOrEqual(2);
      }),
      { numRuns: 2_000 },
    );
  });
});
