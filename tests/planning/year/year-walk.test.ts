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
    notWorthABatch: 0,
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

  test('what of a reserve is not worth a batch is let go, and nothing is missing', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4 });
    const walked = (planned: number, reserveNotWorthABatch = 2.6) =>
      yearWalk({ ...item, reserveNotWorthABatch }, { target, standing: 6, planned });

    expect(walked(13)).toMatchObject({ need: 22, toCome: 16, planned: 13, letGo: 3, missing: 0, over: 0 });
    expect(walked(12)).toMatchObject({ planned: 12, letGo: 0, missing: 4 });
    expect(walked(16)).toMatchObject({ letGo: 0, missing: 0, over: 0 });
    expect(walked(13, 0)).toMatchObject({ letGo: 0, missing: 3 });
    expect(gaveWayUnits(walked(13), { rung: 'reserve', amount: 3 })).toBe(0);
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

  test('parts are whole and sum to the need: the largest rests are made up first', () => {
    const { item, target } = yearOf({ use: 10, reserve: 0 });
    const mixed = {
      ...target,
      parts: { use: 10.2, occasions: 1.6, gifts: 0.3, promised: 2, hungryYear: 3.5, failedCrop: 1.4 },
      fromForecast: 19,
      expectedWaste: 1.6,
    };
    const walk = yearWalk({ ...item, yearlyTarget: 19 }, { target: mixed, standing: 0, planned: 0 });
    // 10, 1, 0, 2, 3 and 1 are 17: the two left over go to occasions and the hungry year; a gift of a third is none.
    expect(walk.parts).toEqual([
      { part: 'use', units: 10 },
      { part: 'occasions', units: 2 },
      { part: 'promised', units: 2 },
      { part: 'hungryYear', units: 4 },
      { part: 'failedCrop', units: 1 },
    ]);
    expect(walk).toMatchObject({
      need: 19,
      needByUse: 19,
      reserveByUse: 5,
      reserve: 5,
      waste: 2,
      carryOver: 0,
    });
  });

  test('of what nobody eats by a forecast the whole target is use', () => {
    const { item } = yearOf({ use: 5, reserve: 0 });
    expect(yearWalk({ ...item, yearlyTarget: 4.2 }, { target: null, standing: 0, planned: 0 })).toMatchObject(
      {
        parts: [{ part: 'use', units: 5 }],
        need: 5,
        needByUse: 5,
        waste: 0,
        missing: 5,
      },
    );
    const none = { ...item, yearlyTarget: 0, useByWeek: weeks };
    expect(yearWalk(none, { target: null, standing: 3, planned: 0 })).toMatchObject({
      parts: [],
      need: 0,
      toCome: 0,
      missing: 0,
      over: 3,
    });
    expect(yearWalk({ ...none, emergencyUnits: 2 }, { target: null, standing: 0, planned: 0 })).toMatchObject(
      {
        parts: [{ part: 'emergency', units: 2 }],
        need: 2,
        needByUse: 2,
      },
    );
  });

  test('a number of nought set by hand needs nothing, and no waste is said of one', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4, byHand: 0 });
    expect(
      yearWalk(item, { target: { ...target, expectedWaste: 3 }, standing: 0, planned: 0 }),
    ).toMatchObject({ parts: [], need: 0, needByUse: 22, reserveByUse: 4, reserve: 0, waste: 0 });
  });

  test('what is planned beyond need is over', () => {
    const { item, target } = yearOf({ use: 18, reserve: 0 });
    expect(yearWalk(item, { target, standing: 6, planned: 15 })).toMatchObject({
      missing: 0,
      over: 3,
      toCome: 12,
    });
  });

  test('a last half jar is said as the whole it fills, of what stands where nothing is planned', () => {
    const { item, target } = yearOf({ use: 12, reserve: 0 });
    expect(yearWalk(item, { target, standing: 11.6, planned: 0 })).toMatchObject({
      standing: 12,
      toCome: 0,
      missing: 0,
    });
    expect(yearWalk(item, { target, standing: 11.5, planned: 0 })).toMatchObject({
      standing: 12,
      missing: 0,
    });
    expect(yearWalk(item, { target, standing: 11.4, planned: 0 })).toMatchObject({
      standing: 11,
      toCome: 1,
      missing: 1,
    });
    expect(yearWalk(item, { target, standing: 6, planned: 5.5 })).toMatchObject({
      standing: 6,
      planned: 6,
      missing: 0,
    });
    // Two halves are one.
    expect(yearWalk(item, { target, standing: 5.5, planned: 5.5 })).toMatchObject({
      standing: 6,
      planned: 5,
      missing: 1,
    });
  });

  test('less than half a unit that is missing is filled, of what is planned where anything is', () => {
    const { item, target } = yearOf({ use: 11.8, reserve: 0 });
    expect(yearWalk(item, { target, standing: 6, planned: 5.4 })).toMatchObject({
      standing: 6,
      planned: 6,
      missing: 0,
      over: 0,
    });
    expect(yearWalk(item, { target, standing: 11.4, planned: 0 })).toMatchObject({
      standing: 12,
      planned: 0,
      toCome: 0,
      missing: 0,
    });
    const half = yearOf({ use: 11.9, reserve: 0 });
    expect(yearWalk(half.item, { target: half.target, standing: 11.4, planned: 0 })).toMatchObject({
      standing: 12,
      missing: 0,
    });
    expect(yearWalk(half.item, { target: half.target, standing: 11.3, planned: 0 })).toMatchObject({
      standing: 11,
      missing: 1,
    });
  });

  test('what is weighed is said in tenths', () => {
    const { item, target } = yearOf({ use: 12.34, reserve: 0, byHand: 12.34 });
    const weighed = { target, step: 0.1 };
    expect(yearWalk(item, { ...weighed, standing: 2.26, planned: 3 })).toMatchObject({
      need: 12.4,
      standing: 2.3,
      planned: 3,
      toCome: 10.1,
      missing: 7.1,
    });
    expect(yearWalk(item, { ...weighed, standing: 12.3, planned: 0 })).toMatchObject({
      missing: 0,
      standing: 12.4,
    });
    expect(yearWalk(item, { ...weighed, standing: 12.28, planned: 0 }).missing).toBe(0.1);
  });

  test('jars of other sizes are told as they are, none unless said', () => {
    const { item, target } = yearOf({ use: 12, reserve: 0 });
    const otherJars = [{ kind: 'quart/regular' as never, jars: 2 }];
    expect(yearWalk(item, { target, standing: 4, planned: 0, otherJars }).otherJars).toEqual(otherJars);
    expect(yearWalk(item, { target, standing: 4, planned: 0 }).otherJars).toEqual([]);
  });

  test('other wishes that gave way are no part of the walk', () => {
    const { item, target } = yearOf({ use: 18, reserve: 4 });
    const walk = yearWalk(item, { target, standing: 20, planned: 0 });
    expect(walk.missing).toBe(2);
    expect(gaveWayUnits(walk, { rung: 'variety', amount: 9 })).toBe(9);
    expect(gaveWayUnits(walk, { rung: 'reserve', amount: 9 })).toBe(2);
    expect(gaveWayUnits(walk, { rung: 'use', amount: 9 })).toBe(0);
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
    notWorthABatch: fc.oneof(fc.constant(0), hundredths(20)),
  });

  test('every step is whole, and they add up', () => {
    fc.assert(
      fc.property(figures, ({ standing, planned, notWorthABatch, ...year }) => {
        const { item: asked, target } = yearOf(year);
        const item = { ...asked, reserveNotWorthABatch: Math.min(notWorthABatch, asked.reserveUnits) };
        const walk = yearWalk(item, { target, standing, planned });
        const { parts: _parts, otherJars: _jars, ...units } = walk;

        for (const amount of [...Object.values(units), ...walk.parts.map((part) => part.units)]) {
          expect(Number.isInteger(amount)).toBe(true);
          expect(amount).toBeGreaterThanOrEqual(0);
        }
        expect(walk.parts.reduce((sum, part) => sum + part.units, 0)).toBe(walk.need);
        const lacking = walk.letGo + walk.missing;
        expect(walk.need + walk.carryOver + walk.over).toBe(walk.standing + walk.planned + lacking);
        expect([walk.letGo, walk.missing, walk.over].filter((amount) => amount > 0).length).toBeLessThan(2);
        const wanted =
          item.useByWeek.reduce((sum, units) => sum + units, 0) +
          item.reserveUnits +
          item.yearEndUnits +
          year.emergency;
        expect(lacking > 0).toBe(wanted - standing - planned > 0.5 + 1e-6);
        if (walk.letGo > 0)
          expect(wanted - standing - planned).toBeLessThanOrEqual(item.reserveNotWorthABatch + 0.5 + 1e-6);
        else if (lacking > 0)
          expect(wanted - standing - planned).toBeGreaterThan(item.reserveNotWorthABatch + 0.5);
        expect(Math.abs(lacking - Math.max(0, wanted - standing - planned))).toBeLessThanOrEqual(2);
      }),
      { numRuns: 2_000 },
    );
  });
});
