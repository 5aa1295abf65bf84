import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addWeeks, asWeek, type CalendarDate, mondayOf } from '../../shared/week.ts';
import { issueFirstExpired, type ShelfLot } from '../../src/shelf/first-expired.ts';
import { seeded } from './households-use.ts';

const firstWeek = asWeek('2026-W10');
const dayOfWeek = (week: number): CalendarDate => mondayOf(addWeeks(firstWeek, week));
const lot = (lotId: string, units: number, bestByWeek: number, readyWeek = 0): ShelfLot => ({
  lotId,
  units,
  readyFrom: dayOfWeek(readyWeek),
  bestQualityUntil: dayOfWeek(bestByWeek),
});

// A worked example constructed for this project, worked by hand: lots whose best-by week has passed leave the shelf at
// the start of a week, then what is wanted takes the earliest best-by first. Four lots, ten weeks.
describe('four lots over ten weeks', () => {
  const wantedByWeek = [2, 1, 2, 3, 1, 2, 2, 1, 1, 2];
  const arrivals: Record<number, ShelfLot[]> = { 6: [lot('D', 3, 7, 6)] };

  function play(order: (lots: readonly ShelfLot[]) => readonly ShelfLot[]) {
    let shelf: readonly ShelfLot[] = [lot('A', 6, 3), lot('B', 4, 9), lot('C', 5, 5)];
    return wantedByWeek.map((wanted, place) => {
      const week = place + 1;
      shelf = [...shelf, ...(arrivals[week] ?? [])];
      const passed = shelf.filter((each) => each.bestQualityUntil < dayOfWeek(week));
      shelf = shelf.filter((each) => !passed.includes(each));
      const issue = issueFirstExpired(order(shelf), wanted, dayOfWeek(week));
      shelf = issue.left;
      return {
        passedBestBy: passed.reduce((sum, each) => sum + each.units, 0),
        taken: Object.fromEntries(issue.taken.map((part) => [part.lotId, part.units])),
        unmet: issue.unmet,
        endStock: shelf.reduce((sum, each) => sum + each.units, 0),
      };
    });
  }

  test('first expired, first out: three pass their date, two are missing', () => {
    const weeks = play((lots) => lots);

    expect(weeks).toEqual([
      { passedBestBy: 0, taken: { A: 2 }, unmet: 0, endStock: 13 },
      { passedBestBy: 0, taken: { A: 1 }, unmet: 0, endStock: 12 },
      { passedBestBy: 0, taken: { A: 2 }, unmet: 0, endStock: 10 },
      { passedBestBy: 1, taken: { C: 3 }, unmet: 0, endStock: 6 },
      { passedBestBy: 0, taken: { C: 1 }, unmet: 0, endStock: 5 },
      { passedBestBy: 1, taken: { D: 2 }, unmet: 0, endStock: 5 },
      { passedBestBy: 0, taken: { D: 1, B: 1 }, unmet: 0, endStock: 3 },
      { passedBestBy: 0, taken: { B: 1 }, unmet: 0, endStock: 2 },
      { passedBestBy: 0, taken: { B: 1 }, unmet: 0, endStock: 1 },
      { passedBestBy: 1, taken: {}, unmet: 2, endStock: 0 },
    ]);
  });

  test('first come, first out wastes twice as much: six pass their date, five are missing', () => {
    // The order of coming is told to the rule by dates that only say which lot is older; the true dates are kept apart.
    const trueDate = new Map([...'ABCD'].map((id, place) => [id, [3, 9, 5, 7][place] ?? 0]));
    let shelf = [...'ABC'].map((id, place) => lot(id, [6, 4, 5][place] ?? 0, 20 + place));
    let passed = 0;
    let unmet = 0;
    wantedByWeek.forEach((wanted, place) => {
      const week = place + 1;
      if (week === 6) shelf = [...shelf, lot('D', 3, 30, 6)];
      const gone = shelf.filter((each) => (trueDate.get(each.lotId) ?? 0) < week);
      passed += gone.reduce((sum, each) => sum + each.units, 0);
      const issue = issueFirstExpired(
        shelf.filter((each) => !gone.includes(each)),
        wanted,
        dayOfWeek(week),
      );
      unmet += issue.unmet;
      shelf = [...issue.left];
    });

    expect({ passed, unmet }).toEqual({ passed: 6, unmet: 5 });
  });
});

// Fixed life, Poisson supply and wants, first in first out: outdate rate e / (1/λ + (e-1)/(λ-μ)) with e = exp((λ-μ)m),
// λ/(1+λm) when λ = μ. Method in the line of Graves (1982), Management Science 28, 1042-1047, and Kaspi & Perry (1983),
// Advances in Applied Probability 15, 674-685: from memory, the formula derived anew and checked by simulation.
describe('perishables in the long run: what passes its date and what is missing', () => {
  test.each([
    { arrival: 1, wanted: 1, life: 5, outdate: 0.16666666666666666, lost: 0.16666666666666666 },
    { arrival: 1, wanted: 1.2, life: 5, outdate: 0.08841974573716468, lost: 0.28841974573716467 },
    { arrival: 1.2, wanted: 1, life: 4, outdate: 0.31971394729218955, lost: 0.1197139472921896 },
    { arrival: 0.8, wanted: 1, life: 8, outdate: 0.038526065691216915, lost: 0.23852606569121687 },
  ])('arrival $arrival, wanted $wanted, life $life', ({ arrival, wanted, life, outdate, lost }) => {
    const random = seeded(1982);
    const timeUnits = 40_000;
    let shelf: readonly ShelfLot[] = [];
    let passed = 0;
    let missing = 0;
    let clock = 0;
    for (let unit = 0; ; unit += 1) {
      clock += -Math.log(1 - random()) / (arrival + wanted);
      if (clock > timeUnits) break;
      const today = dayAt(clock);
      const fresh = shelf.filter((each) => each.bestQualityUntil >= today);
      passed += shelf.length - fresh.length;
      if (random() < arrival / (arrival + wanted)) {
        const lotId = String(unit).padStart(9, '0');
        shelf = [...fresh, { lotId, units: 1, readyFrom: today, bestQualityUntil: dayAt(clock + life) }];
      } else {
        const issue = issueFirstExpired(fresh, 1, today);
        missing += issue.unmet;
        shelf = issue.left;
      }
    }

    // Ten times this length was seen to agree within 0.0015, so this length agrees within three times 0.0047.
    expect(Math.abs(passed / timeUnits - outdate)).toBeLessThan(0.0145);
    expect(Math.abs(missing / timeUnits - lost)).toBeLessThan(0.0145);
  });
});

/** Fifty days to a unit of time: fine against lives of 4 to 8, and 40,000 units still end before the year 10000. */
const dayAt = (clock: number): CalendarDate =>
  new Date(Date.UTC(2026, 0, 1 + Math.floor(clock * 50))).toISOString().slice(0, 10) as CalendarDate;

describe('issuing from any shelf', () => {
  const shelves = fc.array(
    fc.record({
      units: fc.oneof(fc.nat(30), fc.double({ min: 0, max: 30, noNaN: true })),
      best: fc.nat(60),
      ready: fc.nat(60),
    }),
    { maxLength: 12 },
  );
  const lotsOf = (shelf: readonly { units: number; best: number; ready: number }[]): ShelfLot[] =>
    shelf.map((each, place) => lot(`lot-${place}`, each.units, each.best, each.ready));
  const total = (parts: readonly { readonly units: number }[]): number =>
    parts.reduce((sum, part) => sum + part.units, 0);

  test('what was there is what was taken plus what is left, and what was wanted is taken or unmet', () => {
    fc.assert(
      fc.property(
        shelves,
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.nat(60),
        (shelf, wanted, week) => {
          const lots = Object.freeze(lotsOf(shelf));

          const issue = issueFirstExpired(lots, wanted, dayOfWeek(week));

          expect(total(issue.taken) + total(issue.left)).toBeCloseTo(total(lots), 6);
          expect(total(issue.taken) + issue.unmet).toBeCloseTo(wanted, 6);
        },
      ),
    );
  });

  test('nothing is taken before it is ready, and no ready lot is passed over for one that expires later', () => {
    fc.assert(
      fc.property(shelves, fc.nat(100), fc.nat(60), (shelf, wanted, week) => {
        const lots = lotsOf(shelf);
        const today = dayOfWeek(week);

        const issue = issueFirstExpired(lots, wanted, today);

        const dates = new Map(lots.map((each) => [each.lotId, each]));
        const latestTaken =
          issue.taken.map((part) => dates.get(part.lotId)?.bestQualityUntil ?? '').at(-1) ?? '';
        expect(issue.taken.every((part) => (dates.get(part.lotId)?.readyFrom ?? '9') <= today)).toBe(true);
        for (const left of issue.left) {
          if (left.readyFrom <= today) expect(left.bestQualityUntil >= latestTaken).toBe(true);
        }
        if (issue.unmet > 0) expect(issue.left.every((left) => left.readyFrom > today)).toBe(true);
      }),
    );
  });

  test('the order in which lots are listed changes nothing', () => {
    fc.assert(
      fc.property(shelves, fc.nat(100), fc.nat(60), fc.integer(), (shelf, wanted, week, seed) => {
        const lots = lotsOf(shelf);
        const random = seeded(seed);
        const shuffled = [...lots].sort(() => random() - 0.5);

        expect(issueFirstExpired(shuffled, wanted, dayOfWeek(week))).toEqual(
          issueFirstExpired(lots, wanted, dayOfWeek(week)),
        );
      }),
    );
  });

  test('half a usual jar is a fraction of a unit', () => {
    const issue = issueFirstExpired([lot('small', 1.5, 3), lot('usual', 2, 5)], 2, dayOfWeek(1));

    expect(issue.taken).toEqual([
      { lotId: 'small', units: 1.5 },
      { lotId: 'usual', units: 0.5 },
    ]);
  });

  test('an amount below zero is an error that names the lot', () => {
    expect(() => issueFirstExpired([lot('plum', -1, 3)], 1, dayOfWeek(1))).toThrow(
      'issueFirstExpired: expected units of lot plum to be 0 or more, got -1',
    );
  });
});
