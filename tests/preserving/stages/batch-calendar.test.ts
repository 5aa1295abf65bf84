import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { addDays, asDate, type CalendarDate, daysBetween } from '../../../shared/week.ts';
import type { BegunStage } from '../../../src/household/begun.ts';
import {
  type BatchAsked,
  batchCalendar,
  wayFollowed,
} from '../../../src/preserving/stages/batch-calendar.ts';
import { type RecipeStage, stagesOfKey, waysOf } from '../../../src/preserving/stages/recipe-stages.ts';
import { stagesRuling } from '../../../src/preserving/stages/stages-done.ts';

const tables = loadReferenceTables();
const keys = [...new Set(tables.recipeStages.map(({ recipeKey }) => recipeKey))];
const every = keys.flatMap((key) =>
  waysOf(stagesOfKey(tables, key)).map((way) => ({ key, way, stages: stagesOfKey(tables, key) })),
);
const stagesOf = (key: string) => stagesOfKey(tables, key);
const denver = 'America/Denver';
const zones = ['utc', denver, 'Europe/Berlin', 'Australia/Lord_Howe'];

const asked = (stages: readonly RecipeStage[], more: Partial<BatchAsked>): BatchAsked => ({
  stages,
  way: null,
  begun: [],
  load: { on: asDate('2026-08-22'), at: '09:00' },
  asOf: asDate('2026-07-01'),
  timeZone: denver,
  ...more,
});
const begun = (position: number, begunAt: string, way: string | null = null): BegunStage => ({
  position,
  begunAt,
  way,
});
const lines = (calendar: ReturnType<typeof batchCalendar>) =>
  calendar.before.map(({ from, until, state }) => `${from} ${until.slice(11)} ${state}`);
const isCivil = (time: string): boolean => time.slice(11) >= '07:00' && time.slice(11) <= '21:00';

describe('the calendar of one batch', () => {
  // USDA Complete Guide 4, p4-5 to p4-6: 12 to 18 hours, or boiled 2 minutes and soaked 1 hour.
  test('beans for Saturday are put to soak on Friday from three to nine, or on the morning itself', () => {
    const beans = stagesOf('beans-dried');

    const overnight = batchCalendar(asked(beans, {}));
    const quick = batchCalendar(asked(beans, { way: 'quick soak' }));

    expect(lines(overnight)).toEqual(['2026-08-21T15:00 21:00 ahead']);
    expect(overnight.load).toEqual({ on: '2026-08-22', at: '2026-08-22T09:00' });
    expect(lines(quick)).toEqual(['2026-08-22T07:00 08:00 ahead']);
  });

  // USDA Complete Guide 6, p6-11 to p6-12.
  test('14-day pickles have ten days of work before the fourteenth', () => {
    const calendar = batchCalendar(asked(stagesOf('14-day-sweet-pickles'), {}));

    expect(calendar.before.map(({ on }) => daysBetween(asDate('2026-08-09'), on) + 1)).toEqual([
      1, 3, 5, 7, 8, 9, 10, 11, 12, 13,
    ]);
  });

  // USDA Complete Guide 6, p6-8: 21 to 28 days at 70 to 75 °F, 35 to 42 at 60 to 65 °F; then tightly covered and cold.
  test('kraut is begun three weeks and a day before, five and a day where it is cooler', () => {
    const kraut = stagesOf('sauerkraut');
    const first = (way: string) => batchCalendar(asked(kraut, { way })).before[0]?.on;

    expect(first('at 70 to 75 F')).toBe('2026-07-31');
    expect(first('at 60 to 65 F')).toBe('2026-07-17');
  });

  test('kraut that is ready before its day is put into the cold, and may then wait', () => {
    const kraut = stagesOf('sauerkraut');
    const early = batchCalendar(
      asked(kraut, { begun: [begun(1, '2026-07-06T10:00', 'at 70 to 75 F')], asOf: asDate('2026-07-20') }),
    );

    expect(early.state).toBe('on its way');
    expect(early.before.at(-1)?.stage.place).toBe('refrigerator');
    expect(early.before.at(-1)?.on).toBe('2026-08-02');
    expect(early.fill).toEqual({ from: '2026-07-27T10:00', until: null });
  });

  test('what was begun late moves its load; what was not begun has none', () => {
    const kraut = stagesOf('sauerkraut');
    const late = batchCalendar(
      asked(kraut, { begun: [begun(1, '2026-08-08T10:00', 'at 70 to 75 F')], asOf: asDate('2026-08-09') }),
    );
    const never = batchCalendar(asked(kraut, { asOf: asDate('2026-08-10') }));

    expect([late.state, late.load?.at]).toEqual(['moved', '2026-08-29T10:00']);
    expect([never.state, never.load]).toEqual(['not begun in time', null]);
    expect(lines(never)).toEqual(['2026-07-31T07:00 21:00 missed']);
    expect(never.fill?.from).toBe('2026-08-31T07:00');
  });

  test('a brine left too long is spoilt, and the day it was to be drained is named', () => {
    const pickles = stagesOf('14-day-sweet-pickles');
    const left = batchCalendar(
      asked(pickles, { begun: [begun(1, '2026-08-09T10:00')], asOf: asDate('2026-08-12') }),
    );

    expect([left.state, left.load, left.fill]).toEqual(['spoilt', null, null]);
    expect(left.before.map(({ on, state }) => [on, state])).toEqual([
      ['2026-08-09', 'done'],
      ['2026-08-11', 'missed'],
    ]);
  });

  test('no way is offered that the source does not print', () => {
    const beans = stagesOf('beans-dried');
    expect(wayFollowed(beans, 'for an hour')).toBe('soaked overnight');
    expect(wayFollowed(beans, 'quick soak')).toBe('quick soak');
    expect(wayFollowed(stagesOf('grape-juice'), 'quick soak')).toBeNull();
  });
});

const dayIn = fc.integer({ min: 0, max: 800 }).map((days) => addDays(asDate('2026-01-05'), days));
const share = fc.double({ min: 0, max: 1, noNaN: true });
/** A minute between two of one day, as text. */
const between = (from: string, until: string, part: number): string => {
  const minute = (time: string) => Number(time.slice(11, 13)) * 60 + Number(time.slice(14, 16));
  const at = Math.floor(minute(from) + (minute(until) - minute(from)) * part);
  return `${from.slice(0, 11)}${String(Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}`;
};

describe('every staged recipe of the book, every way, every day, four zones', () => {
  test('done on the days listed, at any time listed, its load is accepted on its day, and nobody gets up at night', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...every),
        dayIn,
        fc.constantFrom(...zones),
        fc.constantFrom('08:00', '09:00', '10:30'),
        fc.array(share, { minLength: 12, maxLength: 12 }),
        ({ stages, way }, on, timeZone, at, parts) => {
          let done: BegunStage[] = [];
          let asOf: CalendarDate = addDays(on, -60);
          for (const part of parts) {
            const calendar = batchCalendar({ stages, way, begun: done, load: { on, at }, asOf, timeZone });
            expect(calendar.load?.on).toBe(on);
            for (const day of calendar.before)
              if (day.state !== 'done') {
                expect(isCivil(day.from) && isCivil(day.until)).toBe(true);
                expect(day.from.slice(0, 10)).toBe(day.until.slice(0, 10));
              }
            const next = calendar.before.find(({ state }) => state !== 'done');
            if (next === undefined) {
              const ruling = stagesRuling(stages, done, calendar.load?.at ?? '', timeZone);
              expect(ruling.ok).toBe(true);
              return;
            }
            asOf = next.on;
            const { position } = next.stage;
            done = [
              ...done,
              { position, way: next.stage.way, begunAt: between(next.from, next.until, part) },
            ];
          }
          throw new Error('expected an end of the stages');
        },
      ),
      { numRuns: 400 },
    );
  });

  // Against the gate itself, tried quarter by quarter of an hour: the calendar gives up no day that could still be.
  test('a load is given up only when no civil hour can begin it in time', () => {
    const short = every.filter(
      ({ stages, way }) =>
        stages.filter((one) => (one.way === null || one.way === way) && one.leastHours > 0).length === 1 &&
        stages.every(({ leastHours }) => leastHours <= 24),
    );
    const civil = (first: number, last: number) =>
      Array.from({ length: (last - first) * 4 + 1 }, (_, quarter) => {
        const minute = first * 60 + quarter * 15;
        return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
      });
    fc.assert(
      fc.property(
        fc.constantFrom(...short),
        dayIn,
        fc.integer({ min: 0, max: 3 }),
        ({ stages, way }, on, before) => {
          const asOf = addDays(on, -before);
          const calendar = batchCalendar(asked(stages, { way, load: { on, at: '09:00' }, asOf }));
          const [first] = stages.filter((one) => one.way === null || one.way === way);
          const canBe = Array.from({ length: before + 1 }, (_, days) => addDays(asOf, days)).some((day) =>
            civil(7, 21).some((begins) =>
              civil(7, 18).some(
                (fills) =>
                  stagesRuling(
                    stages,
                    [
                      {
                        position: first?.position ?? 0,
                        way: first?.way ?? null,
                        begunAt: `${day}T${begins}`,
                      },
                    ],
                    `${on}T${fills}`,
                    denver,
                  ).ok && `${day}T${begins}` <= `${on}T${fills}`,
              ),
            ),
          );
          expect(calendar.load !== null).toBe(canBe);
        },
      ),
      { numRuns: 12 },
    );
  });

  test('whatever the day a batch was begun and looked at, the load listed for it is one the gate accepts', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...every),
        dayIn,
        fc.integer({ min: 0, max: 45 }),
        fc.integer({ min: 0, max: 45 }),
        fc.array(share, { minLength: 12, maxLength: 12 }),
        ({ stages, way }, on, ago, since, [beganAt = 0, ...parts]) => {
          const [first] = stages.filter((one) => one.way === null || one.way === way);
          const begunOn = addDays(on, -ago);
          const load = { on, at: '09:00' };
          let asOf = addDays(begunOn, since);
          let done = [
            begun(
              first?.position ?? 0,
              between(`${begunOn}T00:00`, `${begunOn}T23:59`, beganAt),
              first?.way ?? null,
            ),
          ];
          const listed = batchCalendar(asked(stages, { begun: done, load, asOf })).load;
          if (listed === null) return;
          expect(listed.on >= asOf).toBe(true);
          for (const part of parts) {
            const calendar = batchCalendar(asked(stages, { begun: done, load, asOf }));
            expect(calendar.load?.on).toBe(listed.on);
            const next = calendar.before.find(({ state }) => state !== 'done');
            if (next === undefined) {
              expect(stagesRuling(stages, done, calendar.load?.at ?? '', denver).ok).toBe(true);
              return;
            }
            asOf = next.on;
            done = [
              ...done,
              begun(next.stage.position, between(next.from, next.until, part), next.stage.way),
            ];
          }
          throw new Error('expected an end of the stages');
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('a batch that can no longer be filled', () => {
  // USDA Complete Guide 6, p6-11: brine for two days, then each day its own work.
  test('still says what was done to it, in its order, each by its own stage, and nothing else', () => {
    const pickles = stagesOf('14-day-sweet-pickles');
    const [first, second] = pickles;
    if (first === undefined || second === undefined) throw new Error('expected stages of 14-day pickles');
    const calendar = batchCalendar(
      asked(pickles, {
        begun: [
          begun(second.position, '2026-08-29T10:00'),
          begun(first.position, '2026-08-09T10:00'),
          begun(99, '2026-08-30T10:00'),
        ],
        asOf: asDate('2026-08-31'),
      }),
    );

    expect(calendar.state).toBe('spoilt');
    expect(calendar.load).toBeNull();
    expect(calendar.before.map(({ stage, on, state }) => [stage.what, on, state])).toEqual([
      [first.what, '2026-08-09', 'done'],
      [second.what, '2026-08-29', 'done'],
    ]);
  });
});
