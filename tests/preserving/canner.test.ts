import { describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { type Canner, cannerTroubles, jarsPerLoad, schedulesInCanner } from '../../src/preserving/canner.ts';
import { loadMinutes, loadPhases, loadsOfBatch } from '../../src/preserving/day/load-time.ts';
import { answerOf, codesOf, tables } from './tables.ts';

const facts = tables.cannerFacts;
const dialCanner: Canner = {
  method: 'pressure',
  gauge: 'dial',
  uprightQuarts: 7,
  gaugeCheckedOn: asDate('2025-08-22'),
  gaugeOff: { at5: 0, at10: 0, at15: 0 },
};
const kettle: Canner = { method: 'boiling-water', gauge: null, uprightQuarts: 7, gaugeCheckedOn: null };
const sessionOn = asDate('2026-08-22');
const troublesOf = (canner: Partial<Canner>) =>
  cannerTroubles({ ...dialCanner, ...canner }, sessionOn, facts).map(({ code }) => code);

describe('a canner on its day', () => {
  // USDA Complete Guide 1, p1-20 and p1-35.
  test('a dial gauge checked 365 days before is in date, 366 days before is not', () => {
    expect(troublesOf({ gaugeCheckedOn: asDate('2025-08-22') })).toEqual([]);
    expect(troublesOf({ gaugeCheckedOn: asDate('2025-08-21') })).toEqual(['dial-gauge-unchecked']);
  });

  test('a dial gauge never checked, or checked after the session, has no schedules', () => {
    expect(troublesOf({ gaugeCheckedOn: null })).toEqual(['dial-gauge-unchecked']);
    expect(troublesOf({ gaugeCheckedOn: asDate('2026-08-23') })).toEqual(['dial-gauge-unchecked']);
    const ruling = schedulesInCanner(
      tables,
      { foodKey: 'beans-snap', pack: 'hot', jar: 'pint', altitudeFt: 500 },
      { ...dialCanner, gaugeCheckedOn: null },
      sessionOn,
    );
    expect(codesOf(ruling)).toEqual(['dial-gauge-unchecked']);
  });

  test('a gauge more than 2 psi off at any of the three points must be replaced', () => {
    for (const point of ['at5', 'at10', 'at15'] as const)
      for (const psi of [2.5, -2.5, 15, Number.NaN])
        expect(troublesOf({ gaugeOff: { at5: 0, at10: 0, at15: 0, [point]: psi } })).toEqual([
          'dial-gauge-off',
        ]);
  });

  // Iowa State University Extension: high readings under-process, low ones over-process.
  test('a gauge up to 2 psi off may stay where it reads low, and is set or replaced where it reads high', () => {
    for (const point of ['at5', 'at10', 'at15'] as const) {
      expect(troublesOf({ gaugeOff: { at5: 0, at10: 0, at15: 0, [point]: -2 } })).toEqual([]);
      for (const psi of [0.5, 2])
        expect(troublesOf({ gaugeOff: { at5: 0, at10: 0, at15: 0, [point]: psi } })).toEqual([
          'dial-gauge-reads-high',
        ]);
    }
  });

  test('a check without its three figures says nothing of the gauge, and the refusal says where to write them', () => {
    for (const gaugeOff of [null, undefined]) {
      const [refusal] = cannerTroubles({ ...dialCanner, gaugeOff: gaugeOff ?? null }, sessionOn, facts);
      expect(refusal?.code).toBe('gauge-figures-missing');
      expect(refusal?.instead).toMatch(/kitchen page/);
    }
    const { gaugeOff: _, ...unsaid } = dialCanner;
    expect(cannerTroubles(unsaid, sessionOn, facts).map(({ code }) => code)).toEqual([
      'gauge-figures-missing',
    ]);
  });

  test('a weighted gauge needs no check; an unstated gauge is asked for', () => {
    expect(troublesOf({ gauge: 'weighted', gaugeCheckedOn: null })).toEqual([]);
    expect(troublesOf({ gauge: null })).toEqual(['gauge-not-stated']);
  });

  test('a pressure canner must hold four upright quarts', () => {
    expect(troublesOf({ uprightQuarts: 4 })).toEqual([]);
    expect(troublesOf({ uprightQuarts: 3 })).toEqual(['canner-too-small']);
  });

  test('smoked fish needs a canner of 16 to 22 quarts (USDA Complete Guide 5, p5-13)', () => {
    const query = { foodKey: 'smoked-fish', pack: 'none', jar: 'pint', altitudeFt: 500 } as const;

    expect(schedulesInCanner(tables, query, { ...dialCanner, volumeQuarts: 16 }, sessionOn).ok).toBe(true);
    expect(codesOf(schedulesInCanner(tables, query, dialCanner, sessionOn))).toEqual(['smoked-fish-canner']);
  });
});

describe('loads', () => {
  // USDA Complete Guide 1, p1-17: 7 quarts or 8 to 9 pints.
  test.each([
    ['quart', 7],
    ['pint', 8],
    ['half-pint', 8],
    ['500-ml', 7],
    ['24-oz', 7],
  ] as const)('a canner of 7 quarts holds %s jars: %d', (jar, count) => {
    expect(answerOf(jarsPerLoad(kettle, jar, facts))).toBe(count);
  });

  test('what the household counted wins; half-gallons must be counted', () => {
    expect(answerOf(jarsPerLoad({ ...kettle, counted: { pint: 9 } }, 'pint', facts))).toBe(9);
    expect(codesOf(jarsPerLoad(kettle, 'half-gallon', facts))).toEqual(['jars-per-load-unknown']);
  });

  test('17 jars at 8 a load are three loads', () => {
    expect(loadsOfBatch(18, 8)).toEqual({ loads: 3, jarsAside: 0 });
    expect(loadsOfBatch(16, 8)).toEqual({ loads: 2, jarsAside: 0 });
  });

  const source = { sourceId: 'USDA-G2', locator: 'p2-7', basis: 'read' } as const;

  test('20 minutes in boiling water take 45 to 55 from jars in to jars out', () => {
    const process = {
      method: 'boiling-water',
      minutes: 20,
      jar: 'quart',
      foodKey: 'applesauce',
      source,
    } as const;

    expect(loadMinutes(process, facts, 'low')).toBe(45);
    expect(loadMinutes(process, facts)).toBe(55);
  });

  test('25 minutes under pressure take 80 to 125: heat 12–15, vent 10, rise 3–5, fall 20–60, wait 10', () => {
    const process = { method: 'pressure', minutes: 25, jar: 'quart', foodKey: 'beans-snap', source } as const;

    expect(loadMinutes(process, facts, 'low')).toBe(80);
    expect(loadMinutes(process, facts)).toBe(125);
    expect(loadPhases(process, facts).map(({ name }) => name)).toEqual([
      'heat-up',
      'vent',
      'pressurise',
      'process',
      'depressurise',
      'wait',
    ]);
  });

  // USDA Complete Guide 1, p1-17: acid foods take 25–60 minutes in boiling water, 55–100 under pressure, in all.
  test('totals stay near those the guide states for acid foods', () => {
    const inWater = {
      method: 'boiling-water',
      minutes: 5,
      jar: 'pint',
      foodKey: 'apple-butter',
      source,
    } as const;
    const pressed = { method: 'pressure', minutes: 8, jar: 'pint', foodKey: 'applesauce', source } as const;

    expect(loadMinutes(inWater, facts, 'low')).toBeGreaterThanOrEqual(25);
    expect(loadMinutes(pressed, facts, 'low')).toBeGreaterThanOrEqual(55);
  });

  test('quarts of fish take at least 30 minutes to heat and vent (USDA Complete Guide 5, p5-12)', () => {
    const phases = loadPhases(
      { method: 'pressure', minutes: 160, jar: 'quart', foodKey: 'fish', source },
      facts,
    );

    expect(phases[0]).toMatchObject({ name: 'heat-up-and-vent', minutes: { low: 30, high: 30 } });
  });
});
