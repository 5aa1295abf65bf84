import { describe, expect, test } from 'vitest';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { rowConditions } from '../../../src/preserving/lookup/row-conditions.ts';
import { stagesOfFood, waysOf } from '../../../src/preserving/stages/recipe-stages.ts';
import { answerOf, queryForRow, tables } from '../tables.ts';

const said = (query: Parameters<typeof scheduleFor>[1]): string =>
  rowConditions(tables, answerOf(scheduleFor(tables, query))).join('\n');

const kettle = { method: 'boiling-water', altitudeFt: 2000, jar: 'pint' } as const;
const presser = { method: 'pressure', gauge: 'dial', altitudeFt: 2000, jar: 'pint', pack: 'hot' } as const;

describe('what must be so for a printed row to hold', () => {
  // USDA Complete Guide 4, p4-14 (peppers are peeled), p4-5 (dried beans are soaked); Guide 3, p3-5 (acid).
  test('peeled peppers, soaked beans, acid in tomatoes, hot pack only, smoked fish', () => {
    expect(said({ ...presser, foodKey: 'peppers' })).toContain('peeled');
    expect(said({ ...presser, foodKey: 'peppers' })).toContain('Hot pack only');
    expect(said({ ...presser, foodKey: 'beans-dried' })).toMatch(
      /Before it, soaked overnight: .*12 to 18 hours/,
    );
    expect(said({ ...presser, foodKey: 'beans-dried' })).toMatch(/Or before it, quick soak: .*1 hour\)/);
    expect(said({ ...kettle, foodKey: 'tomatoes-crushed', pack: 'hot' })).toMatch(
      /Acidified: each jar gets 1 .*lemon.*USDA-G3/,
    );
    expect(said({ ...kettle, foodKey: 'peaches', pack: 'hot' })).not.toContain('pack only');
    expect(said({ ...presser, pack: 'none', foodKey: 'smoked-fish' })).toContain('16 to 22 quarts of water');
  });

  test('of every row that was read: its band, its style, its highest altitude, its only pack, its acid, its stages', () => {
    const rows = tables.processTimes.filter(({ basis }) => basis === 'read');
    for (const row of rows) {
      const ruling = scheduleFor(tables, queryForRow(row, row.altitudeFromFt));
      if (!ruling.ok) continue;
      const words = rowConditions(tables, ruling.value).join('\n');
      const alike = rows.filter(
        (one) => one.foodKey === row.foodKey && one.style === row.style && one.method === row.method,
      );
      const ends = alike
        .filter(({ pack, jar }) => pack === row.pack && jar === row.jar)
        .map(({ altitudeToFt }) => altitudeToFt);
      const name = `${row.foodKey} ${row.style} ${row.method} ${row.pack} ${row.jar} ${row.altitudeFromFt}`;

      expect(words, name).toContain(row.style);
      expect(words, name).toContain(`is at ${row.altitudeFromFt.toLocaleString('en-US')} `);
      expect(words.includes('nothing is printed'), name).toBe(!ends.includes(null));
      expect(words.includes('pack only'), name).toBe(
        row.pack !== 'none' && new Set(alike.map(({ pack }) => pack)).size === 1,
      );
      if (row.acidity === 'acidified') expect(words, name).toContain('Acidified');
      const stages = stagesOfFood(tables, row.foodKey);
      expect(words.match(/before it/gi)?.length ?? 0, name).toBe(
        stages.length === 0 ? 0 : waysOf(stages).length,
      );
    }
  });
});
