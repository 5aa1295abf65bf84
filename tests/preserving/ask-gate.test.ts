import { describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import type { Canner } from '../../src/household/kitchen.ts';
import type { Recipe } from '../../src/household/recipe.ts';
import {
  type AskedOf,
  askGate,
  cannerFacts,
  isCanned,
  mayTake,
  noonOf,
} from '../../src/preserving/ask-gate.ts';
import { copyOf, householdAt, itemOf, kettle, ownRecipe, pressureCanner } from './own-kitchen.ts';
import { answerOf, codesOf, tables } from './tables.ts';

const on = asDate('2026-08-22');
const asked: AskedOf = { at: noonOf(on), prepared: 'as-planned' };
const kitchen = { household: householdAt(5300), canners: [kettle, pressureCanner], reference: tables };
const ask = (
  recipe: Recipe,
  { name = recipe.name, ...more }: Partial<AskedOf & { name: string }> = {},
  here = kitchen,
) => askGate(recipe, itemOf(name), here, { ...asked, ...more });

describe('the gate asked about a recipe of the household', () => {
  // USDA Complete Guide 2, p2-20: peaches, hot pack, pints, boiling water, 3,001 to 6,000 ft: 30 minutes.
  test('answers with the printed time and the household’s own canner', () => {
    const answer = answerOf(ask(copyOf('peaches-pints')));
    expect(answer.schedules).toMatchObject([{ minutes: 30, jar: 'pint' }]);
    expect(answer.canner).toBe(kettle);
    expect(answer.jarsPerLoad).toBe(9);
  });

  test('goes by the jar of the process and by the altitude of the household', () => {
    const quarts = answerOf(ask(copyOf('peaches-quarts')));
    expect(quarts.schedules).toMatchObject([{ jar: 'quart' }]);
    const low = answerOf(ask(copyOf('peaches-quarts'), {}, { ...kitchen, household: householdAt(500) }));
    expect(low.schedules[0].minutes).toBeLessThan(quarts.schedules[0].minutes);
  });

  test('a recipe that waits for its canner says so, by its own name and its item’s', () => {
    const waiting = { ...copyOf('peaches-pints'), process: null, awaitsCanner: true, name: 'Peach halves' };
    expect(ask(waiting, { name: 'Peaches' })).toEqual({
      ok: false,
      problems: [
        {
          code: 'canner-not-chosen',
          path: ['canner'],
          message:
            'No canner of this kitchen has been chosen for Peach halves. Add a canner that fits on the kitchen page, then choose it on the page of Peaches.',
        },
      ],
    });
    // With a process it waits for nothing, whatever else is written.
    expect(codesOf(ask({ ...copyOf('peaches-pints'), awaitsCanner: true }))).toEqual([]);
  });

  test('a process that was not believed stays refused in the words it was refused with', () => {
    const refused = {
      ...copyOf('peaches-pints'),
      process: null,
      processRefused: 'No such process is printed.',
    };
    expect(ask(refused)).toMatchObject({
      problems: [{ code: 'process-refused', path: ['process'], message: 'No such process is printed.' }],
    });
    expect(
      codesOf(ask({ ...copyOf('peaches-pints'), processRefused: 'No such process is printed.' })),
    ).toEqual([]);
  });

  test('what names no process is not canned', () => {
    expect(codesOf(ask(ownRecipe('Plums')))).toEqual(['no-process-named']);
  });

  test('a canner that is gone is missed', () => {
    expect(codesOf(ask(copyOf('peaches-pints'), {}, { ...kitchen, canners: [pressureCanner] }))).toEqual([
      'canner-gone',
    ]);
  });

  test('a number beyond its bound stops it before anything is worked out: of the batch, of what its canner holds', () => {
    expect(codesOf(ask({ ...copyOf('peaches-pints'), yieldHigh: 1_000_000 }))).toEqual([
      'number-out-of-bounds',
    ]);
    const vast: Canner = { ...kettle, holds: { ...kettle.holds, pints: 1_000_000 } };
    expect(codesOf(ask(copyOf('peaches-pints'), {}, { ...kitchen, canners: [vast] }))).toEqual([
      'number-out-of-bounds',
    ]);
    // Another canner of the kitchen is none of this recipe's.
    const other: Canner = { ...pressureCanner, holds: { ...pressureCanner.holds, pints: 1_000_000 } };
    expect(codesOf(ask(copyOf('peaches-pints'), {}, { ...kitchen, canners: [kettle, other] }))).toEqual([]);
  });

  test('both names are held against the tested food: its own and its item’s', () => {
    const butter = copyOf('apple-butter');
    expect(codesOf(ask(butter, { name: 'Quince butter' }))).toEqual(['name-of-another-food']);
    expect(codesOf(ask({ ...butter, name: 'Quince butter' }, { name: 'Apple butter' }))).toEqual([
      'name-of-another-food',
    ]);
    const nameDenials = [{ name: 'Quince butter', otherFood: 'quince', by: null, at: 0 }];
    expect(codesOf(ask({ ...butter, nameDenials }, { name: 'Quince butter' }))).toEqual([]);
  });

  test('a crop of another food is refused', () => {
    const produce = [{ crop: 'pumpkin' as never, lb: 5, mayBeFrozen: false }];
    expect(codesOf(ask({ ...copyOf('apple-butter'), produce }))).toEqual(['crop-of-another-food']);
  });

  test('what was begun is asked about where it counts, and only told where it is planned', () => {
    const dill = copyOf('quick-dill-pickles');
    expect(codesOf(ask(dill))).toEqual([]);
    expect(codesOf(ask(dill, { prepared: [] }))).toEqual(['stage-not-begun']);
    const stood = [{ position: 1, way: null, begunAt: '2026-08-22T00:00' }];
    expect(codesOf(ask(dill, { prepared: stood }))).toEqual([]);
    expect(codesOf(ask(dill, { prepared: stood, at: '2026-08-22T11:59' }))).toEqual(['stage-too-short']);
  });

  // USDA Complete Guide 1, p1-20: the gauge of a dial canner is checked every year before use.
  test('a dial gauge nobody checked is counted on only from the day a plan names', () => {
    const dial: Canner = {
      ...pressureCanner,
      gauge: 'dial',
      gaugeOff: { at5: 0, at10: 0, at15: 0 },
      gaugeCheckedOn: asDate('2024-05-01'),
    };
    const here = { ...kitchen, canners: [dial] };
    const beans = copyOf('beans-snap-pints', { in: dial });
    expect(ask(beans, {}, here).ok).toBe(false);
    expect(ask(beans, { gaugeCheckPlannedOn: null }, here).ok).toBe(false);
    const planned = answerOf(ask(beans, { gaugeCheckPlannedOn: on }, here));
    expect(planned.countsOnGaugeCheck).toBe(true);
    expect(planned.canner).toBe(dial);
  });
});

describe('what other batches leave, in something canned', () => {
  const stock = copyOf('meat-stock-quarts', { in: pressureCanner });
  const uses = (materialId: string) => [{ materialId, quantity: 2 }];

  test('is what the tested recipe is made of, or it is refused', () => {
    expect(codesOf(ask({ ...stock, uses: uses('chicken-or-turkey-bones') }))).toEqual([]);
    expect(ask({ ...stock, uses: uses('apple-pulp') })).toMatchObject({
      problems: [{ code: 'by-product-in-tested-recipe', path: ['takes'] }],
    });
    expect(ask({ ...copyOf('apple-butter'), name: 'Apple butter', uses: uses('apple-pulp') })).toMatchObject({
      problems: [{ message: expect.stringMatching(/^Apple butter is canned by a tested recipe/) }],
    });
  });

  test('a recipe made of nothing that others leave takes nothing of them', () => {
    expect(mayTake(null, 'apple-pulp')).toBe(false);
    expect(mayTake({ material: null }, 'apple-pulp')).toBe(false);
    expect(mayTake({ material: null }, '')).toBe(false);
    expect(mayTake({ material: 'Chicken or turkey bones' }, 'chicken-or-turkey-bones')).toBe(true);
  });
});

describe('whether a recipe goes through the gate', () => {
  test('does where a process is named or the item is kept in sealed jars', () => {
    const canned = copyOf('peaches-pints');
    expect(isCanned(canned, { keeping: 'frozen' })).toBe(true);
    expect(isCanned({ process: null }, { keeping: 'canned' })).toBe(true);
    expect(isCanned({ process: null }, { keeping: 'frozen' })).toBe(false);
  });

  test('a day without an hour is asked about at noon', () => {
    expect(noonOf(on)).toBe('2026-08-22T12:00');
  });
});

describe('a canner as the rules know it', () => {
  test('a steam canner is one at the pressure of the air', () => {
    const methods = (['boiling-water', 'steam', 'pressure'] as const).map(
      (method) => cannerFacts({ ...kettle, method }).method,
    );
    expect(methods).toEqual(['boiling-water', 'atmospheric-steam', 'pressure']);
  });

  test('brings what was counted of each size of jar, and its gauge with how far it is off', () => {
    const checked = asDate('2026-05-01');
    const gaugeOff = { at5: 1, at10: 0.5, at15: 0 };
    expect(cannerFacts({ ...pressureCanner, gauge: 'dial', gaugeCheckedOn: checked, gaugeOff })).toEqual({
      method: 'pressure',
      gauge: 'dial',
      uprightQuarts: 7,
      gaugeCheckedOn: checked,
      gaugeOff,
      volumeQuarts: 23,
      counted: { quart: 7, pint: 9, 'half-pint': 10 },
    });
  });
});
