import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { untestedFoodRules } from '../../../src/preserving/foods/untested-foods.ts';
import { processOfRecipe } from '../../../src/preserving/process-here.ts';
import { recipeBasis } from '../../../src/preserving/recipes/recipe-basis.ts';
import { neverCannedNames } from './never-canned-names.ts';

const tables = loadReferenceTables();
const butter = { food: 'apple-butter', style: 'butter', pack: 'hot' };
const named = (name: string) =>
  processOfRecipe(tables, { basedOn: 'apple-butter', names: [name], process: butter, crops: [] });

describe('the gate holds every name against the food of its process', () => {
  it.each([...neverCannedNames, ...untestedFoodRules.map(({ name }) => name)])(
    '“%s” gets no process',
    (name) => {
      const ruling = named(name);
      expect(ruling.ok).toBe(false);
      expect(ruling.ok ? '' : ruling.problems[0]?.instead).not.toBe('');
    },
  );

  it('lets a household call its apple butter what it likes', () => {
    expect(named('Grandma’s favorite').ok).toBe(true);
  });

  it('lets every canned recipe of the demo household through under its own names', () => {
    const rows: Record<string, string>[] = parse(readFileSync('seed-data/demo/recipes.csv', 'utf8'), {
      columns: true,
    });
    const items: Record<string, string>[] = parse(readFileSync('seed-data/demo/items.csv', 'utf8'), {
      columns: true,
    });
    const canned = rows.filter(({ process_food }) => process_food !== '');
    expect(canned.length).toBeGreaterThan(10);
    for (const row of canned) {
      const process = {
        food: row.process_food ?? '',
        style: row.process_style ?? '',
        pack: row.process_pack ?? '',
      };
      expect(recipeBasis(tables, row.based_on ?? '', process), row.name).toBeDefined();
      const names = [row.name ?? '', items.find(({ id }) => id === row.item)?.name ?? ''];
      expect(
        processOfRecipe(tables, { basedOn: row.based_on ?? '', names, process, crops: [] }),
        row.name,
      ).toMatchObject({ ok: true });
    }
  });
});
