import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText, withoutMark } from '../../../server/files/csv-text.ts';

/** Read by a reader that is not ours. */
const cellsOf = (text: string): string[][] => parse(text, { bom: true }) as string[][];

/** What a spreadsheet that drops blanks and unseen signs at the front would take for a formula. */
const looksLikeFormula = (cell: string): boolean =>
  /^[=+\-@＝＋－＠]/.test(cell.replace(/^[\s\p{C}\u115f\u1160\u3164]+/u, ''));

describe('a list for a spreadsheet', () => {
  it.each([
    ['nothing', ''],
    ['a line feed', '\n'],
    ['a carriage return', '\r'],
    ['a tab', '\t'],
    ['a space', ' '],
    ['a no-break space', '\u00a0'],
    ['a zero-width space', '\u200b'],
    ['a zero-width joiner and a space', '\u200d '],
    ['a byte-order mark', '\ufeff'],
    ['NUL', '\u0000'],
  ])('holds no formula that begins after %s', (_, blank) => {
    for (const sign of ['=', '+', '-', '@', '＝', '＋', '－', '＠']) {
      const [, [cell = '']] = cellsOf(csvText(['note'], [[`${blank}${sign}1+1`]])) as [string[], string[]];
      expect(cell).toBe(`'${blank}${sign}1+1`);
    }
  });

  it('has as many rows and cells as it was given, none a formula, and each text comes back', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.string({ unit: 'binary', minLength: 1, maxLength: 12 }).filter((one) => !/\p{Cs}/u.test(one)),
          {
            minLength: 1,
            maxLength: 5,
          },
        ),
        (texts) => {
          const rows = cellsOf(
            csvText(
              ['a'],
              texts.map((text) => [text, 7]),
            ).replace('a\r\n', 'a,b\r\n'),
          );
          expect(rows).toHaveLength(texts.length + 1);
          rows.slice(1).forEach(([cell = '', number], at) => {
            expect(looksLikeFormula(cell)).toBe(false);
            expect(withoutMark(cell)).toBe(texts[at]);
            expect(number).toBe('7');
          });
        },
      ),
    );
  });
});
