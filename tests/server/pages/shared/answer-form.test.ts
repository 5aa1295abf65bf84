import { describe, expect, test } from 'vitest';
import { fieldsFrom, sentBackOf, statesFrom } from '../../../../server/pages/shared/answer-form.ts';
import type { Problem } from '../../../../shared/problems.ts';

const kept = { name: 'Larder', jars: '12', cold: true };
const problem = (message: string, ...path: readonly (string | number)[]): Problem => ({
  code: 'form.field',
  path,
  message,
});
const sentBack = (body: object, problems: readonly Problem[], renamed = {}) =>
  sentBackOf({ body }, problems, { formId: 'place', renamed });

describe('the fields of a form', () => {
  test('hold what is kept while nothing was sent, or another form was', () => {
    const other = sentBackOf({ body: { name: 'Attic' } }, [problem('No.', 'name')], { formId: 'other' });

    for (const fields of [fieldsFrom(null), fieldsFrom(other)])
      expect(fields('place', kept)).toEqual({ formId: 'place', values: kept, problems: {} });
  });

  test('hold what was typed, and each its own problem, in order', () => {
    const back = sentBack({ name: '', jars: ['1', 'few'], cold: 'yes', other: 'x' }, [
      problem('Name is empty.', 'name'),
      problem('Write digits.', 'jars'),
      problem('And fewer.', 'counts', 3, 'jars'),
    ]);

    expect(fieldsFrom(back)('place', kept)).toEqual({
      formId: 'place',
      values: { name: '', jars: 'few', cold: true },
      problems: { name: 'Name is empty.', jars: 'Write digits. And fewer.' },
    });
  });

  test('say at the head of the form what belongs to none of them, or to one that is not shown', () => {
    const back = sentBack({ name: 'Attic' }, [
      problem('It was there.', 'placeId'),
      problem('Too many.', 'jars'),
    ]);

    expect(fieldsFrom(back)('place', kept, ['jars']).problems).toEqual({ '': 'It was there. Too many.' });
  });

  test('show beside a field what the record says of it by another name', () => {
    const back = sentBack({ jars: '900' }, [problem('Too many.', 'jarQuarts')], { jarQuarts: 'jars' });

    expect(fieldsFrom(back)('place', kept).problems).toEqual({ jars: 'Too many.' });
  });

  test('leave a box unticked that was unticked, though it is kept as ticked', () => {
    expect(fieldsFrom(sentBack({ name: '' }, []))('place', kept).values.cold).toBe(false);
    expect(fieldsFrom(sentBack({ name: '', cold: 'no' }, []))('place', kept).values.cold).toBe(false);
  });

  test('leave a box as it is kept where a button of the same form was pressed that sends no field', () => {
    expect(fieldsFrom(sentBack({ key: 'k' }, []))('place', kept).values.cold).toBe(true);
  });

  test('of a form that changes something carry keys of their own', () => {
    let made = 0;
    const state = statesFrom(() => ({ csrf: 'token', key: String(++made) }), null);

    expect([state('place', kept), state('other', kept)].map(({ keys }) => keys.key)).toEqual(['1', '2']);
  });
});

describe('a refused form', () => {
  test.each([
    [422, []],
    [409, ['key-reused']],
    [429, ['sign-in-wait']],
    [503, ['reading-busy']],
  ])('answers %i for %j', (status, codes) => {
    const problems = codes.map((code) => ({ ...problem('No.', 'name'), code }));

    expect(sentBack({}, problems).status).toBe(status);
  });
});
