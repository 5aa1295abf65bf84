import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CropKey, SourceId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { addDays, asDate, type CalendarDate, yearOf } from '../../shared/week.ts';
import type { HarvestWindow, Source } from '../../src/household/source.ts';
import {
  foodYears,
  gardenYears,
  lbPerPlantBySource,
  sourceSeasons,
} from '../../src/look-back/through-years.ts';
import type { AccountEvent } from '../../src/shelf/account.ts';

const event = (
  seq: number,
  on: string,
  units: number,
  kind: AccountEvent['kind'] = units > 0 ? 'put up' : 'taken',
  reversesSeq: number | null = null,
): AccountEvent => ({
  seq,
  itemId: 'relish',
  kind,
  units,
  trainsUse: false,
  reason: null,
  occurredOn: asDate(on),
  reversesSeq,
});
const always = (day: string) => () => asDate(day);

describe('a food through the years', () => {
  const events = [
    event(1, '2024-09-10', 20),
    event(2, '2025-02-01', -8),
    event(3, '2025-06-01', -12),
    event(4, '2025-09-12', 30),
    event(5, '2026-03-01', -10),
  ];

  test('lasted in a year with some on every known day, ran out in one with days without, and the running year lasts so far', () => {
    const [food] = foodYears(events, asDate('2026-10-05'), always('2024-09-10'));

    expect(food?.years.map(({ year, lasting }) => [year, lasting])).toEqual([
      [2024, 'not known'],
      [2025, 'ran out'],
      [2026, 'lasts so far'],
    ]);
    // None from June 2 to September 11.
    expect(food?.years[1]?.account.daysWithout).toBe(102);
    expect([food?.judged, food?.lasted]).toEqual([1, 0]);
  });

  test('is judged once a running year is over', () => {
    const [food] = foodYears(events, asDate('2027-01-01'), always('2024-09-10'));

    expect(food?.years.find(({ year }) => year === 2026)?.lasting).toBe('lasted');
    expect([food?.judged, food?.lasted]).toEqual([2, 1]);
  });

  test('says nothing of years before anything was recorded, whatever old jars were written down', () => {
    const [food] = foodYears(events, asDate('2026-10-05'), always('2026-09-01'));

    expect(food?.years.map(({ lasting }) => lasting)).toEqual(['not known', 'not known', 'not known']);
    expect(food?.judged).toBe(0);
  });

  test('leaves out what was taken back and what is still to come', () => {
    const [food] = foodYears(
      [
        ...events,
        event(6, '2026-04-01', 99),
        event(7, '2026-04-01', -99, 'reversed', 6),
        event(8, '2026-12-01', 5),
      ],
      asDate('2026-10-05'),
      always('2024-09-10'),
    );

    expect(food?.years.at(-1)?.levels.at(-1)).toEqual({ on: '2026-10-05', units: 20 });
    expect(Math.max(...(food?.years ?? []).flatMap(({ levels }) => levels.map(({ units }) => units)))).toBe(
      30,
    );
  });

  test('has nothing before the first movement', () => {
    expect(foodYears([], asDate('2026-10-05'), always('2024-01-01'))).toEqual([]);
  });

  test('each year opens with what the one before it closed with, and every line is the shelf of its day', () => {
    const day = fc.integer({ min: 0, max: 1400 }).map((days) => addDays(asDate('2023-02-01'), days));
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            day,
            fc.integer({ min: -9, max: 24 }).filter((units) => units !== 0),
          ),
          {
            minLength: 1,
            maxLength: 40,
          },
        ),
        (moves) => {
          const ledger = moves.map(([on, units], at) => event(at + 1, on, units));
          const asOf = asDate('2026-12-15');
          const shelfOn = (on: CalendarDate): number =>
            ledger.reduce((sum, { occurredOn, units }) => (occurredOn <= on ? sum + units : sum), 0);
          const [food] = foodYears(ledger, asOf, always('2023-02-01'));
          const years = food?.years ?? [];

          for (const [at, { year, account, levels }] of years.entries()) {
            if (at > 0) expect(account.opening).toBe(years[at - 1]?.account.closing);
            expect(levels.at(-1)?.units).toBe(account.closing);
            for (const { on, units } of levels) {
              expect(yearOf(on)).toBe(year);
              expect(units).toBe(shelfOn(on));
            }
          }
        },
      ),
    );
  });
});

const window = (year: number, beginsOn: string, firstPickedOn: string | null): HarvestWindow => ({
  year,
  beginsOn: asDate(beginsOn),
  endsOn: asDate(`${year}-10-01`),
  mostActive: null,
  lbPerWeek: 10,
  usualLbPerWeek: null,
  datesGuessed: false,
  firstPickedOn: firstPickedOn === null ? null : asDate(firstPickedOn),
});
const source = (change: Partial<Source> = {}): Source => ({
  id: 'bed' as SourceId,
  crop: 'okra' as CropKey,
  name: 'Okra bed',
  kind: 'garden',
  pricePerLb: asCents(0),
  pricedIn: null,
  plants: 10,
  lbPerPlant: 2,
  useByDays: 3,
  poorYearChance: 0,
  poorYearShare: 0.3,
  fallBack: 'buy',
  windows: [],
  ...change,
});

describe('seasons through the years', () => {
  test('are late or early by the first picking, and on average by the mean of them', () => {
    const [seasons] = sourceSeasons([
      source({
        windows: [
          window(2025, '2025-07-10', '2025-07-04'),
          window(2024, '2024-07-10', '2024-07-22'),
          window(2026, '2026-07-10', null),
        ],
      }),
    ]);

    expect(seasons?.seasons.map(({ year, lateDays }) => [year, lateDays])).toEqual([
      [2024, 12],
      [2025, -6],
    ]);
    expect(seasons?.usuallyLateDays).toBe(3);
  });

  test('a source without a first picking is left out', () => {
    expect(sourceSeasons([source({ windows: [window(2026, '2026-07-10', null)] })])).toEqual([]);
  });
});

describe('what a plant of the garden gives', () => {
  const gave = (year: number, lb: number, plants: number | null) => ({
    sourceId: 'bed' as SourceId,
    year,
    lb,
    plants,
  });

  test('is what was said, moved by each year it was weighed', () => {
    const [garden] = gardenYears([source()], [gave(2026, 30, 10), gave(2025, 8, 8)]);

    expect(garden?.years.map(({ year, lbPerPlant }) => [year, lbPerPlant])).toEqual([
      [2025, 1],
      [2026, 3],
    ]);
    // (2 · 2 + 1 + 3) / (2 + 2)
    expect(garden?.lbPerPlant).toBe(2);
  });

  test('is the mean of the years where nothing was said, and not known where nobody counted plants', () => {
    const unsaid = source({ lbPerPlant: null });
    expect(gardenYears([unsaid], [gave(2025, 8, 8), gave(2026, 30, 10)])[0]?.lbPerPlant).toBe(2);
    expect(gardenYears([unsaid], [gave(2026, 30, null), gave(2025, 0, 0)])[0]?.lbPerPlant).toBeNull();
  });

  test('nothing is asked of a market, and a plant that gave nothing is no ground for a list of plants', () => {
    expect(gardenYears([source({ kind: 'market' })], [])).toEqual([]);
    expect(lbPerPlantBySource([source({ lbPerPlant: null })], [gave(2026, 0, 12)]).size).toBe(0);
    expect(lbPerPlantBySource([source()], [gave(2026, 0, 12)]).get('bed' as SourceId)).toBeCloseTo(4 / 3, 9);
  });
});
