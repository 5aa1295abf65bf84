import { describe, expect, test } from 'vitest';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { cautionsFor } from '../../../src/preserving/sheet/cautions.ts';
import { answerOf, queryForRow, tables } from '../tables.ts';

const known = new Set(tables.sources.map((source) => source.sourceId));

describe('cautions', () => {
  test('the common ones stand on every schedule that can be served, each with a known source', () => {
    for (const row of tables.processTimes.filter(({ basis }) => basis === 'read')) {
      const cautions = cautionsFor(answerOf(scheduleFor(tables, queryForRow(row, row.altitudeFromFt))));
      const codes = cautions.map(({ code }) => code);

      expect(codes).toEqual(
        expect.arrayContaining([
          'restart-clock',
          'official-guide-first',
          'altitude',
          'botulism-signs',
          'do-not-taste',
          'gauge-check',
        ]),
      );
      expect(new Set(codes).size).toBe(codes.length);
      expect(cautions.filter(({ source }) => !known.has(source.sourceId))).toEqual([]);
    }
  });

  test.each([
    ['peaches', 'boiling-water', 'yellow-flesh-only'],
    ['tomato-sauce', 'boiling-water', 'no-frosted-vines'],
    ['winter-squash', 'pressure', 'cubes-only'],
    ['mushrooms', 'pressure', 'no-wild-mushrooms'],
    ['fruit-puree', 'boiling-water', 'puree-fruits'],
  ] as const)('%s says what must not go in: %s, %s', (foodKey, method, code) => {
    const schedule = answerOf(
      scheduleFor(tables, { foodKey, pack: 'hot', jar: 'pint', method, gauge: 'weighted', altitudeFt: 500 }),
    );

    expect(cautionsFor(schedule).map((caution) => caution.code)).toContain(code);
  });

  test('foods with a caution of their own are foods of the table', () => {
    const foods = new Set(tables.processTimes.map((row) => row.foodKey));

    for (const foodKey of ['peaches', 'berries-whole', 'tomato-taco-sauce', 'spaghetti-sauce-meat', 'soup']) {
      expect(foods).toContain(foodKey);
    }
  });
});
