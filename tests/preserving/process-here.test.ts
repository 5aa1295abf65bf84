import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { jarSizes } from '../../shared/jar.ts';
import { asDate } from '../../shared/week.ts';
import type { Canner } from '../../src/preserving/canner.ts';
import { rowKeyOf } from '../../src/preserving/lookup/process-lookup.ts';
import { type ProcessQuestion, processHere, processOfRecipe } from '../../src/preserving/process-here.ts';
import type { RecipeProcess } from '../../src/preserving/recipes/recipe-book.ts';
import { testedRecipes } from '../../src/preserving/recipes/tested-recipes.ts';

// USDA Complete Guide 1, p1-8: a process is for the food it was tested for. Rows: the processing tables themselves.

const tables = loadReferenceTables();
const book = testedRecipes(tables);
const today = asDate('2026-08-17');

const kettle: Canner = { method: 'boiling-water', gauge: null, uprightQuarts: 7, gaugeCheckedOn: null };
const steamer: Canner = { ...kettle, method: 'atmospheric-steam' };
const weighted: Canner = { ...kettle, method: 'pressure', gauge: 'weighted' };
const dial: Canner = {
  ...kettle,
  method: 'pressure',
  gauge: 'dial',
  gaugeCheckedOn: today,
  gaugeOff: { at5: 0, at10: 0, at15: 0 },
};
const canners = [kettle, steamer, weighted, dial];

const asFood = ({ foodKey, style, pack }: RecipeProcess) => ({ food: foodKey, style, pack });

const question = (changed: Partial<ProcessQuestion>): ProcessQuestion => ({
  basedOn: 'peaches-quarts',
  names: ['Peaches'],
  process: { food: 'peaches', style: 'halved or sliced', pack: 'hot' },
  crops: ['peach'],
  jar: 'quart',
  canner: kettle,
  altitudeFt: 1240,
  prepared: 'as-planned',
  at: `${today}T12:00`,
  ...changed,
});
const codesOf = (changed: Partial<ProcessQuestion>): readonly string[] => {
  const ruling = processHere(tables, question(changed));
  return ruling.ok ? ['open'] : ruling.problems.map(({ code }) => code);
};
const allProcesses = [
  ...new Map(
    tables.processTimes.map(({ foodKey, style, pack }) => [
      `${foodKey}|${style}|${pack}`,
      { foodKey, style, pack },
    ]),
  ).values(),
];

describe('the gate of processing', () => {
  it('opens for every recipe of the book with its own processes, crops and name, up to what only a kitchen can lack', () => {
    for (const recipe of book)
      for (const process of recipe.processes) {
        const ruling = processOfRecipe(tables, {
          basedOn: recipe.key,
          names: [recipe.name],
          process: asFood(process),
          crops: recipe.produce.flatMap(({ cropKey }) =>
            cropKey === null ? [] : [cropKey.replaceAll('_', '-')],
          ),
        });
        expect(ruling.ok, recipe.key).toBe(true);
      }
  });

  it('refuses the process of every other food on every recipe of the book', () => {
    for (const recipe of book)
      for (const process of allProcesses) {
        const own = recipe.processes.some(
          (one) =>
            one.foodKey === process.foodKey && one.style === process.style && one.pack === process.pack,
        );
        const ruling = processOfRecipe(tables, {
          basedOn: recipe.key,
          names: [],
          process: asFood(process),
          crops: [],
        });
        expect(ruling.ok, `${recipe.key} with ${process.foodKey}, ${process.style}, ${process.pack}`).toBe(
          own,
        );
      }
  });

  it('gives no time that is not a row of the food the recipe is based on, in any jar, canner or altitude', () => {
    const keysOfFood = new Map<string, Set<string>>();
    for (const row of tables.processTimes) {
      const keys = keysOfFood.get(row.foodKey) ?? new Set();
      keysOfFood.set(row.foodKey, keys.add(rowKeyOf(row)));
    }
    let opened = 0;
    for (const [at, recipe] of book.entries())
      for (const canner of canners) {
        // Every recipe meets another food's process, and its own, at altitudes and in jars that go round.
        for (const process of [...recipe.processes, allProcesses[(at * 7) % allProcesses.length]]) {
          if (process === undefined) continue;
          for (const [turn, altitudeFt] of [0, 1000, 1000.5, 3001, 6001, 8001, 10_001].entries()) {
            const jar = jarSizes[(at + turn) % jarSizes.length] ?? 'pint';
            const ruling = processHere(
              tables,
              question({
                basedOn: recipe.key,
                names: [],
                process: asFood(process),
                crops: [],
                jar,
                canner,
                altitudeFt,
              }),
            );
            if (!ruling.ok) continue;
            opened += 1;
            const foods = new Set(recipe.processes.map(({ foodKey }) => foodKey));
            for (const schedule of ruling.value.schedules) {
              expect(foods.has(schedule.foodKey)).toBe(true);
              expect(keysOfFood.get(schedule.foodKey)?.has(schedule.rowKey)).toBe(true);
              expect(schedule.minutes, recipe.key).toBeGreaterThan(0);
            }
          }
        }
      }
    expect(opened).toBeGreaterThan(300);
  });

  it('refuses sweet corn by the process of peaches, whichever of the two the recipe says it is', () => {
    const peaches = { food: 'peaches', style: 'halved or sliced', pack: 'hot' };

    expect(codesOf({ basedOn: 'corn-whole-kernel-pints', crops: ['sweet-corn'], process: peaches })).toEqual([
      'process-of-another-food',
    ]);
    expect(codesOf({ basedOn: 'peaches-pints', crops: ['sweet-corn'], process: peaches })).toEqual([
      'crop-of-another-food',
    ]);
    expect(codesOf({ basedOn: 'peaches', crops: ['peach', 'sweet-corn'], process: peaches })).toEqual([
      'crop-of-another-food',
    ]);
    expect(codesOf({ names: ['Sweet corn'], process: peaches })).toEqual(['name-of-another-food']);
  });

  it('gives nothing based on nothing a process', () => {
    for (const basedOn of [
      '',
      'own',
      'USDA-G2 p2-19',
      'a neighbour',
      'jam-jelly-unsterilised',
      'peaches quarts',
    ])
      expect(codesOf({ basedOn }), basedOn).toEqual(['not-a-tested-recipe']);
    expect(codesOf({ process: null })).toEqual(['no-process-named']);
  });

  it('knows a food of the processing table by its key, with its crops', () => {
    const plumJam = {
      basedOn: 'plum-jam',
      names: ['Plum jam'],
      process: { food: 'plum-jam', style: 'added pectin (liquid or powder); sterile jars', pack: 'hot' },
      jar: 'half-pint',
    } as const;

    expect(codesOf({ ...plumJam, crops: ['plum'] })).toEqual(['open']);
    expect(codesOf({ ...plumJam, crops: ['plum', 'peach'] })).toEqual(['crop-of-another-food']);
    expect(codesOf({ ...plumJam, basedOn: 'peach-jam', crops: ['plum'] })).toEqual([
      'process-of-another-food',
    ]);
  });

  it('reads keys and styles in any case, width and with marks', () => {
    for (const [basedOn, food] of [
      ['Peaches-Quarts', 'PEACHES'],
      ['PEACHES', 'Peaches'],
      ['peaches', 'ｐｅａｃｈｅｓ'],
    ] as const)
      expect(
        codesOf({ basedOn, process: { food, style: 'Halved or Sliced', pack: 'hot' } }),
        basedOn,
      ).toEqual(['open']);
  });

  it('refuses a kitchen without canner or altitude, and a canner that holds no such jar', () => {
    expect(codesOf({ canner: null })).toEqual(['canner-gone']);
    expect(codesOf({ altitudeFt: null })).toEqual(['altitude-unknown']);
    expect(codesOf({ canner: { ...kettle, counted: { quart: 0 } } })).toEqual(['jar-does-not-fit']);
  });

  it('says of every refusal which rule, where it stands and what is possible instead', () => {
    for (const changed of [
      { basedOn: '' },
      { process: null },
      { crops: ['cabbage'] },
      { canner: null },
      { altitudeFt: null },
      { names: ['Pumpkin butter'] },
    ] satisfies Partial<ProcessQuestion>[]) {
      const ruling = processHere(tables, question(changed));
      expect(ruling.ok).toBe(false);
      for (const { rule, source, instead } of ruling.ok ? [] : ruling.problems) {
        expect(rule.length).toBeGreaterThan(10);
        expect(tables.sources.some(({ sourceId }) => sourceId === source.sourceId)).toBe(true);
        expect(instead.length).toBeGreaterThan(10);
      }
    }
  });
});
