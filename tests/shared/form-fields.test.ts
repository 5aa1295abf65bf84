import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { moneyBounds } from '../../shared/bounds.ts';
import {
  choiceField,
  dateField,
  moneyField,
  numberField,
  optionalChoiceField,
  optionalNumberField,
  readForm,
  textField,
  tickField,
  typedValues,
} from '../../shared/schemas/form-fields.ts';
import { clearNumberFrom } from '../../shared/typed-number.ts';

const messageOf = (schema: z.ZodType, body: unknown): string => {
  const read = readForm(schema, body);
  if (read.ok) throw new Error('expected a problem, the form was read');
  return read.problems.map((problem) => problem.message).join(' | ');
};

describe('numbers as people type them', () => {
  it.each([
    ['1.5', 1.5],
    ['1,5', 1.5],
    [' 1,200 ', 1200],
    ['1,200.5', 1200.5],
    ['−2', -2],
    ['.5', 0.5],
  ])('reads %s as %d', (text, value) => {
    expect(clearNumberFrom(text)).toBe(value);
  });

  it.each(['', 'abc', '1e9', '0x10', 'Infinity', '1..2', '--1', '1 apple'])(
    'reads no number in “%s”',
    (text) => {
      expect(clearNumberFrom(text)).toBeNull();
    },
  );
});

describe('messages say what was expected, what was found and what to do next', () => {
  const use = z.object({
    use: numberField({ label: 'Weekly use', from: 0, to: 500, unit: 'jars', example: '1.5' }),
  });

  it('refuses a negative use', () => {
    expect(messageOf(use, { use: '-2' })).toBe(
      'Weekly use cannot be “-2”. Write a number from 0 to 500 jars.',
    );
  });

  it('refuses text in a number field and shortens what it echoes', () => {
    expect(messageOf(use, { use: 'two' })).toContain(
      'cannot be “two”. Write a number from 0 to 500 jars, in digits like 1.5.',
    );
    expect(messageOf(use, { use: 'x'.repeat(10_000) }).length).toBeLessThan(200);
  });

  it('says when a field is empty or was not sent', () => {
    expect(messageOf(use, {})).toContain('Weekly use is empty. Write a number');
    expect(messageOf(use, undefined)).toContain('Weekly use is empty. Write a number');
  });

  it('tells a day that does not exist from text that is no date', () => {
    const day = z.object({ on: dateField('The day') });

    expect(messageOf(day, { on: '2026-02-30' })).toContain('“2026-02-30”, which is no day of the calendar');
    expect(messageOf(day, { on: 'soon' })).toContain(
      'cannot be “soon”. Write year, month and day, like 2026-08-17.',
    );
  });

  it('names the path of every field that has to be mended', () => {
    const read = readForm(
      z.object({ name: textField('Name', 10), lb: numberField({ label: 'Amount', from: 0, to: 9 }) }),
      {
        name: 'far too long a name',
        lb: '10',
      },
    );

    expect(read.ok ? [] : read.problems.map((problem) => problem.path)).toEqual([['name'], ['lb']]);
  });

  it('lists the choices in words', () => {
    const per = z.object({ per: choiceField('time', ['week', 'month'], (choice) => `a ${choice}`) });

    expect(messageOf(per, { per: 'fortnight' })).toBe(
      'There is no time “fortnight”. Choose a time: a week or a month.',
    );
  });
});

describe('reading a whole form', () => {
  it('reads money to whole cents, ticks, empty optionals and the last of repeated values', () => {
    const form = z.object({
      price: moneyField({ ...moneyBounds.fund, label: 'Price' }),
      yearly: tickField(),
      gift: tickField(),
      people: optionalNumberField({ label: 'People', from: 1, to: 40 }),
      gauge: optionalChoiceField('Gauge', ['dial', 'weighted']),
      name: textField('Name'),
    });

    const read = readForm(form, { price: '$12.35', yearly: 'on', people: '', name: ['first', 'last'] });

    expect(read).toEqual({
      ok: true,
      value: { price: 1235, yearly: true, gift: false, people: null, gauge: null, name: 'last' },
    });
  });

  it('keeps what was typed, as text', () => {
    expect(typedValues({ use: '-2', days: ['1', '2'] })).toEqual({ use: '-2', days: '2' });
    expect(typedValues(null)).toEqual({});
  });
});
