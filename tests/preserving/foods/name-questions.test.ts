import { describe, expect, test } from 'vitest';
import { headlineOf } from '../../../src/preserving/foods/headline.ts';
import {
  askedTogether,
  denialsFor,
  type NameQuestion,
  nameQuestions,
  testedFoodOf,
} from '../../../src/preserving/foods/name-questions.ts';
import { copyOf, ofBook } from '../own-kitchen.ts';
import { answerOf, codesOf, tables } from '../tables.ts';

const appleButter = ofBook('apple-butter');
const questionsOf = (...names: readonly string[]) => answerOf(nameQuestions(names, appleButter));
const [quince] = questionsOf('Quince butter') as readonly [NameQuestion];

describe('what a recipe is held against', () => {
  test('is the recipe of the book it is based on', () => {
    expect(testedFoodOf(tables, 'apple-butter', null)?.name).toBe('Apple butter');
  });

  test('or the food of the processing table, where the book has no recipe of it', () => {
    expect(testedFoodOf(tables, 'plum-jam', null)?.name).toBe(
      tables.processTimes.find(({ foodKey }) => foodKey === 'plum-jam')?.food,
    );
  });

  test('or nothing', () => {
    expect(testedFoodOf(tables, 'own', null)).toBeNull();
  });
});

describe('a name that names another food', () => {
  test('is asked about, with the tested food beside it', () => {
    expect(quince).toMatchObject({
      name: 'Quince butter',
      question: 'This process was tested for apple butter. Is there quince in it?',
      otherFood: 'quince',
      no: 'No, there is no quince in it',
    });
    expect(quince.ifYes.code).not.toBe('');
  });

  test('is asked about once, however often it comes', () => {
    expect(questionsOf('Quince butter', 'Quince butter')).toHaveLength(1);
    expect(questionsOf('Quince butter', 'Apple butter', 'Our peach butter')).toMatchObject([
      { otherFood: 'quince' },
      { otherFood: 'peach' },
    ]);
  });

  test('is asked about no more once that very name was answered', () => {
    const denied = [{ name: 'Quince butter', otherFood: 'quince' }];
    expect(answerOf(nameQuestions(['Quince butter'], appleButter, denied))).toEqual([]);
    expect(answerOf(nameQuestions(['Old quince butter'], appleButter, denied))).toHaveLength(1);
  });

  test('that fits needs no question', () => {
    expect(questionsOf('Apple butter', 'Grandma’s best')).toEqual([]);
    expect(answerOf(nameQuestions([], appleButter))).toEqual([]);
  });

  test('that no answer could allow is refused at once, whatever else is asked', () => {
    const refused = nameQuestions(['Quince butter', 'Garlic in oil'], appleButter);
    expect(codesOf(refused)).toEqual(codesOf(nameQuestions(['Garlic in oil'], appleButter)));
    expect(refused.ok).toBe(false);
  });

  test('of a recipe based on nothing tested is refused, not asked about', () => {
    expect(nameQuestions(['Garlic in oil'], null).ok).toBe(false);
  });
});

describe('several names asked about together', () => {
  const peaches = questionsOf('Our peach butter');
  const both = [quince, ...peaches];

  test('nothing to ask is no question', () => {
    expect(askedTogether([])).toBeNull();
    expect(answerOf(denialsFor([], { name: 'x', otherFood: 'y', inIt: 'yes' }))).toEqual([]);
  });

  test('are one question, each name, food and answer once', () => {
    expect(askedTogether([quince])).toEqual({
      name: quince.name,
      question: quince.question,
      otherFood: quince.otherFood,
      no: quince.no,
    });
    expect(askedTogether([quince, quince, ...peaches])).toEqual({
      name: 'Quince butter; Our peach butter',
      question: `${quince.question} ${peaches[0]?.question}`,
      otherFood: 'quince; peach',
      no: `${quince.no}. ${peaches[0]?.no}`,
    });
  });

  const answered = { name: 'Quince butter; Our peach butter', otherFood: 'quince; peach' };

  test('No is kept for each of them', () => {
    expect(answerOf(denialsFor(both, { ...answered, inIt: 'no' }))).toEqual([
      { name: 'Quince butter', otherFood: 'quince' },
      { name: 'Our peach butter', otherFood: 'peach' },
    ]);
  });

  test('Yes is refused in one sentence, that of the first', () => {
    expect(denialsFor(both, { ...answered, inIt: 'yes' })).toEqual({ ok: false, problems: [quince.ifYes] });
  });

  test.each([
    { ...answered, inIt: '' },
    { ...answered, inIt: 'maybe' },
    { ...answered, name: 'Quince butter', inIt: 'no' },
    { ...answered, otherFood: 'quince', inIt: 'no' },
    { ...answered, name: 'Quince butter', inIt: 'yes' },
    { ...answered, otherFood: 'quince', inIt: 'yes' },
  ])('$inIt to $name, $otherFood leaves the question open', (said) => {
    expect(denialsFor(both, said)).toMatchObject({
      ok: false,
      problems: [
        {
          code: 'name-of-another-food',
          path: ['inIt'],
          message: '“Quince butter; Our peach butter” names another food. Answer, or write another name.',
        },
      ],
    });
  });

  test('a long name is shortened to 60 letters in the question left open', () => {
    const name = `Quince ${'y'.repeat(80)}`;
    const open = denialsFor([{ ...quince, name }], { name: '', otherFood: '', inIt: '' });
    expect(open).toMatchObject({
      problems: [{ message: expect.stringContaining(`“${name.slice(0, 60)}” names`) }],
    });
  });
});

describe('the headline of a batch', () => {
  const copy = copyOf('apple-butter');

  test('is the household’s own name with the tested food beside it', () => {
    expect(headlineOf({ name: 'Grandma’s butter' }, copy, tables)).toBe(
      'Grandma’s butter — apple butter, tested process',
    );
    expect(headlineOf({ name: 'Spiced apple butter' }, copy, tables)).toBe('Spiced apple butter');
  });

  test('is the name alone where nothing is canned, or no tested food is known', () => {
    expect(headlineOf({ name: 'Grandma’s butter' }, { ...copy, process: null }, tables)).toBe(
      'Grandma’s butter',
    );
    expect(headlineOf({ name: 'Grandma’s butter' }, { ...copy, basedOn: 'own' }, tables)).toBe(
      'Grandma’s butter',
    );
  });

  test('is the name alone while the name stands in the way, and both once it was answered', () => {
    expect(headlineOf({ name: 'Quince butter' }, copy, tables)).toBe('Quince butter');
    const nameDenials = [{ name: 'Quince butter', otherFood: 'quince', by: null, at: 0 }];
    expect(headlineOf({ name: 'Quince butter' }, { ...copy, nameDenials }, tables)).toBe(
      'Quince butter — apple butter, tested process',
    );
  });
});
