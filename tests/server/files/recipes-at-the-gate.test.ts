import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { householdText, restoreHousehold } from '../../../server/files/household-file.ts';
import { recipesAtTheGate } from '../../../server/files/recipes-at-the-gate.ts';
import { recipesOf } from '../../../server/queries/household/recipes.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { recipeBasis } from '../../../src/preserving/recipes/recipe-basis.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { daysFor, mostHoursBefore } from '../../../src/preserving/stages/recipe-stages.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

const reference = loadReferenceTables();
const processes = [
  ...new Map(reference.processTimes.map((row) => [`${row.foodKey}|${row.style}|${row.pack}`, row])).values(),
];

/** A saved Quince Yard with its bean recipe changed by hand. */
async function savedWith(change: Readonly<Record<string, unknown>>): Promise<string> {
  const { db } = await quinceYardHousehold();
  const saved = JSON.parse(await householdText(db, quinceYard));
  Object.assign(
    saved.tables.recipe.find(({ id }: { id: string }) => id === 'green-beans-batch'),
    change,
  );
  return JSON.stringify(saved);
}

describe('a household that is brought in', () => {
  it('keeps every recipe of a file of our own as it was', async () => {
    const { db, writer } = await quinceYardHousehold();
    const restored = worked(await restoreHousehold(writer(), await householdText(db, quinceYard)));

    expect(restored.notCanned).toEqual([]);
    expect((await recipesOf(db, quinceYard)).every(({ process }) => process !== null)).toBe(true);
  });

  it('brings green beans by the process of peaches in as not canned, with the reason, and drops nothing', async () => {
    const { db, writer } = await quinceYardHousehold();
    const text = await savedWith({
      process_food: 'peaches',
      process_style: 'halved or sliced',
      process_pack: 'hot',
      canner_id: 'kettle',
    });

    const restored = worked(await restoreHousehold(writer(), text));

    expect(restored.notCanned.map(({ recipeId }) => recipeId)).toEqual(['green-beans-batch']);
    const beans = (await recipesOf(db, quinceYard)).find(({ id }) => id === 'green-beans-batch');
    expect(beans?.process).toBeNull();
    expect(beans?.awaitsCanner).toBe(false);
    expect(beans?.processRefused).toMatch(/belongs to the food it was tested for/);
    expect(beans?.produce).toHaveLength(1);
  });

  it.each([
    ['a name of a refused food', { name: 'Pumpkin butter' }],
    ['nothing it is based on', { based_on: 'a neighbour' }],
    ['another food it is based on', { based_on: 'peaches-pints' }],
    ['a change that no rule allows', { changes_json: '["twice-the-onions"]' }],
    ['changes that are no list', { changes_json: '{"a":1}' }],
    ['a pack that is not printed', { process_pack: 'none' }],
    ['another style', { process_style: 'whole, in oil' }],
  ])('does not believe a process with %s', async (_what, change) => {
    const read = JSON.parse(await savedWith(change));

    const { tables, notCanned } = recipesAtTheGate(read.tables, reference);

    expect(notCanned.map(({ recipeId }) => recipeId)).toEqual(['green-beans-batch']);
    expect(tables.recipe).toHaveLength(2);
  });

  it('leaves no recipe with a process that is not one of what it is based on, however a file is mixed up', async () => {
    const read = JSON.parse(await savedWith({}));
    const cell = fc.constantFrom(
      ...processes.map(({ foodKey }) => foodKey),
      'beans-snap-pints',
      'peaches-quarts',
      '',
    );
    fc.assert(
      fc.property(
        cell,
        fc.constantFrom(...processes),
        fc.constantFrom('peach', 'green-bean', 'sweet-corn', 'plum', 'tomato'),
        (basedOn, { foodKey, style, pack }, crop) => {
          const recipe = {
            ...read.tables.recipe[0],
            based_on: basedOn,
            name: '',
            process_food: foodKey,
            process_style: style,
            process_pack: pack,
          };
          const tablesOf = recipesAtTheGate(
            {
              ...read.tables,
              item: [],
              recipe: [recipe],
              recipe_produce: [{ recipe_id: recipe.id, crop, lb: 1 }],
            },
            reference,
          ).tables;

          const [kept] = tablesOf.recipe;
          if (kept?.process_food === null) return;
          const basis = recipeBasis(reference, String(kept?.based_on));
          expect(basis?.processes.some((one) => one.foodKey === kept?.process_food)).toBe(true);
          expect(basis?.hasCrop(crop)).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('days until the first good jar', () => {
  // Once written with the days in the crock counted in; the jars' own begin when they are filled.
  const staged = recipeBook(reference).filter(({ stages }) => stages.length > 0);
  const figures = staged.map(({ key, processes, stages, curing }) => ({
    key,
    process: processes[0],
    once: daysFor(mostHoursBefore(stages)) + (curing?.daysLow ?? 0),
    now: curing?.daysLow ?? 0,
  }));

  it('are those of curing for every recipe of several days in a file, written before or after', () => {
    for (const { key, process, once, now } of figures)
      for (const days of [once, now]) {
        const { tables } = recipesAtTheGate(
          {
            recipe: [
              {
                id: 'a',
                name: 'A',
                based_on: key,
                process_food: process?.foodKey ?? null,
                process_style: process?.style ?? null,
                process_pack: process?.pack ?? null,
                ready_after_days: days,
              },
            ],
          },
          reference,
        );

        expect([key, tables.recipe[0]?.ready_after_days]).toEqual([key, now]);
      }
  });
});
