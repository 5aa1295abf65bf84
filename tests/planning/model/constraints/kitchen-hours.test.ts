import { describe, expect, it } from 'vitest';
import type { PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, processing, recipe, staged, used, week } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

const kitchen = (parts: Partial<PlanningYear>) =>
  readModel(handMadeYear(3, { items: [used('jam', each(3, 1))], ...parts }));

describe('the work of a week', () => {
  it('fits its sessions without their set-up', () => {
    const model = kitchen({
      recipes: [
        recipe('boil', 'jam', { processing: processing() }),
        recipe('dry', 'jam', { handsOnMinutes: 30, allowedByWeek: [false, true, true] }),
      ],
    });
    expect(model.row('kitchen_hours[w0]')).toEqual(says('70 batches[boil,w0] - 220 sessions[w0] <= 0'));
    expect(model.row('kitchen_hours[w1]')).toEqual(
      says('70 batches[boil,w1] + 30 batches[dry,w1] - 220 sessions[w1] <= 0'),
    );
  });

  it('holds no batch that a session does not', () => {
    const model = kitchen({ recipes: [recipe('boil', 'jam', { processing: processing() })] });
    expect(model.row('kitchen_hours[boil,w0]')).toEqual(says('batches[boil,w0] - 3 sessions[w0] <= 0'));
  });

  it('is done by each pair of hands', () => {
    const model = kitchen({
      recipes: [recipe('boil', 'jam')],
      time: {
        maxSessionsByWeek: [2, 1, 1],
        hoursPerSessionByWeek: [3, 3, 3],
        handsByWeek: [2, 1, 1.5],
        setUpMinutes: 30,
      },
    });
    expect(model.row('kitchen_hours[w0]')).toEqual(says('60 batches[boil,w0] - 300 sessions[w0] <= 0'));
    expect(model.row('kitchen_hours[w2]')).toEqual(says('60 batches[boil,w2] - 225 sessions[w2] <= 0'));
    expect(model.column('sessions[w0]')).toEqual({ lower: 0, upper: 2, integer: true, cost: 40 });
  });

  it('has the days before a load in their own weeks', () => {
    const model = kitchen({
      recipes: [recipe('soak', 'jam', { stages: staged(2, [15, 0, 45]), processing: processing() })],
    });
    expect(model.row('kitchen_hours[w0]')).toEqual(says('15 batches[soak,w2] - 220 sessions[w0] <= 0'));
    expect(model.row('kitchen_hours[w1]')).toBeUndefined();
    expect(model.row('kitchen_hours[w2]')).toEqual(says('55 batches[soak,w2] - 220 sessions[w2] <= 0'));
  });

  it('is nothing in a week that is closed', () => {
    const model = kitchen({
      recipes: [recipe('boil', 'jam')],
      time: { maxSessionsByWeek: [0, 1, 1], hoursPerSessionByWeek: each(3, 4), setUpMinutes: 20 },
    });
    expect(model.rows('kitchen_hours')).toEqual([
      'kitchen_hours[boil,w1]',
      'kitchen_hours[w1]',
      'kitchen_hours[boil,w2]',
      'kitchen_hours[w2]',
    ]);
    expect(model.column('sessions[w0]')).toMatchObject({ lower: 0, upper: 0 });
  });

  it('is nothing in sessions no longer than their set-up', () => {
    const model = kitchen({
      recipes: [recipe('boil', 'jam'), recipe('soak', 'jam', { stages: staged(1, [60, 0]) })],
      time: { maxSessionsByWeek: each(3, 1), hoursPerSessionByWeek: [0.5, 4, 4], setUpMinutes: 30 },
    });
    expect(model.column('sessions[w0]')).toMatchObject({ upper: 0 });
    expect(model.column('batches[boil,w0]')).toBeUndefined();
    expect(model.row('kitchen_hours[w0]')).toBeUndefined();
    expect(model.column('batches[soak,w1]')).toBeUndefined();
    expect(model.column('batches[soak,w2]')).toBeDefined();
  });
});

describe('what was put up already', () => {
  const done = (batches: number, at = 0) =>
    kitchen({
      recipes: [recipe('boil', 'jam', { processing: processing() })],
      time: { maxSessionsByWeek: each(3, 2), hoursPerSessionByWeek: each(3, 4), setUpMinutes: 20 },
      kept: [{ recipeId: named('boil'), week: week(at), decision: 'done', batches }],
    });

  it('takes its minutes of the week and its loads of the canner', () => {
    expect(done(2).row('kitchen_hours[w0]')).toEqual(says('70 batches[boil,w0] - 220 sessions[w0] <= -140'));
    expect(done(2).row('canner_day[kettle,w0]')).toEqual(
      says('50 loads[kettle,plums,w0] - 240 sessions[w0] <= -100'),
    );
    expect(done(2, 1).row('kitchen_hours[w0]')).toMatchObject({ most: 0 });
    expect(done(2, 1).row('canner_day[kettle,w1]')).toMatchObject({ most: -100 });
  });

  it('takes no more than there is', () => {
    expect(done(9).row('kitchen_hours[w0]')).toMatchObject({ most: -440 });
    expect(done(12).row('canner_day[kettle,w0]')).toMatchObject({ most: -480 });
  });
});
