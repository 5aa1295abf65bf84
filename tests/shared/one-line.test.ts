import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { dateField, optionalTextField, readForm, textField } from '../../shared/schemas/form-fields.ts';
import { isOneLine } from '../../shared/schemas/one-line.ts';
import { calendarDate, weekKey } from '../../shared/week.ts';

const form = z.object({ name: textField('Name'), note: optionalTextField('Note') });
const firstMessage = (schema: z.ZodType, body: unknown): string | undefined => {
  const read = readForm(schema, body);
  return read.ok ? undefined : read.problems[0]?.message;
};

/** What another program could take for more than a name, each with its Unicode number. */
const unfitSigns = {
  'line feed': '\u000a',
  'carriage return': '\u000d',
  tab: '\u0009',
  NUL: '\u0000',
  escape: '\u001b',
  'next line': '\u0085',
  'line separator': '\u2028',
  'paragraph separator': '\u2029',
  'right-to-left override': '\u202e',
  'first strong isolate': '\u2068',
  'half of a pair, first': '\ud83c',
  'half of a pair, second': '\udf45',
  noncharacter: '\uffff',
};

describe('a text of one line', () => {
  it.each(Object.entries(unfitSigns))('is refused with a %s in it, in words that say where', (_, sign) => {
    expect(firstMessage(form, { name: `Plum${sign}jam`, note: '' })).toMatch(
      /^Name is one line of letters and signs that can be seen; yours has .+ after “Plum”\. Take it out\.$/,
    );
    expect(firstMessage(form, { name: 'Plum jam', note: `for${sign}Ida` })).toMatch(/^Note is one line/);
  });

  it.each(['Crème de mûre', 'ابو فروة', 'Kürbis-Öl', '梅干', 'Jam 🍅 of tomatoes', '👨‍👩‍👧 jars', '‏שזיפים‏'])(
    'is taken as %s',
    (name) => {
      expect(readForm(form, { name, note: '' })).toEqual({ ok: true, value: { name, note: '' } });
    },
  );

  it('holds no control character, separator, override or half a pair, whatever is sent', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const read = readForm(form, { name: text, note: '' });
        const kept = read.ok ? read.value.name : '';
        expect(kept).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]/u);
        expect(kept).not.toMatch(/\p{Cs}/u);
        expect(isOneLine(kept)).toBe(true);
      }),
    );
  });
});

describe('a date of the calendar', () => {
  const day = z.object({ day: dateField('Day') });

  it.each(['9999-12-31', '0001-01-01', '1999-12-31', '2201-01-01', '1969-07-20'])(
    'is refused as %s, outside the years 2000 to 2200',
    (text) => {
      expect(firstMessage(day, { day: text })).toBe(
        `Day cannot be “${text}”. Pick a day of the years 2000 to 2200.`,
      );
      expect(calendarDate.safeParse(text).success).toBe(false);
    },
  );

  it.each(['2000-01-01', '2200-12-31', '2028-02-29'])('is taken as %s', (text) => {
    expect(firstMessage(day, { day: text })).toBeUndefined();
  });

  it.each(['9999-W01', '1999-W52', '2026-W59', '2201-W01'])('has no week %s', (text) => {
    expect(weekKey.safeParse(text).success).toBe(false);
  });
});
