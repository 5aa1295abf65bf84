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

describe('a name of several words', () => {
  const crops = [
    ['cherry-sweet', 'Cherries, sweet'],
    ['cherry-tart', 'Cherries, tart'],
    ['squash-summer', 'Squash, summer'],
    ['radish', 'Radishes'],
    ['asparagus', 'Asparagus'],
    ['watercress', 'Watercress'],
    ['potato-sweet', 'Potatoes, sweet'],
    ['pumpkin-pie', 'Pumpkins, pie'],
    ['pepper-hot', 'Peppers, jalapeño'],
    ['pear', 'Pears'],
    ['pea', 'Peas'],
    ['oca', 'Oca'],
    ['gooseberry', 'Gooseberry'],
    ['chestnut', 'Chestnut'],
    ['tea', 'Leaves of a bush'],
    ['pears', 'Pears'],
  ].map(([crop, name]) => ({ crop: crop as CropKey, name: name ?? '' }));
  const meant = (typed: string) => cropsByWords(crops, typed).map(({ crop }) => crop);

  test.each([
    ['cherries', ['cherry-sweet', 'cherry-tart']],
    ['cherry', ['cherry-sweet', 'cherry-tart']],
    ['tart cherry', ['cherry-tart']],
    ['Cherries, sweet', ['cherry-sweet']],
    ['sweet', ['cherry-sweet', 'potato-sweet']],
    ['sweet potatoes', ['potato-sweet']],
    ['summer squash', ['squash-summer']],
    ['squashes', ['squash-summer']],
    ['  radish ', ['radish']],
    ['radishes', ['radish']],
    ['asparagus', ['asparagus']],
    ['watercress', ['watercress']],
    ['watercresses', ['watercress']],
    ['pies', ['pumpkin-pie']],
    ['pie pumpkins', ['pumpkin-pie']],
    ['jalapeños', ['pepper-hot']],
    ['hot peppers', ['pepper-hot']],
    ['gooseberries', ['gooseberry']],
    ['chestnuts', ['chestnut']],
    ['ocas', ['oca']],
    ['oca', ['oca']],
  ])('“%s” is %j', (typed, expected) => {
    expect(meant(typed)).toEqual(expected);
  });

  test('the very name is meant before what only holds its words, and of two of one name the first', () => {
    expect(meant('pea')).toEqual(['pea']);
    expect(meant('pears')).toEqual(['pear']);
    expect(meant('tea')).toEqual(['tea']);
  });

  test('every word has to be one of the crop', () => {
    expect(meant('sour cherries')).toEqual([]);
    expect(meant('pe ar')).toEqual([]);
    expect(meant('cherry squash')).toEqual([]);
    expect(meant('')).toEqual([]);
    expect(meant(' - ')).toEqual([]);
  });
});
