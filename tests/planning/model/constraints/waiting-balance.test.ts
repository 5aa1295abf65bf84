import { describe, expect, it } from 'vitest';
import type { PlannedMaterial, PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, named, produceOf, recipe, source, staged, used } from '../hand-made-year.ts';
import { readModel, says } from '../read-model.ts';

const pulp = (parts: Partial<PlannedMaterial> = {}): PlannedMaterial => ({
  id: 'pulp',
  name: 'Pulp',
  unit: 'lb',
  opening: 0,
  keepsDaysCold: 0,
  keepsMonthsFrozen: null,
  quartsPerUnit: 0.5,
  ...parts,
});

const withPlums = (parts: Partial<PlanningYear>): PlanningYear =>
  handMadeYear(4, {
    items: [used('jam', each(4, 1))],
    recipes: [recipe('jam-of-plums', 'jam', { produce: [produceOf('plum', 4)] })],
    sources: [source('orchard', 'plum', [10, 0, 8, 0])],
    ...parts,
  });

describe('a crop that keeps for no other week', () => {
  it('is used in the week it comes, and there is no batch without it', () => {
    const model = readModel(withPlums({}));
    expect(model.row('produce_limit[plum,w0]')).toEqual(
      says('produce[orchard,w0] - 4 batches[jam-of-plums,w0] = 0'),
    );
    expect(model.rows('produce_limit')).toEqual(['produce_limit[plum,w0]', 'produce_limit[plum,w2]']);
    expect(model.rows('use_by')).toEqual([]);
    expect(model.rows('waits_of')).toEqual([]);
    expect(model.rows('frozen')).toEqual([]);
    expect(model.rows('thaw')).toEqual([]);
  });
});

describe('a crop that keeps for a week', () => {
  const model = () =>
    readModel(withPlums({ sources: [source('orchard', 'plum', [10, 0, 8, 0], { useByDays: 7 })] }));

  it('waits for the next week and no longer', () => {
    expect(model().row('produce_limit[plum,w0]')).toEqual(
      says('produce[orchard,w0] - 4 batches[jam-of-plums,w0] - waiting[plum,w0] = 0'),
    );
    expect(model().row('produce_limit[plum,w1]')).toEqual(
      says('waiting[plum,w0] - 4 batches[jam-of-plums,w1] - waiting[plum,w1] = 0'),
    );
    expect(model().row('use_by[plum,w0]')).toEqual(says('waiting[plum,w0] - produce[orchard,w0] <= 0'));
    expect(model().row('use_by[plum,w1]')).toEqual(says('waiting[plum,w1] <= 0'));
    expect(model().row('use_by[plum,w2]')).toEqual(says('waiting[plum,w2] - produce[orchard,w2] <= 0'));
  });

  it('waits for nothing after the last week', () => {
    expect(model().columns('waiting')).toEqual(['waiting[plum,w0]', 'waiting[plum,w1]', 'waiting[plum,w2]']);
  });

  it('is taken when a batch is begun, for a load weeks later', () => {
    const begun = readModel(
      withPlums({
        sources: [source('orchard', 'plum', [10, 0, 8, 0], { useByDays: 7 })],
        recipes: [
          recipe('jam-of-plums', 'jam', { produce: [produceOf('plum', 4)], stages: staged(1, [30, 30]) }),
        ],
      }),
    );
    expect(begun.row('produce_limit[plum,w0]')).toEqual(
      says('produce[orchard,w0] - 4 batches[jam-of-plums,w1] - waiting[plum,w0] = 0'),
    );
    expect(begun.columns('waiting')).toEqual(['waiting[plum,w0]', 'waiting[plum,w1]']);
  });

  it('waits until the week its days allow where days are known', () => {
    const byDays = readModel(
      withPlums({
        sources: [source('orchard', 'plum', [10, 6, 8, 5], { lastUseWeekByWeek: [2, 1, 1, 3] })],
      }),
    );
    expect(byDays.row('use_by[plum,w0]')).toEqual(says('waiting[plum,w0] - produce[orchard,w0] <= 0'));
    expect(byDays.row('use_by[plum,w1]')).toEqual(says('waiting[plum,w1] - produce[orchard,w0] <= 0'));
    expect(byDays.row('use_by[plum,w2]')).toEqual(says('waiting[plum,w2] <= 0'));
    expect(byDays.column('produce[orchard,w2]')).toBeUndefined();
    expect(byDays.column('produce[orchard,w1]')).toMatchObject({ lower: 0, upper: 6 });
  });
});

describe('a crop of two sources', () => {
  const model = () =>
    readModel(
      withPlums({
        sources: [
          source('orchard', 'plum', [10, 0, 8, 0], { useByDays: 14 }),
          source('stall', 'plum', [3, 5, 0, 0], { useByDays: 7 }),
        ],
      }),
    );

  it('comes from both, and what waits is of one of them', () => {
    expect(model().row('produce_limit[plum,w0]')).toEqual(
      says('produce[orchard,w0] + produce[stall,w0] - 4 batches[jam-of-plums,w0] - waiting[plum,w0] = 0'),
    );
    expect(model().row('use_by[plum,w1]')).toEqual(
      says('waiting[plum,w1] - waiting_of[orchard,w1] - waiting_of[stall,w1] = 0'),
    );
  });

  it('holds of each what was held or came', () => {
    expect(model().row('waits_of[orchard,w0]')).toEqual(
      says('waiting_of[orchard,w0] - produce[orchard,w0] <= 0'),
    );
    expect(model().row('waits_of[orchard,w1]')).toEqual(
      says('waiting_of[orchard,w1] - waiting_of[orchard,w0] <= 0'),
    );
    expect(model().row('waits_of[stall,w1]')).toEqual(
      says('waiting_of[stall,w1] - waiting_of[stall,w0] - produce[stall,w1] <= 0'),
    );
  });

  it('lets each wait as long as it keeps', () => {
    expect(model().row('use_by_of[orchard,w1]')).toEqual(
      says('waiting_of[orchard,w1] - produce[orchard,w0] <= 0'),
    );
    expect(model().row('use_by_of[stall,w1]')).toEqual(says('waiting_of[stall,w1] - produce[stall,w1] <= 0'));
    expect(model().rows('waits_of[stall')).toEqual(['waits_of[stall,w0]', 'waits_of[stall,w1]']);
    expect(model().rows('use_by_of[stall')).toEqual(['use_by_of[stall,w0]', 'use_by_of[stall,w1]']);
    expect(model().columns('waiting_of[stall')).toEqual(['waiting_of[stall,w0]', 'waiting_of[stall,w1]']);
    expect(model().row('use_by_of[orchard,w2]')).toEqual(
      says('waiting_of[orchard,w2] - produce[orchard,w2] <= 0'),
    );
    expect(model().rows('use_by[')).toEqual(['use_by[plum,w0]', 'use_by[plum,w1]', 'use_by[plum,w2]']);
  });

  it('holds nothing of a source that gives another crop', () => {
    const apart = readModel(
      withPlums({
        sources: [
          source('meadow', 'pear', [9, 9, 9, 9], { useByDays: 14 }),
          source('orchard', 'plum', [10, 0, 8, 0], { useByDays: 14 }),
        ],
      }),
    );
    expect(apart.columns('waiting_of')).toEqual([]);
    expect(apart.row('produce_limit[plum,w0]')?.counts).not.toHaveProperty('produce[meadow,w0]');
  });
});

describe('a by-product', () => {
  const withPulp = (material: PlannedMaterial) =>
    readModel(
      handMadeYear(4, {
        items: [used('jam', each(4, 1)), used('juice', each(4, 1))],
        recipes: [
          recipe('jam-of-pulp', 'jam', { uses: [{ materialId: 'pulp', quantity: 2 }] }),
          recipe('juice', 'juice', { gives: [{ materialId: 'pulp', quantity: 3 }] }),
        ],
        materials: [material],
      }),
    );

  it('is left by some batches and taken by others of its week, or lost', () => {
    const model = withPulp(pulp());
    expect(model.row('waiting_balance[pulp,w1]')).toEqual(
      says('3 batches[juice,w1] - 2 batches[jam-of-pulp,w1] - lost[pulp,w1] = 0'),
    );
    expect(model.columns('waiting')).toEqual([]);
  });

  it('waits as many weeks as it keeps', () => {
    const model = withPulp(pulp({ keepsDaysCold: 14 }));
    expect(model.row('waiting_balance[pulp,w1]')).toEqual(
      says(
        '3 batches[juice,w1] - 2 batches[jam-of-pulp,w1] + waiting[pulp,w0] - waiting[pulp,w1] - lost[pulp,w1] = 0',
      ),
    );
    expect(model.row('use_by[pulp,w0]')).toEqual(says('waiting[pulp,w0] - 3 batches[juice,w0] <= 0'));
    expect(model.row('use_by[pulp,w1]')).toEqual(
      says('waiting[pulp,w1] - 3 batches[juice,w0] - 3 batches[juice,w1] <= 0'),
    );
    expect(model.row('use_by[pulp,w2]')).toEqual(
      says('waiting[pulp,w2] - 3 batches[juice,w1] - 3 batches[juice,w2] <= 0'),
    );
  });

  it('that waits already counts in the first week and for as long as it keeps', () => {
    const model = withPulp(pulp({ opening: 5, keepsDaysCold: 14 }));
    expect(model.row('waiting_balance[pulp,w0]')).toEqual(
      says('3 batches[juice,w0] - 2 batches[jam-of-pulp,w0] - waiting[pulp,w0] - lost[pulp,w0] = -5'),
    );
    expect(model.row('waiting_balance[pulp,w1]')).toMatchObject({ least: 0, most: 0 });
    expect(model.row('use_by[pulp,w0]')).toMatchObject({ most: 5 });
    expect(model.row('use_by[pulp,w1]')).toMatchObject({ most: 5 });
    expect(model.row('use_by[pulp,w2]')).toMatchObject({ most: 0 });
  });

  it('that waits already for unlike long counts each part for its weeks', () => {
    const model = withPulp(
      pulp({
        opening: 7,
        keepsDaysCold: 14,
        openingLasts: [
          { quantity: 5, weeks: 0 },
          { quantity: 2, weeks: 1 },
        ],
      }),
    );
    expect(model.row('use_by[pulp,w0]')).toMatchObject({ most: 2 });
    expect(model.row('use_by[pulp,w1]')).toMatchObject({ most: 0 });
  });

  it('is frozen while it keeps frozen, and may always be thawed for a batch', () => {
    const model = withPulp(pulp({ keepsMonthsFrozen: 0.5 }));
    expect(model.row('waiting_balance[pulp,w1]')).toEqual(
      says(
        '3 batches[juice,w1] - 2 batches[jam-of-pulp,w1] + thawed[pulp,w1] - frozen_in[pulp,w1] - lost[pulp,w1] = 0',
      ),
    );
    expect(model.row('thaw_limit[pulp,w1]')).toEqual(
      says('thawed[pulp,w1] - 2 batches[jam-of-pulp,w1] <= 0'),
    );
    expect(model.row('frozen_balance[pulp,w0]')).toEqual(
      says('frozen[pulp,w0] - frozen_in[pulp,w0] + thawed[pulp,w0] <= 0'),
    );
    expect(model.row('frozen_balance[pulp,w1]')).toEqual(
      says('frozen[pulp,w1] - frozen[pulp,w0] - frozen_in[pulp,w1] + thawed[pulp,w1] <= 0'),
    );
    expect(model.rows('frozen_use_by')).toEqual(['frozen_use_by[pulp,w2]', 'frozen_use_by[pulp,w3]']);
    expect(model.row('frozen_use_by[pulp,w2]')).toEqual(
      says('frozen[pulp,w2] - frozen_in[pulp,w1] - frozen_in[pulp,w2] <= 0'),
    );
    expect(model.row('frozen_use_by[pulp,w3]')).toEqual(says('frozen[pulp,w3] - frozen_in[pulp,w2] <= 0'));
  });
});

describe('a crop that may wait in the freezer', () => {
  const model = () =>
    readModel(
      withPlums({
        recipes: [
          recipe('jam-of-plums', 'jam', { produce: [produceOf('plum', 4)] }),
          recipe('sauce-of-plums', 'jam', { produce: [produceOf('plum', 2), produceOf('plum', 3, true)] }),
        ],
        freezable: [{ crop: named('plum'), openingLb: 6, keepsMonthsFrozen: 8, quartsPerLb: 0.7 }],
      }),
    );

  it('is thawed only as far as recipes allow it', () => {
    expect(model().row('thaw_limit[plum,w0]')).toEqual(
      says('thawed[plum,w0] - 3 batches[sauce-of-plums,w0] <= 0'),
    );
    expect(model().row('produce_limit[plum,w0]')).toEqual(
      says(
        'produce[orchard,w0] - 4 batches[jam-of-plums,w0] - 5 batches[sauce-of-plums,w0] + thawed[plum,w0] - frozen_in[plum,w0] = 0',
      ),
    );
  });

  it('that is frozen already counts in the first week', () => {
    expect(model().row('frozen_balance[plum,w0]')).toEqual(
      says('frozen[plum,w0] - frozen_in[plum,w0] + thawed[plum,w0] <= 6'),
    );
    expect(model().row('frozen_balance[plum,w1]')).toMatchObject({ most: 0 });
    expect(model().rows('frozen_use_by')).toEqual([]);
  });
});
