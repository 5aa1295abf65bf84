import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ClockEvent, type Instant, readClock } from '../../../src/preserving/day/process-clock.ts';
import { formatClock } from '../../../views/words/format.ts';
import { usReading } from '../../../views/words/reading.ts';

// USDA Complete Guide 1, p1-18 and p1-22: the whole time, without a stop, from the boil or the pressure on.

const minute = 60_000;
const hour = 60 * minute;
const noon = Date.UTC(2026, 7, 22, 18);
/** The two clocks of one machine: what the wall shows, and how long the machine has run. */
const instant = (at: number, ms: number, run = 'first'): Instant => ({ at, steady: { run, ms } });
const started = (at: Instant): ClockEvent => ({ kind: 'started', ...at });
const stopped = (at: Instant): ClockEvent => ({ kind: 'interrupted', why: 'boil-stopped', ...at });
const atNoon = started(instant(noon, 5 * hour));

describe('a load timed while the clock is set', () => {
  test('forward: by an hour after five minutes of 25: twenty are left, and it is said why', () => {
    const reading = readClock([atNoon], 25, instant(noon + hour + 5 * minute, 5 * hour + 5 * minute));

    expect(reading).toMatchObject({
      state: 'running',
      remainingMs: 20 * minute,
      doubt: { kind: 'wall-ahead', byMs: hour },
    });
    expect(reading.doneAt).toBe(noon + hour + 25 * minute);
  });

  test('back: by an hour after five minutes: the whole time is counted, never less', () => {
    const reading = readClock([atNoon], 25, instant(noon - hour + 5 * minute, 5 * hour + 5 * minute));

    expect(reading).toMatchObject({
      state: 'running',
      remainingMs: 25 * minute,
      doubt: { kind: 'wall-behind' },
    });
  });

  test('back, and no other clock to ask: it goes on running and is not begun a second time', () => {
    const reading = readClock([{ kind: 'started', at: noon }], 25, { at: noon - hour });

    expect(reading).toMatchObject({
      state: 'running',
      remainingMs: 25 * minute,
      doubt: { kind: 'wall-behind' },
    });
  });

  test('not at all where summer time begins: an hour is skipped on the wall, and none of the load', () => {
    const lastMinute = Date.UTC(2026, 2, 8, 8, 50); // 1:50 AM in Denver; ten minutes later it is 3 AM there.
    const reading = readClock(
      [started(instant(lastMinute, 0))],
      20,
      instant(lastMinute + 19 * minute, 19 * minute),
    );
    const done = readClock(
      [started(instant(lastMinute, 0))],
      20,
      instant(lastMinute + 20 * minute, 20 * minute),
    );

    expect(reading).toMatchObject({ state: 'running', remainingMs: minute, doubt: null });
    expect(done.state).toBe('done');
    expect(formatClock(reading.doneAt ?? 0, 'America/Denver', usReading)).toMatch(/^3:10\sAM$/);
  });

  test('not at all where it ends: the hour that comes twice is counted twice', () => {
    const twice = Date.UTC(2026, 10, 1, 7, 50); // 1:50 AM in Denver for the first time.
    const reading = readClock([started(instant(twice, 0))], 75, instant(twice + hour, hour));

    expect(reading).toMatchObject({ state: 'running', remainingMs: 15 * minute, doubt: null });
  });

  test('the machine slept half an hour: it counts only what it was awake for', () => {
    const reading = readClock([atNoon], 25, instant(noon + 32 * minute, 5 * hour + 2 * minute));

    expect(reading).toMatchObject({
      state: 'running',
      remainingMs: 23 * minute,
      doubt: { kind: 'wall-ahead', byMs: 30 * minute },
    });
  });

  test('the machine was started anew: only its new run is sure, until that is long enough', () => {
    const early = readClock([atNoon], 25, instant(noon + 40 * minute, 3 * minute, 'second'));
    const late = readClock([atNoon], 25, instant(noon + 70 * minute, 33 * minute, 'second'));

    expect(early).toMatchObject({
      state: 'running',
      remainingMs: 22 * minute,
      doubt: { kind: 'wall-ahead' },
    });
    expect(late.state).toBe('done');
  });

  test('seconds by which a clock is put right all the time are no doubt', () => {
    const reading = readClock([atNoon], 25, instant(noon + 10 * minute + 2000, 5 * hour + 10 * minute));

    expect(reading).toMatchObject({ state: 'running', doubt: null });
  });

  test('an interruption that the wall puts after the end, but not what surely passed, counts', () => {
    const events = [atNoon, stopped(instant(noon + 2 * hour, 5 * hour + 10 * minute))];

    expect(readClock(events, 25, instant(noon + 2 * hour, 5 * hour + 11 * minute)).state).toBe('interrupted');
  });

  test('whatever the wall does, it is done only after the whole time has truly passed (seed 20261216)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 120 }),
        fc.array(
          fc.record({
            passes: fc.integer({ min: 0, max: 40 * minute }),
            wallMoves: fc.oneof(fc.constant(0), fc.integer({ min: -3 * hour, max: 3 * hour })),
            sleeps: fc.boolean(),
          }),
          { minLength: 1, maxLength: 12 },
        ),
        (minutes, happenings) => {
          let truth = 0;
          let wall = noon;
          let steady = hour;
          for (const { passes, wallMoves, sleeps } of happenings) {
            truth += passes;
            wall += passes + wallMoves;
            if (!sleeps) steady += passes;
            const { state, remainingMs } = readClock(
              [started(instant(noon, hour))],
              minutes,
              instant(wall, steady),
            );
            if (state === 'done') expect(truth).toBeGreaterThanOrEqual(minutes * minute);
            expect(remainingMs).toBeGreaterThanOrEqual(Math.min(minutes * minute - truth, minutes * minute));
          }
        },
      ),
      { seed: 20261216, numRuns: 500 },
    );
  });
});
