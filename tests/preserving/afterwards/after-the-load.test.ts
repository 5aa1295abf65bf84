import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { cannerId, lotId } from '../../../shared/ids.ts';
import { asDate } from '../../../shared/week.ts';
import { suspectJarHandling } from '../../../src/preserving/afterwards/found-unsealed.ts';
import { powerCutAdvice } from '../../../src/preserving/afterwards/power-cut.ts';
import {
  evidenceProblems,
  isVoid,
  receivedCounts,
  type SheetBasis,
  sheetStamp,
} from '../../../src/preserving/afterwards/process-evidence.ts';
import {
  failedSealAdvice,
  sealChecks,
  sealCheckWindow,
} from '../../../src/preserving/afterwards/seal-check.ts';
import { lotsInDoubt } from '../../../src/preserving/afterwards/set-aside.ts';
import { type ClockEvent, readClock } from '../../../src/preserving/day/process-clock.ts';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { learntYield } from '../../../src/preserving/recipes/learnt-yield.ts';
import { foodStepsFor } from '../../../src/preserving/sheet/food-steps.ts';
import { stepsBlockingLoad } from '../../../src/preserving/sheet/session-step.ts';
import { sessionSteps } from '../../../src/preserving/sheet/session-steps.ts';
import { answerOf, tables } from '../tables.ts';

const minute = 60_000;
const hour = 60 * minute;
const tomatoes = answerOf(
  scheduleFor(tables, {
    foodKey: 'tomatoes-crushed',
    pack: 'hot',
    jar: 'quart',
    method: 'pressure',
    gauge: 'weighted',
    altitudeFt: 2200,
    choice: { psi: 15 },
  }),
);

const stepsOf = (schedule: Schedule) => sessionSteps(schedule, foodStepsFor(tables, schedule));

describe('the checklist of a load', () => {
  test('acid per jar, in the pressure canner too, and venting block the clock until they are ticked', () => {
    const steps = stepsOf(tomatoes);

    expect(stepsBlockingLoad(steps, new Set()).map(({ key }) => key)).toEqual(['acid-per-jar', 'vent']);
    expect(stepsBlockingLoad(steps, new Set(['vent'])).map(({ key }) => key)).toEqual(['acid-per-jar']);
    expect(stepsBlockingLoad(steps, new Set(['acid-per-jar', 'vent']))).toEqual([]);
    expect(steps.find(({ key }) => key === 'acid-per-jar')?.text).toContain('2 tbsp bottled lemon juice');
  });

  test('says the time and the pressure of the row, and that an interruption starts the whole time again', () => {
    const process = stepsOf(tomatoes).find(({ key }) => key === 'process');

    expect(process?.text).toContain(`${tomatoes.minutes} minutes at ${tomatoes.psi} psi`);
    expect(stepsOf(tomatoes).find(({ key }) => key === 'restart')?.text).toContain(
      'start the whole time again',
    );
    expect(process?.source).toEqual(tomatoes.source);
  });

  // Common practice, no source beyond the printed rows: consistency only, never a schedule.
  test('trade practice agrees: a fruit butter leaves ¼ inch; 10 minutes unsterilised is not below the sterile row', () => {
    const inKettle = { pack: 'hot', jar: 'half-pint', method: 'boiling-water', altitudeFt: 800 } as const;
    const butter = answerOf(
      scheduleFor(tables, {
        ...inKettle,
        foodKey: 'apple-butter',
        style: 'butter; sterile half-pint/pint jars',
      }),
    );
    const unsterilised = answerOf(scheduleFor(tables, { ...inKettle, foodKey: 'jam-jelly-unsterilised' }));

    expect(stepsOf(butter).find(({ key }) => key === 'headspace')?.text).toContain('¼ inch');
    expect(stepsOf(butter).find(({ key }) => key === 'sterilize')?.blocksLoad).toBe(true);
    expect(butter.waterAboveJarsIn).toBeGreaterThanOrEqual(1);
    expect(stepsOf(butter).find(({ key }) => key === 'process')?.text).toContain('full rolling boil');
    expect(unsterilised.minutes).toBeGreaterThanOrEqual(butter.minutes);
  });

  test('every read row makes a whole checklist that ends with rest, seals, the unsealed jar and the shelf', () => {
    for (const row of tables.processTimes.filter(({ basis }) => basis === 'read').slice(0, 400)) {
      const ruling = scheduleFor(tables, {
        foodKey: row.foodKey,
        style: row.style,
        pack: row.pack,
        jar: row.jar,
        altitudeFt: row.altitudeFromFt,
        method: row.method === 'boiling-water' ? 'boiling-water' : 'pressure',
        gauge: row.method === 'pressure-dial' ? 'dial' : 'weighted',
        choice: { minutes: row.minutes },
      });
      const keys = stepsOf(answerOf(ruling)).map(({ key }) => key);
      const end = keys.filter((key) => key !== 'cure').slice(-8);
      expect(end).toEqual([
        'cool',
        'bands-off',
        'check-seals',
        'unsealed',
        'wash',
        'label',
        'store',
        'use-within',
      ]);
      for (const key of [
        'jars',
        'lids',
        'fill',
        'headspace',
        'bubbles',
        'headspace-again',
        'rim',
        'lid',
        'band',
      ])
        expect(keys).toContain(key);
      expect(new Set(keys).size).toBe(keys.length);
    }
  });
});

describe('the clock of a load', () => {
  const started = (at: number): ClockEvent => ({ kind: 'started', at });
  const stopped = (at: number): ClockEvent => ({ kind: 'interrupted', at, why: 'boil-stopped' });

  test('runs from the start that a person gave', () => {
    expect(readClock([], 20, { at: 0 })).toMatchObject({ state: 'not-started', doneAt: null });
    expect(readClock([started(0)], 20, { at: 5 * minute })).toMatchObject({
      state: 'running',
      remainingMs: 15 * minute,
    });
    expect(readClock([started(0)], 20, { at: 20 * minute }).state).toBe('done');
  });

  // USDA Complete Guide 1, p1-18 and p1-22.
  test('a boil that stopped one minute before the end starts the whole time again', () => {
    const events = [started(0), stopped(19 * minute)];

    expect(readClock(events, 20, { at: 25 * minute })).toMatchObject({
      state: 'interrupted',
      remainingMs: 20 * minute,
    });
    expect(readClock([...events, started(30 * minute)], 20, { at: 49 * minute })).toMatchObject({
      state: 'running',
      remainingMs: minute,
      interruptions: 1,
    });
  });

  test('an interruption after the end changes nothing; a second start while it runs does not shorten it', () => {
    expect(readClock([started(0), stopped(21 * minute)], 20, { at: 30 * minute }).state).toBe('done');
    expect(readClock([started(0), started(5 * minute)], 20, { at: 20 * minute }).state).toBe('done');
  });

  test('it is never done before a whole uninterrupted time has run (seed 20260817)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ start: fc.boolean(), after: fc.integer({ min: 1, max: 30 }) }), {
          maxLength: 12,
        }),
        (drawn) => {
          let at = 0;
          const events = drawn.map(({ start, after }) => {
            at += after * minute;
            return start ? started(at) : stopped(at);
          });
          const now = at + 5 * minute;
          if (readClock(events, 20, { at: now }).state !== 'done') return;
          const runs = events.map((event, index) => {
            if (event.kind !== 'started') return 0;
            const next = events.slice(index + 1).find((later) => later.kind === 'interrupted');
            return (next?.at ?? now) - event.at;
          });
          expect(Math.max(...runs)).toBeGreaterThanOrEqual(20 * minute);
        },
      ),
      { seed: 20_260_817, numRuns: 1000 },
    );
  });
});

describe('evidence', () => {
  const good = {
    rowKey: tomatoes.rowKey,
    altitudeFt: 2200,
    psi: 15,
    minutesRun: tomatoes.minutes,
    acidTicked: true,
  };

  test('a load run as published has no faults', () => {
    expect(evidenceProblems(good, tomatoes)).toEqual([]);
  });

  test.each([
    [{ minutesRun: tomatoes.minutes - 1 }, 'too-short'],
    [{ minutesRun: Number.NaN }, 'too-short'],
    [{ psi: 10 }, 'too-little-pressure'],
    [{ psi: null }, 'too-little-pressure'],
    [{ acidTicked: false }, 'acid-missing'],
    [{ altitudeFt: 900 }, 'other-altitude'],
    [{ rowKey: 'another' }, 'other-schedule'],
  ])('%o is caught as %s', (change, code) => {
    expect(evidenceProblems({ ...good, ...change }, tomatoes).map((problem) => problem.code)).toEqual([code]);
  });

  test('a band ends on the foot: a load run above it has no schedule, one of the highest band may be run higher', () => {
    // USDA Complete Guide 3, p3-10: 15 psi in a weighted-gauge canner above 1,000 ft; quarts of applesauce end a band at 3,000 ft.
    const applesauce = answerOf(
      scheduleFor(tables, {
        foodKey: 'applesauce',
        pack: 'hot',
        jar: 'quart',
        method: 'boiling-water',
        altitudeFt: 2500,
      }),
    );
    const run = { rowKey: applesauce.rowKey, psi: null, minutesRun: applesauce.minutes, acidTicked: false };
    const codes = (altitudeFt: number) =>
      evidenceProblems({ ...run, altitudeFt }, applesauce).map(({ code }) => code);
    expect(applesauce.bandToFt).toBe(3000);
    expect([1001, 3000].flatMap(codes)).toEqual([]);
    expect([1000, 3001, -5].map(codes)).toEqual([['other-altitude'], ['other-altitude'], ['other-altitude']]);
    expect(evidenceProblems({ ...good, altitudeFt: 9000 }, { ...tomatoes, bandToFt: null })).toEqual([]);
  });

  test('a sheet is void when altitude, canner, gauge or check changed, and not when rows were listed in another order', () => {
    const basis: SheetBasis = {
      altitudeFt: 2200,
      canner: 'presser',
      gauge: 'dial',
      gaugeCheckedOn: '2026-05-01',
      rowKeys: ['b', 'a'],
    };
    const printed = sheetStamp(basis);

    expect(isVoid(printed, { ...basis, rowKeys: ['a', 'b'] })).toBe(false);
    for (const change of [
      { altitudeFt: 2201 },
      { canner: 'kettle' },
      { gauge: 'weighted' },
      { gaugeCheckedOn: null },
      { rowKeys: ['a'] },
    ]) {
      expect(isVoid(printed, { ...basis, ...change })).toBe(true);
    }
  });

  test('low-acid food of unknown process received from others does not count as food', () => {
    expect(receivedCounts('low-acid')).toBe(false);
    expect(receivedCounts('unknown')).toBe(false);
    expect(receivedCounts('acid')).toBe(true);
  });
});

describe('seals', () => {
  test('are checked 12 to 24 hours after the jars came out', () => {
    expect(sealCheckWindow(0)).toEqual({ from: 12 * hour, to: 24 * hour });
  });

  // The hours 7 AM to 9 PM are common practice, no source; 12 and 24 hours are USDA Complete Guide 1, p1-25 and p1-26.
  test('nobody gets up for a check: whenever a load comes out, it falls between 7 AM and 9 PM, 12 to 24 hours after', () => {
    for (const zone of ['America/Denver', 'Europe/Berlin', 'Australia/Lord_Howe', 'Pacific/Kiritimati'])
      for (const day of ['2026-03-07', '2026-03-28', '2026-08-22', '2026-10-03', '2026-10-24', '2026-10-31'])
        for (let quarter = 0; quarter < 96; quarter += 1) {
          const out = DateTime.fromISO(day, { zone })
            .plus({ minutes: 15 * quarter })
            .toMillis();

          const [check, ...more] = sealChecks([out], zone);

          if (check === undefined) throw new Error('one check expected');
          expect(more).toEqual([]);
          expect(check.from).toBeGreaterThanOrEqual(out + 12 * hour);
          expect(check.to).toBeLessThanOrEqual(out + 24 * hour);
          expect(check.from).toBeLessThanOrEqual(check.to);
          for (const instant of [check.from, check.to]) {
            const { hour: at, minute: past } = DateTime.fromMillis(instant, { zone });
            expect(at * 60 + past).toBeGreaterThanOrEqual(7 * 60);
            expect(at * 60 + past).toBeLessThanOrEqual(21 * 60);
          }
        }
  });

  test('jars out at 1:25 PM are looked at from 7 AM of the next day, not from 1:25 AM', () => {
    const out = DateTime.fromISO('2026-08-22T13:25', { zone: 'America/Denver' });

    const [check] = sealChecks([out.toMillis()], 'America/Denver');

    expect(check?.from).toBe(DateTime.fromISO('2026-08-23T07:00', { zone: 'America/Denver' }).toMillis());
    expect(check?.to).toBe(out.plus({ hours: 24 }).toMillis());
  });

  test('loads that no civil hour serves together are checked in rounds, each within its own 24 hours', () => {
    const at = (time: string) => DateTime.fromISO(`2026-08-22T${time}`, { zone: 'UTC' }).toMillis();
    const loads = [at('13:00'), at('05:00'), at('09:30')];

    const checks = sealChecks(loads, 'UTC');

    expect(checks.map((check) => check.loads)).toEqual([1, 2]);
    expect(checks[0]?.to).toBeLessThanOrEqual(at('05:00') + 24 * hour);
    expect(checks[1]?.from).toBeGreaterThanOrEqual(at('13:00') + 12 * hour);
    expect(sealChecks([], 'UTC')).toEqual([]);
  });

  // USDA Complete Guide 1, p1-26.
  test('one that failed within 24 hours: reprocess with a new lid, freeze with 1½ inches free, or refrigerate', () => {
    const advice = failedSealAdvice({ hoursSinceProcessed: 24, hotPackPrinted: true, keepColdDays: 5 });

    expect(advice.map(({ choice }) => choice)).toEqual(['reprocess', 'freeze', 'refrigerate']);
    expect(advice[0]?.text).toContain('new lid');
    expect(advice[1]?.text).toContain('1½ inches');
    expect(advice[2]?.text).toContain('5 days');
  });

  test('without a printed hot pack there is no reprocessing; after 24 hours only discarding', () => {
    const choices = (hoursSinceProcessed: number, hotPackPrinted: boolean) =>
      failedSealAdvice({ hoursSinceProcessed, hotPackPrinted, keepColdDays: 5 }).map(({ choice }) => choice);

    expect(choices(13, false)).toEqual(['freeze', 'refrigerate']);
    expect(choices(24.1, true)).toEqual(['discard']);
    expect(choices(Number.NaN, true)).toEqual(['discard']);
  });

  test('found unsealed later on the shelf is another matter: discard, and boil open low-acid jars 30 minutes first', () => {
    const open = suspectJarHandling({ acidity: 'low-acid', tomato: false, stillSealed: false });
    const words = open.map(({ text }) => text).join(' ');

    expect(words).toContain('Do not taste');
    expect(words).toContain('boil 30 minutes');
    expect(words).toContain('do not reprocess');
    expect(words).not.toMatch(/refrigerate|freeze/i);
  });

  test('tomatoes and unknown food are handled as low-acid; a jar still sealed stays shut', () => {
    const stepsOf = (acidity: 'acid' | 'acidified' | 'unknown', tomato: boolean, stillSealed: boolean) =>
      suspectJarHandling({ acidity, tomato, stillSealed })
        .map(({ text }) => text)
        .join(' ');

    expect(stepsOf('acidified', true, false)).toContain('boil 30 minutes');
    expect(stepsOf('unknown', false, false)).toContain('boil 30 minutes');
    expect(stepsOf('unknown', false, true)).toContain('Leave it closed');
    expect(stepsOf('acid', false, false)).not.toContain('boil 30 minutes');
  });
});

describe('setting aside', () => {
  const presser = cannerId.parse('presser');
  const lots = [
    { lotId: lotId.parse('beans-july'), cannerId: presser, processedOn: asDate('2026-07-10') },
    { lotId: lotId.parse('beans-august'), cannerId: presser, processedOn: asDate('2026-08-10') },
    {
      lotId: lotId.parse('jam-august'),
      cannerId: cannerId.parse('kettle'),
      processedOn: asDate('2026-08-10'),
    },
  ];

  test('all lots from one canner since a day, that day included, and no others', () => {
    expect(lotsInDoubt(lots, { kind: 'canner', cannerId: presser, since: asDate('2026-08-10') })).toEqual([
      'beans-august',
    ]);
    expect(lotsInDoubt(lots, { kind: 'lot', lotId: lotId.parse('jam-august') })).toEqual(['jam-august']);
  });
});

describe('a power cut', () => {
  const cutOf = (
    appliance: 'refrigerator' | 'freezer-full' | 'freezer-half-full',
    hours: number,
    doorKeptShut = true,
  ) => ({
    appliance,
    startedAt: 0,
    endedAt: hours * hour,
    doorKeptShut,
  });
  const unseen = { iceCrystals: null, warmestF: null };

  // US government food safety site: 4 hours refrigerator, 48 full freezer, 24 half-full, doors shut; 40 °F or ice crystals.
  test.each([
    ['refrigerator', 4, 'keep'],
    ['refrigerator', 4.1, 'discard'],
    ['freezer-full', 48, 'keep'],
    ['freezer-full', 49, 'discard'],
    ['freezer-half-full', 24, 'keep'],
    ['freezer-half-full', 25, 'discard'],
  ] as const)('meat in a %s shut for %d hours: %s', (appliance, hours, verdict) => {
    expect(powerCutAdvice(cutOf(appliance, hours), { food: 'meat-fish-poultry', ...unseen }).verdict).toBe(
      verdict,
    );
  });

  test('ice crystals or 40 °F allow refreezing or cooking however long it took; 41 °F does not', () => {
    const long = cutOf('freezer-full', 90, false);
    const meat = { food: 'meat-fish-poultry', iceCrystals: null, warmestF: null } as const;

    expect(powerCutAdvice(long, { ...meat, iceCrystals: true }).verdict).toBe('cook-or-refreeze');
    expect(powerCutAdvice(long, { ...meat, warmestF: 40 }).verdict).toBe('cook-or-refreeze');
    expect(powerCutAdvice(long, { ...meat, iceCrystals: true, warmestF: 41 }).verdict).toBe('discard');
  });

  test('an open door, or an end before the start, counts as warm', () => {
    expect(
      powerCutAdvice(cutOf('refrigerator', 1, false), { food: 'opened-low-acid-jar', ...unseen }).verdict,
    ).toBe('discard');
    expect(
      powerCutAdvice(cutOf('refrigerator', -1), { food: 'opened-low-acid-jar', ...unseen }).verdict,
    ).toBe('discard');
  });

  test('jam is kept and thawed fruit may be refrozen, by the published charts', () => {
    const long = cutOf('refrigerator', 20);

    expect(powerCutAdvice(long, { food: 'jam-pickles-condiments', ...unseen })).toMatchObject({
      verdict: 'keep',
      source: { sourceId: 'FSIS-POWER' },
    });
    expect(
      powerCutAdvice(cutOf('freezer-full', 60), { food: 'frozen-fruit-or-juice', ...unseen }),
    ).toMatchObject({ verdict: 'refreeze', source: { sourceId: 'FSIS-POWER' } });
  });
});

describe('yields learn', () => {
  test('published 8 to 9, four batches of 7 seen: 7.25 to 8.25', () => {
    expect(learntYield({ low: 8, high: 9 }, [7, 7, 7, 7])).toEqual({ low: 7.25, high: 8.25, batchesSeen: 4 });
  });

  test('nothing seen leaves the published yield; one odd batch moves it little', () => {
    expect(learntYield({ low: 8, high: 9 }, [])).toEqual({ low: 8, high: 9, batchesSeen: 0 });
    expect(learntYield({ low: 8, high: 9 }, [4]).low).toBeCloseTo(7.1, 9);
  });
});
