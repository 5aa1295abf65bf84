import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canningDay } from '../../../src/preserving/day/canning-day.ts';
import type { DayBatch, DayTask } from '../../../src/preserving/day/day-kitchen.ts';
import { sharedEvenly } from '../../../src/preserving/day/shared-hands.ts';

// The steps of a day need nobody in particular: they are shared as evenly as the day lets them, always alike.

const task = (
  kind: DayTask['kind'],
  fromMinute: number,
  toMinute: number,
  batch = 'jam',
  load: number | null = null,
): DayTask => ({
  kind,
  batch,
  pot: 1,
  load,
  fromMinute,
  toMinute,
  person: 0,
  burner: null,
  canner: null,
  tickFirst: null,
});
const who = (tasks: readonly DayTask[], people: number) =>
  sharedEvenly(tasks, people).map(({ person }) => person);

describe('the work of a day', () => {
  it('goes to whoever is free and has done least', () => {
    const tasks = [
      task('prepare', 0, 60),
      task('prepare', 60, 80, 'beans'),
      task('prepare', 80, 100, 'pears'),
    ];
    expect(who(tasks, 2)).toEqual([0, 1, 1]);
  });

  it('stays with who did the step before, where both have done as much, then with the first named', () => {
    const tasks = [
      task('prepare', 0, 30),
      task('prepare', 0, 30, 'beans'),
      task('cook', 30, 60, 'beans'),
      task('cook', 30, 60),
    ];
    expect(who(tasks, 2)).toEqual([0, 1, 1, 0]);
  });

  it('of one load is filled and put into the canner by the same hands', () => {
    const tasks = [task('prepare', 0, 10), task('fill', 10, 25, 'jam', 1), task('load', 25, 30, 'jam', 1)];
    const [, fill, load] = who(tasks, 2);
    expect(fill).toBe(1);
    expect(load).toBe(fill);
  });

  it('leaves alone what needs no hand', () => {
    const rest = { ...task('rest', 60, 780), person: null };
    expect(who([task('unload', 55, 60), rest], 2)).toEqual([0, null]);
  });

  const batch = fc.record({
    pots: fc.integer({ min: 1, max: 2 }),
    prepMinutes: fc.integer({ min: 5, max: 60 }),
    cookMinutes: fc.integer({ min: 0, max: 30 }),
    stirred: fc.boolean(),
    fillMinutes: fc.integer({ min: 5, max: 20 }),
    loadsPerPot: fc.integer({ min: 1, max: 2 }),
    canner: fc.constantFrom('kettle', 'pressure-pot'),
  });
  const days = fc.record({
    people: fc.integer({ min: 1, max: 4 }),
    batches: fc.array(batch, { minLength: 1, maxLength: 3 }).map((all) =>
      all.map(
        (one, at): DayBatch => ({
          ...one,
          id: `batch-${at}`,
          name: `Batch ${at}`,
          phases: [
            { name: 'heat-up', minutes: 20 },
            { name: 'process', minutes: 25 },
          ],
          acidPerJar: false,
          rowKey: 'a row',
        }),
      ),
    ),
  });

  it('is laid out so that nobody does two things at a time, in the same time as ever, always alike, never all by one', () => {
    let shared = 0;
    fc.assert(
      fc.property(days, ({ people, batches }) => {
        const kitchen = {
          people,
          burners: 4,
          canners: ['kettle', 'pressure-pot'],
          loadingMinutes: 5,
          unloadingMinutes: 5,
        };
        const day = canningDay(kitchen, batches);
        if (!day.ok) return;
        const { tasks } = day.value;
        const byPerson = Array.from({ length: people }, (_, person) =>
          tasks.filter((one) => one.person === person),
        );
        for (const own of byPerson)
          for (const [at, one] of own.entries())
            expect(own[at + 1]?.fromMinute ?? one.toMinute).toBeGreaterThanOrEqual(one.toMinute);
        const handed = tasks.filter(({ kind }) => ['prepare', 'fill', 'load', 'unload'].includes(kind));
        expect(handed.every(({ person }) => person !== null && person < people)).toBe(true);
        expect(canningDay(kitchen, batches)).toEqual(day);
        // What is shared again is shared alike.
        expect(sharedEvenly(tasks, people)).toEqual(tasks);
        const pieces = tasks.filter(({ kind, person }) => person !== null && kind !== 'load').length;
        if (people > 1 && pieces >= people) {
          expect(byPerson.filter((own) => own.length > 0).length).toBe(people);
          shared += 1;
        }
      }),
      { seed: 20270118, numRuns: 60 },
    );
    expect(shared).toBeGreaterThan(20);
  });
});
