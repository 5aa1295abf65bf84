import { describe, expect, test } from 'vitest';
import type { CropKey } from '../../../shared/ids.ts';
import { cropsByWords } from '../../../src/planning/glut/crop-by-words.ts';

const known = [
  ['plum', 'Plums'],
  ['peach', 'Peaches'],
  ['tomato', 'Tomatoes'],
  ['blackberry', 'Blackberries'],
  ['cucumber-pickling', 'Cucumbers, pickling'],
  ['raspberry', 'Raspberries (summer-bearing)'],
  ['raspberry-fall', 'Raspberries (fall-bearing)'],
  ['pea', 'Peas'],
].map(([crop, name]) => ({ crop: crop as CropKey, name: name ?? '' }));

describe('a crop named in plain words', () => {
  test.each([
    ['plums', 'plum'],
    ['Plum', 'plum'],
    ['peaches', 'peach'],
    ['tomato', 'tomato'],
    ['TOMATOES', 'tomato'],
    ['blackberry', 'blackberry'],
    ['cucumbers', 'cucumber-pickling'],
    ['pickling cucumbers', 'cucumber-pickling'],
    ['raspberry', 'raspberry'],
    ['peas', 'pea'],
  ])('%s is %s', (typed, crop) => {
    expect(cropsByWords(known, typed).map((one) => one.crop)).toEqual([crop]);
  });

  test('that fits two is both, and one that fits none is none', () => {
    expect(cropsByWords(known, 'bearing raspberries')).toHaveLength(2);
    expect(cropsByWords(known, 'durian')).toEqual([]);
    expect(cropsByWords(known, '40')).toEqual([]);
  });
});
