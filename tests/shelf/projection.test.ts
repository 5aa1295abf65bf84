import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, mondayOf, sundayOf, weekOf, weeksFrom } from '../../shared/week.ts';
import { exactly } from '../../src/consumption/count-distribution.ts';
import { issueFirstExpired } from '../../src/shelf/first-expired.ts';
import { drawWeeks } from '../../src/shelf/predicted-use.ts';
import { projectShelf } from '../../src/shelf/projection.ts';
import type {
  IncomingUnits,
  PredictedUse,
  ProjectedLot,
  ShelfAhead,
  Spread,
} from '../../src/shelf/shelf-projection.ts';
import { eats, seeded } from './households-use.ts';

const asOf = asDate('2026-11-25');
const thisWeek = weekOf(asOf);
const levels = ['expected', 'p10', 'p50', 'p90'] as const;

const lot = (units: number, goodForDays = 200, lotId = `lot-${goodForDays}`): ProjectedLot => ({
  lotId,
  units,
  readyFrom: asOf,
  bestQualityUntil: addDays(asOf, goodForDays),
});
const batch = (inWeeks: number, units: number, readyAfterDays = 0): IncomingUnits => {
  const week = addWeeks(thisWeek, inWeeks);
  return {
    week,
    units,
    readyFrom: addDays(mondayOf(week), readyAfterDays),
    bestQualityUntil: addDays(mondayOf(week), 365),
  };
};
const shelf = (facts: Partial<ShelfAhead>): ShelfAhead => ({
  asOf,
  weeks: 52,
  lots: [lot(20)],
  incoming: [],
  use: eats({ perWeek: 0.5, takings: 12, weeks: 52 }),
  nextSupplyWeek: null,
  ...facts,
});
/** Exactly so many units every week, without doubt. */
const always = (units: number, weeks = 52): PredictedUse => ({
  weeklyMean: Array.from({ length: weeks }, () => units),
  totalOver: (count) => exactly(units * count),
  beginCourse: () => (wanted) => wanted.fill(units),
});

describe('a shelf that gets nothing new, worked by hand', () => {
  test('one jar a week from four jars: none is left after the fourth week', () => {
    const projection = projectShelf(shelf({ lots: [lot(4)], use: always(1), weeks: 8 }));

    expect(projection.weeks.map((week) => week.closing.expected)).toEqual([3, 2, 1, 0, 0, 0, 0, 0]);
    expect(projection.weeks.map((week) => week.unmet)).toEqual([0, 0, 0, 0, 1, 1, 1, 1]);
    expect(projection.runOut.p50).toBe(addWeeks(thisWeek, 3));
    expect(projection.method).toEqual({ kind: 'exact' });
  });

  test('three jars against a Poisson want of 1: 3·0.3679 + 2·0.3679 + 1·0.1839 are left', () => {
    const use = eats({ perWeek: 1, takings: 1e9, weeks: 1 });

    const [week] = projectShelf(shelf({ lots: [lot(3)], use, weeks: 1 })).weeks;

    expect(week?.closing.expected).toBeCloseTo(3 * 0.367879 + 2 * 0.367879 + 0.18394, 4);
  });

  test('the shelf lasts to its next supply exactly as often as the total wanted before it is covered', () => {
    const use = eats({ perWeek: 0.5, takings: 12, weeks: 52 });

    const projection = projectShelf(shelf({ use, lots: [lot(20)], nextSupplyWeek: addWeeks(thisWeek, 30) }));

    expect(projection.chanceOfLasting).toBe(use.totalOver(30).atMost(20));
  });

  test('what is still there in half a jar steps is counted in full', () => {
    const halfAtAFeast: PredictedUse = { ...always(0), totalOver: () => exactly(1.5) };

    const [week] = projectShelf(shelf({ lots: [lot(4)], use: halfAtAFeast, weeks: 1 })).weeks;

    expect(week?.closing.expected).toBeCloseTo(2.5, 9);
  });

  test('units past their date are those of the lots that expire first and were not eaten by then', () => {
    const projection = projectShelf(
      shelf({ lots: [lot(6, 12, 'soon'), lot(10, 300, 'later')], use: always(1), weeks: 8 }),
    );

    // Best until Monday of the third week: six jars less the three eaten by that Sunday are past it, then one less a week.
    expect(projection.weeks.map((week) => week.pastBest.expected)).toEqual([0, 0, 3, 2, 1, 0, 0, 0]);
  });
});

describe('a shelf that is filled again', () => {
  test('what an empty shelf could not give is lost, not owed by the next batch', () => {
    const projection = projectShelf(
      shelf({ lots: [lot(2)], incoming: [batch(4, 6)], use: always(1), weeks: 8 }),
    );

    expect(projection.weeks.map((week) => week.closing.p50)).toEqual([1, 0, 0, 0, 5, 4, 3, 2]);
    expect(projection.weeks.map((week) => week.in)).toEqual([0, 0, 0, 0, 6, 0, 0, 0]);
    expect(projection.runOut.p50).toBe(addWeeks(thisWeek, 1));
  });

  test('jars that still cure stand on the shelf and are not eaten', () => {
    const projection = projectShelf(
      shelf({ lots: [], incoming: [batch(0, 6, 21)], use: always(1), weeks: 6 }),
    );

    expect(projection.weeks.map((week) => week.closing.expected)).toEqual([6, 6, 6, 5, 4, 3]);
    expect(projection.runOut.p10).toBe(null);
  });

  test('what reaches the household’s own ceiling leaves the shelf', () => {
    const old: ProjectedLot = { ...lot(10), discardOn: mondayOf(addWeeks(thisWeek, 3)) };

    const projection = projectShelf(shelf({ lots: [old], use: always(1), weeks: 5 }));

    expect(projection.weeks.map((week) => week.discarded)).toEqual([0, 0, 0, 7, 0]);
    expect(projection.weeks.map((week) => week.closing.expected)).toEqual([9, 8, 7, 0, 0]);
  });

  test('a supply that comes before the first is gone makes the projection no surer than its sample', () => {
    const projection = projectShelf(shelf({ incoming: [batch(20, 12)] }), { paths: 400, seed: 7 });

    expect(projection.method).toEqual({ kind: 'simulated', paths: 400, seed: 7, standardError: 0.025 });
  });
});

interface Household {
  readonly ahead: ShelfAhead;
  readonly takings: number;
  readonly perWeek: number;
}

const units = fc.oneof(
  fc.nat(25),
  fc.integer({ min: 0, max: 50 }).map((halves) => halves / 2),
);
const household: fc.Arbitrary<Household> = fc
  .record({
    lots: fc.array(fc.record({ units, goodForDays: fc.integer({ min: -60, max: 400 }) }), { maxLength: 4 }),
    batches: fc.array(fc.record({ inWeeks: fc.integer({ min: 0, max: 51 }), units, cure: fc.nat(40) }), {
      maxLength: 3,
    }),
    perWeek: fc.double({ min: 0.05, max: 3, noNaN: true }),
    takings: fc.integer({ min: 3, max: 30 }),
    supply: fc.option(fc.integer({ min: 1, max: 51 })),
    ceilingDays: fc.option(fc.integer({ min: 1, max: 500 })),
  })
  .map(({ lots, batches, perWeek, takings, supply, ceilingDays }) => ({
    takings,
    perWeek,
    ahead: shelf({
      lots: lots.map((each, place) => ({
        ...lot(each.units, each.goodForDays, `lot-${place}`),
        discardOn: ceilingDays === null ? null : addDays(asOf, ceilingDays),
      })),
      incoming: batches.map((each) => batch(each.inWeeks, each.units, each.cure)),
      use: eats({ perWeek, takings, weeks: 52 }),
      nextSupplyWeek: supply === null ? null : addWeeks(thisWeek, supply),
    }),
  }));

const quick = { paths: 300, seed: 5 };

describe('every shelf', () => {
  test('opening + in - out = closing, for the expectation and each level, and nothing comes out of nowhere', () => {
    fc.assert(
      fc.property(household, ({ ahead }) => {
        const { weeks } = projectShelf(ahead, quick);

        weeks.forEach((week, place) => {
          for (const level of levels) {
            expect(week.opening[level] + week.in - week.out[level]).toBeCloseTo(week.closing[level], 9);
            expect(week.out[level]).toBeGreaterThan(-1e-6);
            expect(week.closing[level]).toBeGreaterThanOrEqual(0);
            expect(week.pastBest[level]).toBeLessThanOrEqual(week.closing[level] + 1e-6);
            if (place > 0) expect(week.opening[level]).toBe(weeks[place - 1]?.closing[level]);
          }
          expect(week.taken + week.discarded).toBeCloseTo(week.out.expected, 6);
          expect(week.closing.p10).toBeLessThanOrEqual(week.closing.p50);
          expect(week.closing.p50).toBeLessThanOrEqual(week.closing.p90);
        });
        expect(weeks[0]?.opening.p50).toBeCloseTo(
          ahead.lots.reduce((sum, each) => sum + each.units, 0),
          9,
        );
      }),
      { numRuns: 40 },
    );
  });

  test('what is wanted is taken or missing', () => {
    fc.assert(
      fc.property(household, ({ ahead }) => {
        const simulated = projectShelf(ahead, quick);

        if (simulated.method.kind === 'exact') {
          simulated.weeks.forEach((week, place) => {
            expect(week.taken + week.unmet).toBeCloseTo(ahead.use.weeklyMean[place] ?? 0, 6);
          });
        } else {
          const asked = simulated.weeks.reduce((sum, week) => sum + week.taken + week.unmet, 0);
          const { mean, variance } = ahead.use.totalOver(52);
          expect(Math.abs(asked - mean)).toBeLessThan(5 * Math.sqrt(variance / quick.paths));
        }
      }),
      { numRuns: 40 },
    );
  });

  test('more on the shelf never makes it run out earlier nor lowers the chance of lasting', () => {
    const rank = (week: string | null): string => week ?? 'beyond';
    fc.assert(
      fc.property(
        household,
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 0, max: 400 }),
        (some, more, days) => {
          const before = projectShelf(some.ahead, quick);
          const ceiling = some.ahead.lots[0]?.discardOn ?? null;
          const richer = {
            ...some.ahead,
            lots: [
              ...some.ahead.lots.filter((each) => each.units > 0),
              { ...lot(more, days, 'more'), discardOn: ceiling },
            ],
          };
          fc.pre(some.ahead.lots.some((each) => each.units > 0));

          const after = projectShelf(richer, quick);

          for (const level of ['p10', 'p50', 'p90'] as const) {
            expect(rank(after.runOut[level]) >= rank(before.runOut[level])).toBe(true);
          }
          expect(after.chanceOfLasting).toBeGreaterThanOrEqual(before.chanceOfLasting - 1e-12);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('run-out weeks come in order, and the order of lots and batches changes nothing', () => {
    const rank = (week: string | null): string => week ?? 'beyond';
    fc.assert(
      fc.property(household, ({ ahead }) => {
        const projection = projectShelf(ahead, quick);
        const turned = projectShelf(
          { ...ahead, lots: [...ahead.lots].reverse(), incoming: [...ahead.incoming].reverse() },
          quick,
        );

        expect(rank(projection.runOut.p10) <= rank(projection.runOut.p50)).toBe(true);
        expect(rank(projection.runOut.p50) <= rank(projection.runOut.p90)).toBe(true);
        turned.weeks.forEach((week, place) => {
          expect(week.closing.p50).toBeCloseTo(projection.weeks[place]?.closing.p50 ?? -1, 6);
          expect(week.pastBest.expected).toBeCloseTo(projection.weeks[place]?.pastBest.expected ?? -1, 6);
        });
        expect(turned.runOut).toEqual(projection.runOut);
      }),
      { numRuns: 30 },
    );
  });
});

/** A plain second telling of the same year: whole lots with dates, issued by the public rule, another random stream. */
function playedPlainly(ahead: ShelfAhead, paths: number, seed: number) {
  const random = seeded(seed);
  const weeks = weeksFrom(thisWeek, ahead.weeks);
  const monday = weeks.map(mondayOf);
  const sunday = weeks.map(sundayOf);
  const closing = weeks.map(() => [] as number[]);
  const pastBest = weeks.map(() => [] as number[]);
  let lasted = 0;
  for (let path = 0; path < paths; path += 1) {
    const wanted = drawWeeks(ahead.use, random);
    let lots: readonly ProjectedLot[] = ahead.lots;
    let missing = 0;
    weeks.forEach((week, place) => {
      const fresh = ahead.incoming.filter((each) => each.week === week);
      lots = [...lots, ...fresh.map((each, which) => ({ ...each, lotId: `in-${week}-${which}` }))];
      if (place > 0) lots = lots.filter((each) => !each.discardOn || each.discardOn > (monday[place] ?? ''));
      const lastDay = sunday[place] ?? sundayOf(week);
      const issue = issueFirstExpired(lots, wanted[place] ?? 0, lastDay);
      lots = issue.left;
      if (ahead.nextSupplyWeek === null || week < ahead.nextSupplyWeek) missing += issue.unmet;
      closing[place]?.push(lots.reduce((sum, each) => sum + each.units, 0));
      pastBest[place]?.push(
        lots.filter((each) => each.bestQualityUntil < lastDay).reduce((sum, each) => sum + each.units, 0),
      );
    });
    if (missing === 0) lasted += 1;
  }
  return { closing, pastBest, chanceOfLasting: lasted / paths };
}

const meanOf = (sample: readonly number[]): number =>
  sample.reduce((sum, one) => sum + one, 0) / sample.length;
const shareAtMost = (sample: readonly number[], limit: number): number =>
  sample.filter((one) => one <= limit + 1e-9).length / sample.length;

describe('an independent simulation of the same households agrees', () => {
  const paths = 3000;
  const quantilesAgree = (projected: Spread, sample: readonly number[], slack: number): void => {
    // At least the level lies at or below the quantile, and no more than the level strictly below it.
    for (const [level, share] of [
      ['p10', 0.1],
      ['p50', 0.5],
      ['p90', 0.9],
    ] as const) {
      expect(shareAtMost(sample, projected[level])).toBeGreaterThanOrEqual(share - slack);
      expect(shareAtMost(sample, projected[level] - 1e-6)).toBeLessThanOrEqual(share + slack);
    }
  };

  test.each([
    { name: 'one shelf to be eaten up', ahead: shelf({ lots: [lot(9, 60, 'a'), lot(14, 250, 'b')] }) },
    {
      name: 'two batches to come, one of them curing',
      ahead: shelf({
        lots: [lot(5, 60, 'a'), lot(4, -10, 'b')],
        incoming: [batch(16, 8, 30), batch(35, 7)],
        nextSupplyWeek: addWeeks(thisWeek, 35),
      }),
    },
    {
      name: 'half jars, a ceiling, and a season',
      ahead: shelf({
        lots: [{ ...lot(7.5, 20, 'a'), discardOn: addDays(asOf, 100) }, lot(6, 300, 'b')],
        incoming: [batch(28, 9)],
        use: eats({
          perWeek: 0.6,
          takings: 8,
          weeks: 52,
          season: Array.from({ length: 52 }, (_, week) => (week < 20 ? 0.4 : 1.5)),
        }),
      }),
    },
  ])('$name', ({ ahead }) => {
    const projection = projectShelf(ahead, { paths, seed: 99 });
    const plain = playedPlainly(ahead, paths, 4711);
    // Four standard errors of the difference between the two; the exact answer has none of its own.
    const own = projection.method.kind === 'simulated' ? projection.method.standardError : 0;
    const allowed = 4 * Math.hypot(own, Math.sqrt(0.25 / paths));

    expect(Math.abs(projection.chanceOfLasting - plain.chanceOfLasting)).toBeLessThan(allowed);
    for (const place of [0, 3, 9, 16, 25, 36, 51]) {
      const projected = projection.weeks[place];
      const closing = plain.closing[place] ?? [];
      if (!projected) throw new Error('no such week');
      quantilesAgree(projected.closing, closing, allowed);
      quantilesAgree(projected.pastBest, plain.pastBest[place] ?? [], allowed);
      // `allowed` is for a share with deviation one half; the stock's own deviation is taken from the plain telling.
      const average = meanOf(closing);
      const deviation = Math.sqrt(meanOf(closing.map((units) => (units - average) ** 2)));
      expect(Math.abs(projected.closing.expected - average)).toBeLessThanOrEqual(2 * deviation * allowed);
    }
  });
});

describe('what cannot be projected', () => {
  test('a batch of a week that has passed', () => {
    expect(() => projectShelf(shelf({ incoming: [batch(-1, 6)] }))).toThrow(
      'lies before the week of 2026-11-25',
    );
  });

  test('a use forecast shorter than the horizon', () => {
    expect(() => projectShelf(shelf({ weeks: 60 }))).toThrow(
      'projectShelf: expected a use forecast of 60 weeks or more, got 52',
    );
  });

  test('fewer than no units', () => {
    expect(() => projectShelf(shelf({ lots: [lot(-2)] }))).toThrow(
      'expected 0 or more units in lot-200, got -2',
    );
  });
});
