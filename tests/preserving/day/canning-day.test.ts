import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CanningDay, canningDay } from '../../../src/preserving/day/canning-day.ts';
import type { DayBatch, DayKitchen, DayTask } from '../../../src/preserving/day/day-kitchen.ts';
import { loadPhases } from '../../../src/preserving/day/load-time.ts';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { answerOf, tables } from '../tables.ts';

const kitchen: DayKitchen = {
  people: 1,
  burners: 3,
  canners: ['kettle', 'presser'],
  loadingMinutes: 5,
  unloadingMinutes: 5,
};

const kettlePhases = [
  { name: 'heat-up', minutes: 30 },
  { name: 'process', minutes: 20 },
  { name: 'wait', minutes: 5 },
] as const;

const batchOf = (given: Partial<DayBatch> & { id: string }): DayBatch => ({
  name: given.id,
  canner: 'kettle',
  pots: 1,
  prepMinutes: 30,
  cookMinutes: 40,
  stirred: false,
  fillMinutes: 15,
  loadsPerPot: 1,
  phases: kettlePhases,
  acidPerJar: false,
  rowKey: given.id,
  ...given,
});

const restKinds = new Set(['rest', 'check-seals']);

/** Walks the day minute by minute and lists every rule it breaks. */
const faultsOf = (day: CanningDay, asked: DayKitchen, batches: readonly DayBatch[]): string[] => {
  const faults: string[] = [];
  const working = day.tasks.filter((task) => !restKinds.has(task.kind));
  const loadOf = (task: DayTask): string => `${task.batch} pot ${task.pot} load ${task.load}`;
  for (let minute = 0; minute < day.workMinutes; minute += 1) {
    const now = working.filter((task) => task.fromMinute <= minute && minute < task.toMinute);
    const people = now.flatMap((task) => task.person ?? []);
    const burners = now.flatMap((task) => task.burner ?? []);
    if (new Set(people).size < people.length) faults.push(`minute ${minute}: a person in two places`);
    if (new Set(burners).size < burners.length) faults.push(`minute ${minute}: a burner used twice`);
    if (people.some((person) => person >= asked.people)) faults.push(`minute ${minute}: nobody there`);
    if (burners.some((burner) => burner >= asked.burners)) faults.push(`minute ${minute}: no such burner`);
    for (const canner of asked.canners) {
      const loads = new Set(now.filter((task) => task.canner === canner).map(loadOf));
      if (loads.size > 1) faults.push(`minute ${minute}: ${canner} holds ${[...loads].join(' and ')}`);
    }
  }

  for (const task of working)
    if (task.kind === 'keep-hot' && task.fromMinute >= task.toMinute)
      faults.push(`${loadOf(task)} is kept hot for no time`);

  for (const batch of batches) {
    for (let pot = 1; pot <= batch.pots; pot += 1) {
      const ofPot = working.filter((task) => task.batch === batch.id && task.pot === pot);
      const only = (kind: string, load: number | null): DayTask | undefined =>
        ofPot.find((task) => task.kind === kind && (load === null || task.load === load));
      const prepared = only('prepare', null);
      const cook = only('cook', null);
      if (prepared && prepared.toMinute - prepared.fromMinute !== batch.prepMinutes)
        faults.push('short preparation');
      if (batch.cookMinutes > 0 && (!cook || cook.toMinute - cook.fromMinute !== batch.cookMinutes)) {
        faults.push(`${batch.id} pot ${pot}: not cooked its time`);
      }
      if (cook && prepared && cook.fromMinute < prepared.toMinute)
        faults.push(`${batch.id}: cooked unprepared`);
      let filledBefore = cook?.toMinute ?? prepared?.toMinute ?? 0;
      for (let load = 1; load <= batch.loadsPerPot; load += 1) {
        const chain = ['fill', 'load', ...batch.phases.map((phase) => phase.name), 'unload'];
        const lengths = [
          batch.fillMinutes,
          asked.loadingMinutes,
          ...batch.phases.map((phase) => phase.minutes),
          asked.unloadingMinutes,
        ];
        let at = only('fill', load)?.fromMinute ?? -1;
        if (at < filledBefore) faults.push(`${batch.id} pot ${pot}: filled before it was ready`);
        chain.forEach((kind, index) => {
          const task = only(kind, load);
          if (!task) faults.push(`${batch.id} load ${load}: no ${kind}`);
          else if (task.fromMinute !== at) faults.push(`${batch.id} load ${load}: a gap before ${kind}`);
          else if (task.toMinute - at !== lengths[index])
            faults.push(`${batch.id} load ${load}: ${kind} cut short`);
          at += lengths[index] ?? 0;
        });
        filledBefore = only('fill', load)?.toMinute ?? 0;
        const loading = only('load', load);
        if (batch.acidPerJar !== (loading?.tickFirst === 'acid-per-jar'))
          faults.push(`${batch.id}: acid tick`);
        const rest = day.tasks.find(
          (task) => task.kind === 'rest' && task.batch === batch.id && task.pot === pot && task.load === load,
        );
        const check = day.tasks.find(
          (task) =>
            task.kind === 'check-seals' && task.batch === batch.id && task.pot === pot && task.load === load,
        );
        if (rest?.fromMinute !== at || rest.toMinute - at !== 720)
          faults.push(`${batch.id}: rest is not 12 h`);
        if (check?.fromMinute !== at + 720 || check.toMinute !== at + 1440)
          faults.push(`${batch.id}: seal check`);
      }
      if (batch.cookMinutes > 0 && cook) {
        // The pot keeps its burner from the first minute of cooking to the last jar filled.
        const lastFill = only('fill', batch.loadsPerPot);
        for (let minute = cook.fromMinute; minute < (lastFill?.toMinute ?? 0); minute += 1) {
          const holds = ofPot.some(
            (task) =>
              task.canner === null &&
              task.burner === cook.burner &&
              task.fromMinute <= minute &&
              minute < task.toMinute,
          );
          if (!holds) faults.push(`${batch.id} pot ${pot}: off the stove at ${minute}`);
        }
      }
    }
  }
  return faults;
};

describe('a canning day', () => {
  test('one batch runs from knife to rest without a gap: 150 minutes', () => {
    const batches = [batchOf({ id: 'plum-halves' })];

    const day = answerOf(canningDay(kitchen, batches));

    // 30 prepare, 40 cook, 15 fill, 5 load, 30 heat up, 20 process, 5 wait, 5 unload.
    expect(day.workMinutes).toBe(150);
    expect(faultsOf(day, kitchen, batches)).toEqual([]);
  });

  test('two batches for one canner wait for it; on two canners they overlap and the day is shorter', () => {
    const apart = [batchOf({ id: 'tomatoes' }), batchOf({ id: 'beans', canner: 'presser' })];
    const together = [batchOf({ id: 'tomatoes' }), batchOf({ id: 'plums' })];

    const shared = answerOf(canningDay(kitchen, together));
    const separate = answerOf(canningDay(kitchen, apart));

    expect(faultsOf(shared, kitchen, together)).toEqual([]);
    expect(faultsOf(separate, kitchen, apart)).toEqual([]);
    expect(separate.workMinutes).toBeLessThan(shared.workMinutes);
  });

  test('three pots of jam are cooked one after the other by one person, each in its own load', () => {
    const batches = [
      batchOf({ id: 'jam', pots: 3, prepMinutes: 20, cookMinutes: 15, stirred: true, fillMinutes: 10 }),
    ];

    const day = answerOf(canningDay(kitchen, batches));

    expect(faultsOf(day, kitchen, batches)).toEqual([]);
    expect(day.tasks.filter((task) => task.kind === 'cook')).toHaveLength(3);
  });

  test('a pot is not put on earlier than its canner can take it', () => {
    const batches = [batchOf({ id: 'sauce', loadsPerPot: 2 }), batchOf({ id: 'butter', cookMinutes: 60 })];

    const day = answerOf(canningDay(kitchen, batches));
    const held = day.tasks.filter((task) => task.kind === 'keep-hot' && task.load === 1);

    expect(faultsOf(day, kitchen, batches)).toEqual([]);
    expect(held.filter((task) => task.toMinute - task.fromMinute > 15)).toEqual([]);
  });

  test('acid is ticked before each load of tomatoes', () => {
    const batches = [batchOf({ id: 'tomatoes', acidPerJar: true, loadsPerPot: 2 })];

    const day = answerOf(canningDay(kitchen, batches));

    expect(faultsOf(day, kitchen, batches)).toEqual([]);
    expect(day.tasks.filter((task) => task.tickFirst === 'acid-per-jar')).toHaveLength(2);
  });

  test('published phases of beans under pressure fit in as they are', () => {
    const schedule = answerOf(
      scheduleFor(tables, {
        foodKey: 'beans-snap',
        pack: 'hot',
        jar: 'pint',
        method: 'pressure',
        gauge: 'weighted',
        altitudeFt: 2200,
      }),
    );
    const phases = loadPhases(schedule, tables.cannerFacts).map(({ name, minutes }) => ({
      name,
      minutes: minutes.high,
    }));
    const batches = [batchOf({ id: 'beans', canner: 'presser', phases, cookMinutes: 5 })];

    const day = answerOf(canningDay(kitchen, batches));

    // Beans in pints: 20 min; heat 15, vent 10, rise 5, fall 60, wait 10 (USDA Complete Guide 1, p1-17 to p1-22).
    expect(day.workMinutes).toBe(30 + 5 + 15 + 5 + 15 + 10 + 5 + 20 + 60 + 10 + 5);
    expect(faultsOf(day, kitchen, batches)).toEqual([]);
  });

  test('the order given does not matter for up to four batches', () => {
    const batches = [
      batchOf({ id: 'a', cookMinutes: 90 }),
      batchOf({ id: 'b', canner: 'presser' }),
      batchOf({ id: 'c', prepMinutes: 10 }),
    ];

    const minutes = [batches, batches.toReversed()].map(
      (order) => answerOf(canningDay(kitchen, order)).workMinutes,
    );

    expect(minutes[0]).toBe(minutes[1]);
  });

  test.each([
    [{ burners: 1 }, 'too-few-burners'],
    [{ people: 0 }, 'nobody'],
    [{ canners: ['presser'] }, 'canner-missing'],
  ])('a kitchen that cannot do it is told what is missing: %o', (missing, code) => {
    const outcome = canningDay({ ...kitchen, ...missing }, [batchOf({ id: 'plums' })]);

    expect(!outcome.ok && outcome.problems.map((problem) => problem.code)).toEqual([code]);
  });

  test('too much for a day is refused, not squeezed', () => {
    const outcome = canningDay(kitchen, [batchOf({ id: 'plums', pots: 30 })]);

    expect(!outcome.ok && outcome.problems[0]?.code).toBe('day-too-long');
  });

  test('any kitchen and any batches: nothing is used twice and no wait is cut (seed 20260817)', () => {
    const anyBatch = fc.record({
      canner: fc.constantFrom('kettle', 'presser'),
      pots: fc.integer({ min: 1, max: 3 }),
      prepMinutes: fc.integer({ min: 0, max: 60 }),
      cookMinutes: fc.constantFrom(0, 10, 25, 60),
      stirred: fc.boolean(),
      fillMinutes: fc.integer({ min: 1, max: 20 }),
      loadsPerPot: fc.integer({ min: 1, max: 3 }),
      acidPerJar: fc.boolean(),
    });
    let placed = 0;
    fc.assert(
      fc.property(
        fc.array(anyBatch, { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 2, max: 5 }),
        (drawn, people, burners) => {
          const batches = drawn.map((given, index) => batchOf({ ...given, id: `batch-${index}` }));
          const asked = { ...kitchen, people, burners };
          const outcome = canningDay(asked, batches);
          if (!outcome.ok) return;
          placed += 1;
          expect(faultsOf(outcome.value, asked, batches)).toEqual([]);
        },
      ),
      { seed: 20_260_817, numRuns: 60 },
    );

    expect(placed).toBeGreaterThan(40);
  });
});
