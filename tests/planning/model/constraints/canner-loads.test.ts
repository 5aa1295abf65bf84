import { expect, it } from 'vitest';
import type { PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, processing, recipe, used, week } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

const twoCanners: Partial<PlanningYear> = {
  items: [used('jam', each(2, 1))],
  canners: [
    { id: named('kettle'), name: 'Kettle', method: 'boiling-water' },
    { id: named('pot'), name: 'Pot', method: 'pressure' },
  ],
};

it('each batch has its whole loads; batches of one schedule count together, those of another apart', () => {
  const model = readModel(
    handMadeYear(2, {
      ...twoCanners,
      recipes: [
        recipe('a', 'jam', { yieldHighJars: 9, processing: processing() }),
        recipe('b', 'jam', { yieldHighJars: 7, processing: processing() }),
        recipe('c', 'jam', { processing: processing({ scheduleKey: 'pears', loadMinutes: 65 }) }),
        recipe('d', 'jam', {
          processing: processing({ cannerId: named('pot') }),
          allowedByWeek: [false, true],
        }),
        recipe('e', 'jam'),
      ],
    }),
  );
  expect(model.row('canner_loads[kettle,plums,w0]')).toEqual(
    says('loads[kettle,plums,w0] - 2 batches[a,w0] - batches[b,w0] = 0'),
  );
  expect(model.row('canner_loads[kettle,pears,w0]')).toEqual(
    says('loads[kettle,pears,w0] - batches[c,w0] = 0'),
  );
  expect(model.rows('canner_loads[pot')).toEqual(['canner_loads[pot,plums,w1]']);
  expect(model.column('loads[kettle,plums,w0]')).toMatchObject({
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    integer: false,
  });
  expect(model.row('canner_day[kettle,w0]')).toEqual(
    says('50 loads[kettle,plums,w0] + 65 loads[kettle,pears,w0] - 240 sessions[w0] <= 0'),
  );
  expect(model.rows('canner_day')).toEqual([
    'canner_day[kettle,w0]',
    'canner_day[kettle,w1]',
    'canner_day[pot,w1]',
  ]);
});

it('a canner is as long at work with several pairs of hands as with one', () => {
  const model = readModel(
    handMadeYear(2, {
      ...twoCanners,
      recipes: [recipe('a', 'jam', { processing: processing() })],
      time: {
        maxSessionsByWeek: [1, 1],
        hoursPerSessionByWeek: [4, 2],
        handsByWeek: [3, 3],
        setUpMinutes: 20,
      },
    }),
  );
  expect(model.row('canner_day[kettle,w1]')).toEqual(
    says('50 loads[kettle,plums,w1] - 120 sessions[w1] <= 0'),
  );
});

it('what was canned in another canner takes none of its day', () => {
  const year = handMadeYear(2, {
    ...twoCanners,
    recipes: [
      recipe('a', 'jam', { processing: processing() }),
      recipe('d', 'jam', { processing: processing({ cannerId: named('pot'), loadMinutes: 90 }) }),
    ],
  });
  const model = readModel({
    ...year,
    kept: [{ recipeId: named('d'), week: week(0), decision: 'done', batches: 1 }],
  });
  expect(model.row('canner_day[kettle,w0]')).toMatchObject({ most: 0 });
  expect(model.row('canner_day[pot,w0]')).toMatchObject({ most: -90 });
});
