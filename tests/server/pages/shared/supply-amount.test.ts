import { expect, test } from 'vitest';
import { supplyAmount } from '../../../../server/pages/shared/supply-amount.ts';
import { type Reading, usReading } from '../../../../views/words/reading.ts';

const metric: Reading = { ...usReading, units: 'metric' };

// What is set out and goes into the pot is cooked by. A quart of vinegar was "0.9 L", a cup of it "0.3 qt" or "0.2 L", and half a
// pound of salt "0.2 kg": a tenth to a quarter less acid or salt than the recipe was tested with, or more.

test.each([
  [0.25, 'qt', '1 cup', '237 mL'],
  [1, 'qt', '1 qt', '946 mL'],
  [1.25, 'qt', '1¼ qt', '1.18 L'],
  [4, 'qt', '4 qt', '3.79 L'],
  [0.75, 'lb', '¾ lb', '340 g'],
  [0.55, 'lb', '0.55 lb', '249 g'],
  [0.1, 'lb', '1.6 oz', '45 g'],
  [3.5, 'lb', '3½ lb', '1.59 kg'],
  [2.25, 'cup', '2¼ cups', '2¼ cups'],
  [1, 'package', '1 package', '1 package'],
])('%d %s is %s, or %s', (quantity, unit, us, si) => {
  expect(supplyAmount(quantity, unit, usReading)).toBe(us);
  expect(supplyAmount(quantity, unit, metric)).toBe(si);
});

/** One of each unit in the measure the book counts in, by NIST Handbook 44, appendix C. */
const inUnit: Readonly<Record<string, readonly [of: string, holds: number]>> = {
  lb: ['lb', 1],
  oz: ['lb', 1 / 16],
  g: ['lb', 1 / 453.59237],
  kg: ['lb', 1000 / 453.59237],
  qt: ['qt', 1],
  L: ['qt', 1 / 0.946352946],
  mL: ['qt', 1 / 946.352946],
  cup: ['qt', 1 / 4],
  cups: ['qt', 1 / 4],
  tbsp: ['qt', 1 / 64],
};
const fractions: Readonly<Record<string, number>> = {
  '⅛': 1 / 8,
  '¼': 1 / 4,
  '⅓': 1 / 3,
  '⅜': 3 / 8,
  '½': 1 / 2,
  '⅝': 5 / 8,
  '⅔': 2 / 3,
  '¾': 3 / 4,
  '⅞': 7 / 8,
};
const readBack = (words: string): readonly [unit: string, amount: number] => {
  const [, whole = '', sign = '', unit = ''] = /^([\d.,]*)([⅛-⅞½¼¾⅓⅔]?) (\w+)$/u.exec(words) ?? [];
  const [of = unit, holds = 1] = inUnit[unit] ?? [];
  return [of, (Number(whole.replaceAll(',', '')) + (fractions[sign] ?? 0)) * holds];
};

test('whatever a batch takes by weight or measure, what is read is what it takes', () => {
  const wrong: string[] = [];
  for (const unit of ['lb', 'qt'])
    for (const reading of [usReading, metric])
      for (let hundredths = 2; hundredths <= 2400; hundredths += hundredths < 400 ? 1 : 25) {
        const amount = hundredths / 100;
        const words = supplyAmount(amount, unit, reading);
        const [of, read] = readBack(words);
        // A kitchen fraction lies within a hundredth of its unit; what is weighed in ounces is read to a tenth of one.
        const slack = Math.max(0.006 * amount, 0.0102);
        if (of !== unit || Math.abs(read - amount) > slack) wrong.push(`${amount} ${unit} as ${words}`);
      }

  expect(wrong).toEqual([]);
});
