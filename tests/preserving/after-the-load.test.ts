import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cannerId, lotId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { suspectJarHandling } from '../../src/preserving/found-unsealed.ts';
import { learntYield } from '../../src/preserving/learnt-yield.ts';
import { powerCutAdvice } from '../../src/preserving/power-cut.ts';
import { type ClockEvent, readClock } from '../../src/preserving/process-clock.ts';
import {
  evidenceProblems,
  isVoid,
  receivedCounts,
  type SheetBasis,
  sheetStamp,
} from '../../src/preserving/process-evidence.ts';
import { scheduleFor } from '../../src/preserving/process-lookup.ts';
import { failedSealAdvice, sealCheckWindow } from '../../src/preserving/seal-check.ts';
import { sessionSteps, stepsBlockingLoad } from '../../src/preserving/session-steps.ts';
import { lotsInDoubt, standingAside } from '../../src/preserving/set-aside.ts';
import { answerOf, tables } from './tables.ts';

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

describe('the checklist of a load', () => {
  test('acid per jar blocks the load until it is ticked, in the pressure canner too', () => {
    const steps = sessionSteps(tomatoes);

    expect(stepsBlockingLoad(steps, new Set()).map(({ key }) => key)).toEqual(['acid-per-jar']);
    expect(stepsBlockingLoad(steps, new Set(['acid-per-jar']))).toEqual([]);
    expect(steps.find(({ key }) => key === 'acid-per-jar')?.text).toContain('2 tbsp bottled lemon juice');
  });

  test('says the time and the pressure of the row, and that an interruption starts the whole time again', () => {
    const process = sessionSteps(tomatoes).find(({ key }) => key === 'process');

    expect(process?.text).toContain(`${tomatoes.minutes} minutes at ${tomatoes.psi} psi`);
    expect(process?.text).toContain('start the whole time again');
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

    expect(sessionSteps(butter).find(({ key }) => key === 'fill')?.text).toContain('¼ inch');
    expect(sessionSteps(butter).find(({ key }) => key === 'sterilise-jars')?.blocksLoad).toBe(true);
    expect(butter.waterAboveJarsIn).toBeGreaterThanOrEqual(1);
    expect(sessionSteps(butter).find(({ key }) => key === 'process')?.text).toContain('full rolling boil');
    expect(unsterilised.minutes).toBeGreaterThanOrEqual(butter.minutes);
  });

  test('every read row makes a checklist that ends with rest and seal check', () => {
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
      const keys = sessionSteps(answerOf(ruling)).map(({ key }) => key);
      expect(keys.slice(-2)).toEqual(['rest', 'check-seals']);
      expect(new Set(keys).size).toBe(keys.length);
    }
  });
});

describe('the clock of a load', () => {
  const started = (at: number): ClockEvent => ({ kind: 'started', at });
  const stopped = (at: number): ClockEvent => ({ kind: 'interrupted', at, why: 'boil-stopped' });

  test('runs from the start that a person gave', () => {
    expect(readClock([], 20, 0)).toMatchObject({ state: 'not-started', doneAt: null });
    expect(readClock([started(0)], 20, 5 * minute)).toMatchObject({
      state: 'running',
      remainingMs: 15 * minute,
    });
    expect(readClock([started(0)], 20, 20 * minute).state).toBe('done');
  });

  // USDA Complete Guide 1, p1-18 and p1-22.
  test('a boil that stopped one minute before the end starts the whole time again', () => {
    const events = [started(0), stopped(19 * minute)];

    expect(readClock(events, 20, 25 * minute)).toMatchObject({
      state: 'interrupted',
      remainingMs: 20 * minute,
    });
    expect(readClock([...events, started(30 * minute)], 20, 49 * minute)).toMatchObject({
      state: 'running',
      remainingMs: minute,
      interruptions: 1,
    });
  });

  test('an interruption after the end changes nothing; a second start while it runs does not shorten it', () => {
    expect(readClock([started(0), stopped(21 * minute)], 20, 30 * minute).state).toBe('done');
    expect(readClock([started(0), started(5 * minute)], 20, 20 * minute).state).toBe('done');
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
          if (readClock(events, 20, now).state !== 'done') return;
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

  test('released lots come back, and can be set aside again', () => {
    const [july, august] = lots.map((lot) => lot.lotId);
    if (!july || !august) throw new Error('two lots expected');

    const aside = standingAside([
      { lotId: july, kind: 'set-aside' },
      { lotId: august, kind: 'set-aside' },
      { lotId: july, kind: 'released' },
    ]);

    expect([...aside]).toEqual(['beans-august']);
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
