import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jarSizes, nominalMl } from '../../../shared/jar.ts';
import { rowKeyOf, scheduleFor, schedulesFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { gauges, type ProcessQuery, processMethods } from '../../../src/preserving/lookup/schedule.ts';
import { answerOf, codesOf, queryForRow, tables } from '../tables.ts';

// Source of every expected time: USDA Complete Guide to Home Canning (2015), Guides 2 to 7, as tabled row by row in
// seed-data/reference/process-times.csv with page numbers.
const rows = tables.processTimes;
const readRows = rows.filter((row) => row.basis === 'read');
const openEndFt = 15_000;

describe('every printed row that was read', () => {
  test('is served at both edges and the middle of its band', () => {
    const wrong: string[] = [];
    for (const row of readRows) {
      const to = row.altitudeToFt ?? openEndFt;
      for (const altitudeFt of [row.altitudeFromFt, (row.altitudeFromFt + to) / 2, to]) {
        const ruling = scheduleFor(tables, queryForRow(row, altitudeFt));
        if (!ruling.ok || ruling.value.rowKey !== rowKeyOf(row))
          wrong.push(`${rowKeyOf(row)} at ${altitudeFt}`);
      }
    }

    expect(wrong).toEqual([]);
  });

  test('one foot beyond its upper edge the next band is served, or nothing', () => {
    const wrong: string[] = [];
    for (const row of readRows) {
      if (row.altitudeToFt === null) continue;
      const { choice: _, ...query } = queryForRow(row, row.altitudeToFt + 1);
      const ruling = schedulesFor(tables, query);
      const served = ruling.ok ? ruling.value : [];
      const nextBandFt = row.altitudeToFt + 1;
      if (served.some((schedule) => schedule.bandFromFt !== nextBandFt)) wrong.push(rowKeyOf(row));
    }

    expect(wrong).toEqual([]);
  });

  test('one foot below its lower edge the band below is served, or nothing', () => {
    const wrong: string[] = [];
    for (const row of readRows.filter((candidate) => candidate.altitudeFromFt > 0)) {
      const { choice: _, ...query } = queryForRow(row, row.altitudeFromFt - 1);
      const ruling = schedulesFor(tables, query);
      const served = ruling.ok ? ruling.value : [];
      if (served.some((schedule) => schedule.bandToFt !== row.altitudeFromFt - 1)) wrong.push(rowKeyOf(row));
    }

    expect(wrong).toEqual([]);
  });
});

describe('altitude', () => {
  const applesauce: ProcessQuery = {
    foodKey: 'applesauce',
    pack: 'hot',
    jar: 'quart',
    method: 'boiling-water',
    altitudeFt: 0,
  };
  const minutesAt = (altitudeFt: number): number =>
    answerOf(scheduleFor(tables, { ...applesauce, altitudeFt })).minutes;

  // USDA Complete Guide 2, p2-7: quarts of applesauce 20, 25, 30, 35 minutes.
  test.each([
    [0, 20],
    [1000, 20],
    [1000.7, 25],
    [1001, 25],
    [3000, 25],
    [3000.2, 30],
    [6000, 30],
    [6001, 35],
    [11_000, 35],
  ])('quarts of applesauce at %d ft take %d minutes', (altitudeFt, minutes) => {
    expect(minutesAt(altitudeFt)).toBe(minutes);
  });

  test('304.8 m is 1,000 ft on the edge, whatever the machine makes of the division', () => {
    expect(minutesAt(304.8 / 0.3048)).toBe(20);
    expect(minutesAt(304.9 / 0.3048)).toBe(25);
  });

  test.each([-1, Number.NaN, Number.POSITIVE_INFINITY, 40_000])('%d ft is refused', (altitudeFt) => {
    expect(codesOf(scheduleFor(tables, { ...applesauce, altitudeFt }))).toEqual(['altitude-out-of-range']);
  });

  test('a dial gauge has no schedule above 8,000 ft, a weighted gauge does', () => {
    const beans = { foodKey: 'beans-snap', pack: 'hot', jar: 'pint', method: 'pressure' } as const;

    expect(answerOf(scheduleFor(tables, { ...beans, gauge: 'dial', altitudeFt: 8000 })).psi).toBe(14);
    expect(codesOf(scheduleFor(tables, { ...beans, gauge: 'dial', altitudeFt: 8000.5 }))).toEqual([
      'altitude-not-printed',
    ]);
    expect(answerOf(scheduleFor(tables, { ...beans, gauge: 'weighted', altitudeFt: 9000 })).psi).toBe(15);
  });
});

describe('what is not printed is refused', () => {
  const ask = (query: Partial<ProcessQuery>): string[] =>
    codesOf(
      schedulesFor(tables, {
        foodKey: 'beans-snap',
        pack: 'hot',
        jar: 'pint',
        method: 'pressure',
        gauge: 'dial',
        altitudeFt: 500,
        ...query,
      }),
    );

  test('low-acid food in boiling water or steam', () => {
    expect(ask({ method: 'boiling-water' })).toEqual(['low-acid-needs-pressure']);
    expect(ask({ method: 'atmospheric-steam' })).toEqual(['low-acid-needs-pressure']);
    expect(ask({ foodKey: 'soup', method: 'boiling-water' })).toEqual(['low-acid-needs-pressure']);
  });

  test('a pressure canner whose gauge was not stated', () => {
    const { gauge: _, ...query } = { ...queryForRow(firstBeans(), 500) };

    expect(codesOf(schedulesFor(tables, query))).toEqual(['gauge-not-stated']);
  });

  const firstBeans = () => {
    const row = rows.find((candidate) => candidate.foodKey === 'beans-snap');
    if (!row) throw new Error('beans-snap should be in the table');
    return row;
  };

  test('an unknown food, an unprinted pack and a jar larger than tested', () => {
    expect(ask({ foodKey: 'moon-cheese-loaf' })).not.toEqual([]);
    expect(ask({ foodKey: 'turnip-stew' })).toEqual(['food-unknown']);
    expect(ask({ pack: 'none' })).toEqual(['pack-not-printed']);
    expect(ask({ jar: '1-l' })).toEqual(['jar-larger-than-tested']);
    expect(ask({ jar: 'half-gallon' })).toEqual(['jar-larger-than-tested']);
    expect(ask({ foodKey: 'mushrooms', jar: 'quart' })).toEqual(['jar-larger-than-tested']);
  });

  test('an unknown food is told of foods with a like name', () => {
    const ruling = schedulesFor(tables, {
      foodKey: 'green-beans',
      pack: 'hot',
      jar: 'pint',
      method: 'pressure',
      gauge: 'dial',
      altitudeFt: 0,
    });

    expect(codesOf(ruling)).toEqual(['food-unknown']);
    expect(!ruling.ok && ruling.problems[0]?.instead).toContain('beans-snap');
  });

  test('a style that must be named is listed, not guessed', () => {
    const ruling = schedulesFor(tables, {
      foodKey: 'soup',
      pack: 'hot',
      jar: 'pint',
      method: 'pressure',
      gauge: 'weighted',
      altitudeFt: 0,
    });

    expect(codesOf(ruling)).toEqual(['style-unknown']);
    expect(!ruling.ok && ruling.problems[0]?.instead).toContain('containing seafood');
  });

  test.each([
    'pumpkin-butter',
    'mashed winter squash',
    'carrot puree',
    'white peaches',
    'elderberry-jelly',
    'noodle soup',
    'garlic in oil',
    'horseradish',
    'summer squash',
  ])('%s has no tested process, and the refusal cites its rule and says what is possible', (foodKey) => {
    const ruling = schedulesFor(tables, {
      foodKey,
      pack: 'hot',
      jar: 'pint',
      method: 'boiling-water',
      altitudeFt: 0,
    });

    expect(codesOf(ruling)).toEqual(['food-untested']);
    expect(!ruling.ok && ruling.problems[0]?.source.locator).toBeTruthy();
    expect(!ruling.ok && ruling.problems[0]?.instead).toMatch(/./);
  });

  test('remembered rows are never served: choice salsa above 1,000 ft, jam without pectin', () => {
    const salsa = { foodKey: 'choice-salsa', pack: 'hot', jar: 'pint', method: 'boiling-water' } as const;

    expect(answerOf(scheduleFor(tables, { ...salsa, altitudeFt: 1000 })).minutes).toBe(15);
    expect(codesOf(scheduleFor(tables, { ...salsa, altitudeFt: 1001 }))).toEqual(['row-not-read']);
    for (const row of rows.filter((candidate) => candidate.basis === 'memory')) {
      expect(codesOf(scheduleFor(tables, queryForRow(row, row.altitudeFromFt)))).toEqual(['row-not-read']);
    }
  });

  test.each([
    ['frost-killed-vine', 'tomatoes-crushed'],
    ['white-fleshed', 'peaches'],
    ['homemade-vinegar', 'pickled-beets'],
    ['fresh-lemon-juice', 'tomato-juice'],
  ] as const)('the condition %s stops %s', (condition, foodKey) => {
    expect(ask({ foodKey, conditions: [condition] })).toEqual([`condition-${condition}`]);
  });
});

describe('jars', () => {
  const scheduleOf = (foodKey: string, jar: ProcessQuery['jar'], more: Partial<ProcessQuery> = {}) =>
    answerOf(
      scheduleFor(tables, { foodKey, jar, pack: 'hot', method: 'boiling-water', altitudeFt: 2000, ...more }),
    );

  test('500 mL is larger than a pint and uses the quart row, by the cited rule', () => {
    const schedule = scheduleOf('applesauce', '500-ml');

    expect(schedule).toMatchObject({ printedJar: 'quart', minutes: 25 });
    expect(schedule.jarRule?.source.sourceId).toBe('NCHFP-JARSIZE');
  });

  // Kansas State University, You Asked It, 2019-09-13 and 2022-05-19; USDA Complete Guide 1, p1-23.
  test.each([
    ['half-pint', 'pint', 'USDA-G1'],
    ['12-oz', 'pint', 'KSU-JARS'],
    ['24-oz', 'quart', 'USDA-G1'],
    ['28-oz', 'quart', 'KSU-JARS'],
  ] as const)('%s uses the %s row by %s', (jar, printed, sourceId) => {
    const schedule = scheduleOf('applesauce', jar);

    expect(schedule.printedJar).toBe(printed);
    expect(schedule.jarRule?.source.sourceId).toBe(sourceId);
  });

  test('half-pints printed apart keep their own time: crab and peach-pineapple spread', () => {
    const crab = { foodKey: 'crab', pack: 'none', method: 'pressure', gauge: 'dial' } as const;

    expect(scheduleOf('crab', 'half-pint', crab)).toMatchObject({ minutes: 70, jarRule: null });
    expect(scheduleOf('crab', 'pint', crab).minutes).toBe(80);
    expect(scheduleOf('peach-pineapple-spread', 'half-pint')).toMatchObject({ minutes: 20, jarRule: null });
    expect(scheduleOf('peach-pineapple-spread', 'pint').minutes).toBe(25);
  });

  test('sterile jars follow the style, not the minutes', () => {
    expect(
      scheduleOf('apple-butter', 'pint', { style: 'butter; sterile half-pint/pint jars' }),
    ).toMatchObject({
      minutes: 10,
      sterileJars: true,
    });
    expect(scheduleOf('apple-butter', 'quart', { style: 'butter' }).sterileJars).toBe(false);
    expect(
      answerOf(
        scheduleFor(tables, {
          foodKey: 'jam-jelly-unsterilised',
          pack: 'hot',
          jar: 'half-pint',
          method: 'boiling-water',
          altitudeFt: 800,
        }),
      ),
    ).toMatchObject({ minutes: 10, sterileJars: false });
  });
});

describe('acid, water and steam', () => {
  const tomatoes: ProcessQuery = {
    foodKey: 'tomatoes-crushed',
    pack: 'hot',
    jar: 'quart',
    method: 'boiling-water',
    altitudeFt: 500,
  };

  // USDA Complete Guide 3, p3-5; Guide 2, p2-14 and p2-20.
  test('tomatoes get acid per jar, in the pressure canner too', () => {
    const inWater = answerOf(scheduleFor(tables, tomatoes));
    const underPressure = answerOf(
      scheduleFor(tables, { ...tomatoes, method: 'pressure', gauge: 'weighted', choice: { psi: 10 } }),
    );

    expect(inWater.acid).toEqual(underPressure.acid);
    expect(inWater.acid?.oneOf.map(({ acid, quantity, unit }) => `${quantity} ${unit} ${acid}`)).toEqual([
      '2 tbsp bottled_lemon_juice',
      '0.5 tsp citric_acid',
      '4 tbsp vinegar_5pct',
    ]);
  });

  test('a 12-oz jar gets the pint dose, a 500-mL jar the quart dose', () => {
    const doseOf = (jar: ProcessQuery['jar']) => answerOf(scheduleFor(tables, { ...tomatoes, jar })).acid;

    expect(doseOf('12-oz')?.oneOf[0]).toMatchObject({ quantity: 1, unit: 'tbsp' });
    expect(doseOf('500-ml')?.oneOf[0]).toMatchObject({ quantity: 2, unit: 'tbsp' });
  });

  test('figs take lemon or citric acid, Asian pears lemon only, peaches none', () => {
    const acidsOf = (foodKey: string) =>
      answerOf(scheduleFor(tables, { ...tomatoes, foodKey })).acid?.oneOf.map(({ acid }) => acid);

    expect(acidsOf('figs')).toEqual(['bottled_lemon_juice', 'citric_acid']);
    expect(acidsOf('asian-pears')).toEqual(['bottled_lemon_juice']);
    expect(acidsOf('peaches')).toBeUndefined();
  });

  test('water stands 1 inch above the jars, 2 inches when over 30 minutes', () => {
    expect(
      answerOf(scheduleFor(tables, { ...tomatoes, foodKey: 'peaches', altitudeFt: 1001 })),
    ).toMatchObject({
      minutes: 30,
      waterAboveJarsIn: 1,
    });
    expect(
      answerOf(scheduleFor(tables, { ...tomatoes, foodKey: 'peaches', altitudeFt: 3001 })),
    ).toMatchObject({
      minutes: 35,
      waterAboveJarsIn: 2,
    });
  });

  // National Center for Home Food Preservation, atmospheric steam canners: acid food, 45 minutes in all.
  test('a steam canner serves the boiling-water row up to 45 minutes and no further', () => {
    const steam = { ...tomatoes, method: 'atmospheric-steam' } as const;

    expect(answerOf(scheduleFor(tables, { ...steam, altitudeFt: 1000 }))).toMatchObject({ minutes: 45 });
    expect(codesOf(scheduleFor(tables, { ...steam, altitudeFt: 1001 }))).toEqual(['steam-too-long']);
  });
});

describe('printed alternatives', () => {
  const juice: ProcessQuery = {
    foodKey: 'tomato-juice',
    pack: 'hot',
    jar: 'pint',
    method: 'pressure',
    gauge: 'weighted',
    altitudeFt: 0,
  };

  // USDA Complete Guide 3, p3-6: 20 minutes at 5 psi, 15 at 10, 10 at 15.
  test('are all listed, and one must be chosen', () => {
    const listed = answerOf(schedulesFor(tables, juice)).map(({ minutes, psi }) => [minutes, psi]);

    expect(listed).toEqual([
      [20, 5],
      [15, 10],
      [10, 15],
    ]);
    expect(codesOf(scheduleFor(tables, juice))).toEqual(['choose-schedule']);
    expect(answerOf(scheduleFor(tables, { ...juice, choice: { psi: 15 } })).minutes).toBe(10);
  });

  test('minutes and pressure of different alternatives never mix', () => {
    expect(codesOf(scheduleFor(tables, { ...juice, choice: { minutes: 10, psi: 5 } }))).toEqual([
      'choice-not-printed',
    ]);
  });
});

describe('under any question', () => {
  const anyQuery = fc.record({
    foodKey: fc.constantFrom(...new Set(rows.map((row) => row.foodKey))),
    row: fc.constantFrom(...rows),
    ownStyle: fc.boolean(),
    pack: fc.constantFrom('hot', 'raw', 'none' as const),
    jar: fc.constantFrom(...jarSizes),
    method: fc.constantFrom(...processMethods),
    gauge: fc.constantFrom(...gauges),
    altitudeFt: fc.oneof(
      fc.double({ min: 0, max: 10_000, noNaN: true }),
      fc.constantFrom(0, 1000, 1000.7, 1001, 2000, 2000.5, 3000, 4000, 6000, 6000.01, 8000, 8000.01, 9999),
    ),
  });

  test('the whole answered tuple is one printed row (20,000 questions, seed 20260817)', () => {
    let answered = 0;
    fc.assert(
      fc.property(anyQuery, ({ row, foodKey, ownStyle, ...query }) => {
        const ruling = schedulesFor(tables, {
          ...query,
          foodKey: ownStyle ? row.foodKey : foodKey,
          pack: ownStyle ? row.pack : query.pack,
          style: row.style,
        });
        if (!ruling.ok) {
          for (const problem of ruling.problems) {
            if (!problem.rule || !problem.source.locator || !problem.instead) return false;
          }
          return true;
        }
        answered += 1;
        return ruling.value.every((schedule) => {
          const printedMethod =
            schedule.method === 'pressure' ? `pressure-${schedule.gauge}` : 'boiling-water';
          const printed = rows.filter(
            (candidate) =>
              candidate.basis === 'read' &&
              candidate.foodKey === schedule.foodKey &&
              candidate.style === row.style &&
              candidate.pack === schedule.pack &&
              candidate.jar === schedule.printedJar &&
              candidate.method === printedMethod &&
              candidate.altitudeFromFt === schedule.bandFromFt &&
              candidate.altitudeToFt === schedule.bandToFt &&
              candidate.minutes === schedule.minutes &&
              candidate.psi === schedule.psi,
          );
          const insideBand =
            schedule.altitudeFt <= (schedule.bandToFt ?? Number.POSITIVE_INFINITY) &&
            schedule.altitudeFt > schedule.bandFromFt - 1;
          const jarFits =
            schedule.jar === schedule.printedJar
              ? schedule.jarRule === null
              : schedule.jarRule !== null && nominalMl[schedule.printedJar] > nominalMl[schedule.jar];
          const boiled = schedule.method !== 'pressure';
          return (
            printed.length === 1 && insideBand && jarFits && !(boiled && schedule.acidity === 'low-acid')
          );
        });
      }),
      { numRuns: 20_000, seed: 20_260_817 },
    );

    expect(answered).toBeGreaterThan(2000);
  });

  test('low-acid food never gets a boiling-water or steam schedule: every food, style, pack, jar, gauge and band', () => {
    const lowAcid = [
      ...new Map(
        rows.filter((row) => row.acidity === 'low-acid').map((row) => [`${row.foodKey}|${row.style}`, row]),
      ).values(),
    ];
    let asked = 0;
    const served: string[] = [];
    for (const row of lowAcid) {
      for (const style of [row.style, undefined]) {
        for (const jar of jarSizes) {
          for (const method of ['boiling-water', 'atmospheric-steam'] as const) {
            for (const gauge of [...gauges, undefined]) {
              for (const pack of ['hot', 'raw', 'none'] as const) {
                for (const altitudeFt of [0, 1000, 1500, 4000, 7000, 9000]) {
                  asked += 1;
                  const ruling = schedulesFor(tables, {
                    foodKey: row.foodKey,
                    pack,
                    jar,
                    method,
                    altitudeFt,
                    ...(style === undefined ? {} : { style }),
                    ...(gauge === undefined ? {} : { gauge }),
                  });
                  if (ruling.ok) served.push(`${row.foodKey} ${jar} ${method}`);
                }
              }
            }
          }
        }
      }
    }

    expect(served).toEqual([]);
    expect(asked).toBeGreaterThan(50_000);
  });

  test('a low-acid row smuggled in as boiling water is still refused', () => {
    const [row] = rows.filter((candidate) => candidate.acidity === 'low-acid');
    if (!row) throw new Error('the table should hold low-acid food');
    const forged = { ...row, method: 'boiling-water' as const, psi: null };

    const ruling = schedulesFor({ ...tables, processTimes: [forged] }, queryForRow(forged, 0));

    expect(codesOf(ruling)).toEqual(['low-acid-needs-pressure']);
  });
});
