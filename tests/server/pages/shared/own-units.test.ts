import { expect, test } from 'vitest';
import { asCounted, unitsTyped } from '../../../../server/pages/shared/produce/own-units.ts';
import { type Reading, usReading } from '../../../../views/words/reading.ts';

const metric: Reading = { ...usReading, units: 'metric' };
const back = (units: number, unit: string, reading: Reading) =>
  Number(asCounted({ it: unitsTyped(units, unit, reading) }, unit, ['it'], reading).values.it);

test('what stands in a field comes back as it was, however it is weighed, and is never read as thousands', () => {
  const changed: string[] = [];
  for (const reading of [usReading, metric])
    for (const unit of ['lb', 'qt', 'each'])
      for (let tenths = 1; tenths <= 1200; tenths += 1) {
        const units = tenths / 10;
        const field = unitsTyped(units, unit, reading);
        if (Math.abs(back(units, unit, reading) - units) > 1e-9 || /^\d+\.\d{3}$/.test(field))
          changed.push(`${units} ${unit} as ${field}`);
      }

  expect(changed).toEqual([]);
});

test.each([
  // 1 kg is 2.20462262185 lb and 1 L 1.05668821 qt (NIST Handbook 44, appendix C).
  ['4.082', 'lb', metric, 8.9993],
  ['9 lb', 'lb', metric, 9],
  ['9', 'lb', usReading, 9],
  ['2 kg', 'lb', usReading, 4.4092],
  ['1.5 L', 'qt', usReading, 1.585],
  ['0.75', 'qt', metric, 0.7925],
  ['2 quarts', 'qt', metric, 2],
  ['7', 'jar', metric, 7],
])('%s of what is counted in %s is as much', (typed, unit, reading, kept) => {
  expect(Number(asCounted({ it: typed }, unit, ['it'], reading).values.it?.replace(' lb', ''))).toBeCloseTo(
    kept,
    2,
  );
});

test('what is no number stays as it was typed, and so do other fields', () => {
  expect(asCounted({ it: 'some', note: '3' }, 'lb', ['it'], metric).values).toEqual({
    it: 'some',
    note: '3',
  });
});
