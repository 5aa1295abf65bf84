import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { buildModel, canningStage } from '../../../src/planning/model/build-model.ts';
import type { BegunBatches } from '../../../src/planning/planning-year.ts';
import { heldBatches, type MayChange } from '../../../src/planning/solving/held-batches.ts';
import { type InWeek, planOf } from '../short-plan.ts';
import { batchOf, food, pint, shortYear, sourceOf } from '../short-year.ts';

const quart = asJarKind('quart', 'regular');
const year = shortYear(3, {
  foods: [food('jam', { jarKind: pint })],
  sources: [sourceOf('tree')],
  recipes: [
    batchOf('jam-of-plums', 'jam', { allowedByWeek: [true, true, false] }),
    batchOf('jam-of-plums', 'jam', { jarKind: quart }),
  ],
  begun: [
    {
      id: 'crock',
      recipeId: 'jam-of-plums' as BegunBatches['recipeId'],
      jarKind: pint,
      batches: 1,
      begunOn: '2027-01-04' as BegunBatches['begunOn'],
      mayLoadByWeek: [true, true, true],
    },
  ],
});
const built = buildModel(year, canningStage);

/** What is held of an earlier plan, by the names of columns. */
function held(byWeek: Readonly<Record<number, InWeek>>, mayChange: MayChange = () => false) {
  const bounds = heldBatches(built, planOf(year, byWeek).weeks, mayChange);
  return Object.fromEntries(
    [...bounds].map(([at, both]) => [built.model.columns[at]?.name.replace(/^batches/, ''), both]),
  );
}
const batches = (count: number, change: object = {}) => ({
  recipe: 'jam-of-plums',
  batches: count,
  ...change,
});
const inQuarts = { jars: [{ kind: quart, count: 4 }] };

describe('batches of an earlier plan', () => {
  test('are held as they stand, those in another jar for themselves, none where none stand', () => {
    expect(held({ 0: { sessions: [batches(2), batches(1), batches(3, inQuarts)] } })).toEqual({
      '[jam-of-plums in pint/regular,2027-W01]': [3, 3],
      '[jam-of-plums in pint/regular,2027-W02]': [0, 0],
      '[jam-of-plums in quart/regular,2027-W01]': [3, 3],
      '[jam-of-plums in quart/regular,2027-W02]': [0, 0],
      '[jam-of-plums in quart/regular,2027-W03]': [0, 0],
    });
  });

  test('are open where they may change', () => {
    const mayChange: MayChange = ({ jarKind }, week) => jarKind === quart || week === 1;

    expect(held({}, mayChange)).toEqual({ '[jam-of-plums in pint/regular,2027-W01]': [0, 0] });
  });

  test('that no week could take any more are held at the most it can', () => {
    const most = built.model.columns.find(({ name }) =>
      name.startsWith('batches[jam-of-plums in quart'),
    )?.upper;

    expect(most).toBeGreaterThan(1);
    expect(
      held({ 1: { sessions: [batches(99, inQuarts)] } })['[jam-of-plums in quart/regular,2027-W02]'],
    ).toEqual([most, most]);
  });

  test('that are begun are held in no week, and hold no others', () => {
    const begun = { begun: { id: 'crock', on: year.asOf } };

    const names = held({ 0: { sessions: [batches(2, begun)] } });

    expect(names['[jam-of-plums in pint/regular,2027-W01]']).toEqual([0, 0]);
    expect(Object.keys(names).filter((name) => name.includes('begun'))).toEqual([]);
  });

  test('are those of the weeks of the year, whenever the earlier plan began', () => {
    const plan = planOf(year, { 1: { sessions: [batches(2)] } });
    const later = heldBatches(built, plan.weeks.slice(1, 2), () => false);

    expect([...later.values()]).toEqual([
      [0, 0],
      [2, 2],
      [0, 0],
      [0, 0],
      [0, 0],
    ]);
  });
});
