import { describe, expect, it } from 'vitest';
import { foodWords } from '../../../src/preserving/foods/food-words.ts';
import { namedIn } from '../../../src/preserving/foods/name-reading.ts';

const foodsIn = (text: string): readonly string[] => namedIn(text).map(({ food }) => food);
const withDoubts = (text: string): readonly string[] =>
  namedIn(text).map(({ food, doubt }) => (doubt === null ? food : `${food}: ${doubt}`));

/** CLDR, transform Latin-ASCII: how these letters are typed on a keyboard that has none of them. */
const typed = (text: string): string =>
  text
    .replaceAll('ß', 'ss')
    .replaceAll('æ', 'ae')
    .replaceAll('œ', 'oe')
    .replaceAll('ø', 'o')
    .replaceAll('ł', 'l')
    .replaceAll('đ', 'd')
    .replaceAll('ð', 'd')
    .replaceAll('þ', 'th')
    .replaceAll('ı', 'i')
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '');

const listed = foodWords.flatMap(({ words }) =>
  words.split(' ').map((word) => word.replaceAll(/^\?|\*$/g, '').replaceAll('_', ' ')),
);

describe('a name the household writes', () => {
  it('says the same in capitals, and with plain letters for the letters of other tongues', () => {
    const latin = listed.filter((word) => /^[\p{Script=Latin} ’']+$/u.test(word));
    expect(latin.length).toBeGreaterThan(1000);
    expect(latin.filter((word) => foodsIn(word).join() !== foodsIn(word.toUpperCase()).join())).toEqual([]);
    expect(latin.filter((word) => foodsIn(word).join() !== foodsIn(typed(word)).join())).toEqual([]);
  });

  it('names something by every word the table holds', () => {
    expect(listed.filter((word) => foodsIn(word).length === 0)).toEqual([]);
  });

  it.each([
    ['a letter of another script that looks the same', 'pumpkіn with buttеr'],
    ['a mark that is not seen', 'pump\u00ADkin, but\u200Bter'],
    ['other spaces and marks between words', 'pumpkin\u00A0–  … butter!'],
    ['a capital within', 'PumpkinButter'],
    ['no space', 'pumpkinbutter'],
    ['one space too many', 'pump kin but ter'],
    ['letters spelled apart', 'p u m p k i n & b.u.t.t.e.r'],
    ['a word between', 'pumpkinandbutter'],
    ['a German word between', 'kürbisundbutter'],
    ['a French word between', 'citrouilleetbeurre'],
    ['plurals', 'pumpkins, butters'],
  ])('is read over %s', (_, text) => {
    expect(withDoubts(text)).toEqual(['pumpkin', 'butter']);
  });

  it.each([
    ['berries', 'berry'],
    ['tomatoes', 'tomato'],
    ['squashes', 'winter squash'],
    ['gateaux', 'cake'],
    ['figs', 'fig'],
  ])('is read in the plural: %s', (plural, food) => {
    expect(withDoubts(plural)).toEqual([food]);
  });

  it('takes the longest thing that is said: butter beans are no butter', () => {
    expect(foodsIn('butter beans')).toEqual(['lima bean']);
    expect(foodsIn('butter beans and butter')).toEqual(['lima bean', 'butter']);
    expect(foodsIn('butter and butter beans')).toEqual(['butter', 'lima bean']);
  });

  it('says a food once, and surely where it is said surely anywhere', () => {
    expect(withDoubts('pumkin')).toEqual(['pumpkin: spelling']);
    expect(withDoubts('pumkin pumpkin pumkin')).toEqual(['pumpkin']);
    expect(withDoubts('pumpkin pumkin')).toEqual(['pumpkin']);
  });

  it('is in doubt of its meaning where the food is somebody’s', () => {
    for (const mark of ["'", '’', '`', '´', 'ʼ'])
      expect(withDoubts(`Pumpkin${mark}s apples`)).toEqual(['pumpkin: meaning', 'apple']);
    expect(withDoubts("soupe à l'oignon et d'ail")).toEqual(withDoubts('soupe à l oignon et d ail'));
    expect(foodsIn("d'ail")).toEqual(['garlic']);
  });

  it.each(['colored', 'coloured', 'scented', 'shaped', 'sized', 'tinted'])(
    'names no food by what only looks like one: peach-%s',
    (looks) => {
      expect(foodsIn(`apples, peach-${looks} label`)).toEqual(['apple']);
    },
  );

  it('reads a tongue without spaces by what it holds', () => {
    expect(foodsIn('南瓜')).toEqual(['pumpkin']);
    expect(foodsIn('かぼちゃジャム')).toEqual(['pumpkin']);
  });
});

describe('a misspelt name', () => {
  const word = 'pumpkin';
  const places = [...word].map((_, at) => at).slice(1);
  const doubtful = (text: string) => withDoubts(text).join() === 'pumpkin: spelling';

  it('is known with any one letter wrong, missing, added or changed about with the next', () => {
    const wrong = places.map((at) => `${word.slice(0, at)}w${word.slice(at + 1)}`);
    const missing = places.map((at) => word.slice(0, at) + word.slice(at + 1));
    const added = places.map((at) => `${word.slice(0, at)}w${word.slice(at)}`);
    const about = places
      .slice(0, -1)
      .map((at) => word.slice(0, at) + (word[at + 1] ?? '') + (word[at] ?? '') + word.slice(at + 2));
    const all = [...wrong, ...missing, ...added, ...about];
    expect(all).toHaveLength(6 + 6 + 6 + 5);
    expect(all.filter((text) => !doubtful(text))).toEqual([]);
  });

  it('is not guessed at with its first letter or two letters wrong, nor where it is short', () => {
    expect(foodsIn('bumpkin')).toEqual([]);
    const two = places.flatMap((one) =>
      places
        .filter((other) => other > one)
        .map((other) => [...word].map((letter, at) => (at === one || at === other ? 'w' : letter)).join('')),
    );
    expect(two).toHaveLength(15);
    expect(two.filter((text) => foodsIn(text).includes('pumpkin'))).toEqual([]);
    expect(foodsIn('fik')).toEqual([]);
    expect(foodsIn('nutz')).toEqual([]);
  });

  it('is suspected where a known long word begins or ends it', () => {
    expect(withDoubts('avocadozz')).toEqual(['avocado: spelling']);
    expect(withDoubts('zzavocado')).toEqual(['avocado: spelling']);
  });
});
