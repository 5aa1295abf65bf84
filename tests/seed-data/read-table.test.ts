import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { readTable } from '../../server/reference/read-table.ts';
import { servingRow } from '../../shared/schemas/reference/serving.ts';

const header = 'item_key,item,serving_qty,serving_unit,source_id,locator,basis';
const messagesOf = (text: string): string[] => {
  const outcome = readTable('servings.csv', text, servingRow);
  return outcome.ok ? [] : outcome.problems.map((problem) => problem.message);
};

describe('reading a table from text', () => {
  test('a good row is parsed into its domain words', () => {
    const outcome = readTable(
      'servings.csv',
      `${header}\nsoup,Soup,245,g,CFR-101.12,Table 2,read\n`,
      servingRow,
    );

    expect(outcome.ok && outcome.value[0]).toMatchObject({ itemKey: 'soup', quantity: 245, unit: 'g' });
  });

  test('a fault names file, line, column, what was expected and what was found', () => {
    const text = `${header}\nsoup,Soup,245,g,CFR-101.12,Table 2,read\nstew,Stew,much,g,CFR-101.12,Table 2,read\n`;

    expect(messagesOf(text)).toEqual([
      'servings.csv, line 3, serving_qty: Expected a plain number such as 0.25 or 1001; found "much".',
    ]);
  });

  test('a missing column is named', () => {
    expect(messagesOf('item_key,item\nsoup,Soup\n')[0]).toMatch(
      /lacks the columns serving_qty, serving_unit/,
    );
  });

  test('a header without rows and a ragged line are refused', () => {
    expect(messagesOf(`${header}\n`)[0]).toMatch(/has no rows/);
    expect(messagesOf(`${header}\nsoup,Soup\n`)[0]).toMatch(/could not be read as comma-separated text/);
  });

  test('the shipped tables load whole', () => {
    expect(loadReferenceTables().processTimes).toHaveLength(1688);
  });
});
