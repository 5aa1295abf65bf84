import { describe, expect, it } from 'vitest';
import { canningStage } from '../../../../../src/planning/model/build-model.ts';
import { lotSizingRules } from '../../../../../src/planning/model/rules.ts';
import type { PlannedGroup, PlanningYear } from '../../../../../src/planning/planning-year.ts';
import {
  each,
  handMadeYear,
  lot,
  named,
  pack,
  produceOf,
  recipe,
  source,
  used,
} from '../../hand-made-year.ts';
import { readModel, says, weekly } from '../../read-model.ts';

describe('what the last week hands over', () => {
  const year = handMadeYear(2, {
    items: [used('jam', [1, 1], { yearEndUnits: 3 }), used('tea', [1, 1])],
    recipes: [recipe('boil', 'jam'), recipe('dry', 'tea')],
  });

  it('stands at its end or is missing', () => {
    const model = readModel(year);
    expect(model.row('year_end[jam]')).toEqual(says('stock[jam,w1] + year_end_shortage[jam] >= 3'));
    expect(model.rows('year_end')).toEqual(['year_end[jam]']);
    expect(model.columns('year_end_shortage')).toEqual(['year_end_shortage[jam]']);
  });

  it('is no wish where use must be served', () => {
    expect(readModel(year, weekly, lotSizingRules).rows('year_end')).toEqual([]);
  });
});

describe('the reserve', () => {
  const model = () =>
    readModel(
      handMadeYear(6, {
        items: [
          used('jam', each(6, 1), { reserveUnits: 4, reserveForAim: 2, yearEndUnits: 3 }),
          used('salt', each(6, 1), { reserveUnits: 2, packs: [pack('bag', 1, each(6, 90))] }),
          used('tea', each(6, 1)),
        ],
        recipes: [recipe('boil', 'jam'), recipe('dry', 'tea')],
      }),
    );

  it('is looked at every fourth week of a season and at the year’s end', () => {
    expect(model().rows('reserve[jam')).toEqual(['reserve[jam,w3]', 'reserve[jam,w5]']);
    expect(model().row('reserve[jam,w3]')).toEqual(
      says('stock[jam,w3] + reserve_shortage[jam] + reserve_at_end_shortage[jam] >= 6'),
    );
  });

  it('is not worked towards where the rest is not worth a batch, whatever an aim asks on top', () => {
    const reserveOf = (wishes: Parameters<typeof used>[2]) =>
      readModel(
        handMadeYear(6, {
          items: [used('jam', each(6, 1), { reserveUnits: 4, yearEndUnits: 3, ...wishes })],
          recipes: [recipe('boil', 'jam')],
        }),
      );
    expect(reserveOf({ reserveNotWorthABatch: 1.5 }).row('reserve[jam,w5]')).toEqual(
      says('stock[jam,w5] + reserve_at_end_shortage[jam] + year_end_shortage[jam] >= 5.5'),
    );
    expect(reserveOf({ reserveNotWorthABatch: 4 }).rows('reserve[jam')).toEqual([]);
    expect(reserveOf({ reserveNotWorthABatch: 9, reserveForAim: 2 }).row('reserve[jam,w5]')).toEqual(
      says('stock[jam,w5] + reserve_at_end_shortage[jam] + year_end_shortage[jam] >= 5'),
    );
  });

  it('stands at the year’s end on top of what that hands over', () => {
    expect(model().row('reserve[jam,w5]')).toEqual(
      says('stock[jam,w5] + reserve_at_end_shortage[jam] + year_end_shortage[jam] >= 9'),
    );
  });

  it('of what is bought stands every week', () => {
    expect(model().rows('reserve[salt')).toHaveLength(6);
    expect(model().row('reserve[salt,w0]')).toEqual(
      says('stock[salt,w0] + reserve_shortage[salt] + reserve_at_end_shortage[salt] >= 2'),
    );
    expect(model().row('reserve[salt,w5]')).toEqual(
      says('stock[salt,w5] + reserve_at_end_shortage[salt] >= 2'),
    );
  });

  it('of what is bought is looked at where joined weeks end', () => {
    const joined = readModel(
      handMadeYear(14, {
        items: [used('salt', each(14, 1), { reserveUnits: 2, packs: [pack('bag', 1, each(14, 90))] })],
      }),
      canningStage,
    );
    expect(joined.rows('reserve[salt')).toEqual(
      [0, 1, 2, 3, 4, 5, 6, 7, 11, 13].map((week) => `reserve[salt,w${week}]`),
    );
  });

  it('is no row where none is kept', () => {
    expect(model().rows('reserve[tea')).toEqual([]);
    expect(model().columns('reserve_shortage')).toEqual(['reserve_shortage[jam]', 'reserve_shortage[salt]']);
    expect(model().columns('reserve_at_end')).toEqual([
      'reserve_at_end_shortage[jam]',
      'reserve_at_end_shortage[salt]',
    ]);
  });

  it('is wanted before the year’s end with what an emergency shelf still lacks', () => {
    const lacking = readModel(
      handMadeYear(5, {
        items: [used('jam', each(5, 1), { emergencyUnits: 5, openingLots: [lot('old', 3)] })],
        recipes: [recipe('boil', 'jam')],
      }),
    );
    expect(lacking.row('reserve[jam,w3]')).toEqual(says('stock[jam,w3] + reserve_shortage[jam] >= 2'));
    expect(lacking.rows('reserve')).toEqual(['reserve[jam,w3]']);
    expect(lacking.row('year_end[jam]')).toMatchObject({ least: 2 });
  });
});

describe('a family minimum', () => {
  const minimum = (familyMinimumUnits: number | null) =>
    readModel(
      handMadeYear(2, {
        items: [used('jam', [4, 3], { familyMinimumUnits })],
        recipes: [recipe('boil', 'jam')],
      }),
    );

  it('leaves as little missed as the rest of the year’s use', () => {
    expect(minimum(5).row('family_minimum[jam]')).toEqual(
      says('shortage[jam,w0] + shortage[jam,w1] - family_shortage[jam] <= 2'),
    );
    expect(minimum(0).row('family_minimum[jam]')).toMatchObject({ most: 7 });
  });

  it('beyond the year’s use is that use', () => {
    expect(minimum(9).row('family_minimum[jam]')).toMatchObject({ most: 0 });
  });

  it('is no row where none was said', () => {
    expect(minimum(null).rows('family')).toEqual([]);
    expect(minimum(null).columns('family')).toEqual([]);
  });
});

describe('a group', () => {
  const group = (parts: Partial<PlannedGroup> = {}, year: Partial<PlanningYear> = {}) =>
    readModel(
      handMadeYear(2, {
        items: [
          used('jam', [1, 1], { openingLots: [lot('a', 2), lot('b', 1)] }),
          used('juice', [1, 1], { openingLots: [lot('c', 1)], packs: [pack('box', 6, [500, 500])] }),
        ],
        recipes: [recipe('boil', 'jam', { allowedByWeek: [true, false] })],
        groups: [
          {
            id: named('sweet'),
            name: 'Sweet',
            members: [
              { itemId: named('jam'), groupUnitsPerUnit: 1 },
              { itemId: named('juice'), groupUnitsPerUnit: 2 },
            ],
            totalUnits: 20,
            leastKinds: 1,
            largestShare: 1,
            ...parts,
          },
        ],
        ...year,
      }),
    );

  it('is enough together, each member by what it counts', () => {
    expect(group().row('group_total[sweet]')).toEqual(
      says(
        'group_shortage[sweet] + 5 batches[boil,w0] + 12 purchases[juice,box,w0] + 12 purchases[juice,box,w1] >= 15',
      ),
    );
  });

  it('of any kinds and shares has no such rows', () => {
    expect(group().rows('group_variety')).toEqual([]);
    expect(group().rows('group_share')).toEqual([]);
    expect(group().columns('kind')).toEqual([]);
    expect(group().columns('share_over')).toEqual([]);
  });

  it('of several kinds counts a kind only as far as there is of it', () => {
    const model = group({ leastKinds: 2 });
    expect(model.row('group_variety[sweet]')).toEqual(
      says('kinds_missing[sweet] + kind[sweet,jam] + kind[sweet,juice] >= 2'),
    );
    expect(model.row('group_variety[sweet,jam]')).toEqual(says('kind[sweet,jam] - 5 batches[boil,w0] <= 3'));
    expect(model.row('group_variety[sweet,juice]')).toEqual(
      says('kind[sweet,juice] - 12 purchases[juice,box,w0] - 12 purchases[juice,box,w1] <= 2'),
    );
    expect(model.column('kind[sweet,jam]')).toMatchObject({ lower: 0, upper: 1, integer: true });
    expect(model.rows('group_share')).toEqual([]);
  });

  it('with a largest share holds each member under it', () => {
    const model = group({ largestShare: 0.6 });
    // 3 and 2 stand: 0.6 of 5 is 3, none of it more for jam and 1 more for juice.
    expect(model.row('group_share[sweet,jam]')).toEqual(
      says(
        '2 batches[boil,w0] - 7.2 purchases[juice,box,w0] - 7.2 purchases[juice,box,w1] - share_over[sweet,jam] <= 0',
      ),
    );
    expect(model.row('group_share[sweet,juice]')).toEqual(
      says(
        '4.8 purchases[juice,box,w0] + 4.8 purchases[juice,box,w1] - 3 batches[boil,w0] - share_over[sweet,juice] <= 1',
      ),
    );
    expect(model.rows('group_variety')).toEqual([]);
  });
});

describe('the first jars of a food', () => {
  const year = handMadeYear(2, {
    items: [used('jam', [5, 3], { yearEndUnits: 4 }), used('tea', [2, 2]), used('gone', [3, 3])],
    recipes: [recipe('boil', 'jam'), recipe('dry', 'tea')],
  });

  it('are missed once what is missed is more than the rest of its year', () => {
    const model = readModel(year);
    expect(model.row('first_jars[jam,first-half]')).toEqual(
      says(
        'shortage[jam,w0] + shortage[jam,w1] + year_end_shortage[jam] - first_jars_missing[jam,first-half] <= 6',
      ),
    );
    expect(model.row('first_jars[jam,first-quarter]')).toMatchObject({
      most: 9,
      counts: { 'first_jars_missing[jam,first-quarter]': -1 },
    });
    expect(model.row('first_jars[tea,first-half]')).toMatchObject({ most: 2 });
  });

  it('are none of what can come no more', () => {
    expect(readModel(year).rows('first_jars[gone')).toEqual([]);
    expect(readModel(year).columns('first_jars_missing[gone')).toEqual([]);
  });

  it('count as much less for a food as its year wants more of it than the average', () => {
    const model = readModel(year);
    const price = model.built.prices.firstJars;
    // 12 and 4 wanted, 8 of the average food.
    expect(model.term('first jars').cents).toEqual({
      'first_jars_missing[jam,first-half]': Math.round(price * (8 / 12) * 1e6) / 1e6,
      'first_jars_missing[jam,first-quarter]': Math.round(price * (8 / 12) * 2 * 1e6) / 1e6,
      'first_jars_missing[tea,first-half]': price * 2,
      'first_jars_missing[tea,first-quarter]': price * 4,
    });
  });
});

describe('the coming weeks', () => {
  const year = handMadeYear(6, {
    items: [
      used('jam', each(6, 1), { reserveUnits: 4 }),
      used('salt', each(6, 1), { reserveUnits: 2, packs: [pack('bag', 1, each(6, 90))] }),
      used('tea', [1, 0, 1, 1, 1, 1], { packs: [pack('box', 1, each(6, 300))] }),
    ],
    recipes: [recipe('boil', 'jam')],
  });

  it('have the reserve of what is bought standing at each one’s end, or its largest gap is missing', () => {
    const model = readModel(year);
    expect(model.rows('coming_reserve')).toEqual([0, 1, 2, 3].map((week) => `coming_reserve[salt,w${week}]`));
    expect(model.row('coming_reserve[salt,w0]')).toEqual(
      says('stock[salt,w0] + coming_reserve_shortage[salt] >= 2'),
    );
  });

  it('count what is missed of them above first jars, and a reserve of which nobody may eat for a third', () => {
    const model = readModel(year);
    const { comingWeeks, firstJars, group } = model.built.prices;
    expect(model.term('coming weeks').cents).toEqual({
      ...Object.fromEntries([0, 1, 2, 3].map((week) => [`shortage[salt,w${week}]`, comingWeeks])),
      ...Object.fromEntries([0, 2, 3].map((week) => [`shortage[tea,w${week}]`, comingWeeks])),
      'coming_reserve_shortage[salt]': comingWeeks / 3,
    });
    expect(comingWeeks).toBeGreaterThan(firstJars);
    expect(group).toBeGreaterThan(comingWeeks);
  });

  it('are none where use must be served', () => {
    const model = readModel(year, weekly, lotSizingRules);
    expect(model.rows('coming_reserve')).toEqual([]);
    expect(model.columns('coming_reserve_shortage')).toEqual([]);
  });
});

describe('a crop of our own garden', () => {
  const garden = (parts: Partial<PlanningYear> = {}) =>
    handMadeYear(2, {
      items: [used('jam', [10, 0])],
      recipes: [recipe('boil', 'jam', { produce: [produceOf('plum', 4)] })],
      sources: [source('tree', 'plum', [9, 5], { kind: 'garden' }), source('stall', 'plum', [20, 20])],
      ...parts,
    });

  it('is not lost as far as the year could use it', () => {
    const model = readModel(garden());
    expect(model.row('garden_crop[plum]')).toEqual(
      says('produce[tree,w0] + produce[tree,w1] + garden_lost[plum] >= 8'),
    );
    expect(model.columns('garden_used')).toEqual([]);
    // A pound is a fourth of a batch of 5.
    expect(model.term('garden crop').cents).toEqual({
      'garden_lost[plum]': model.built.prices.gardenUnit * 1.25,
    });
  });

  it('of several uses counts for each as much as that wants', () => {
    const model = readModel(
      garden({
        items: [used('jam', [10, 0]), used('sauce', [4, 0])],
        recipes: [
          recipe('boil', 'jam', { produce: [produceOf('plum', 4)] }),
          recipe('cook', 'sauce', { produce: [produceOf('plum', 2)], yieldLowUnits: 2 }),
        ],
      }),
    );
    expect(model.row('garden_used[plum,jam]')).toEqual(
      says('garden_used[plum,jam] - 4 batches[boil,w0] - 4 batches[boil,w1] <= 0'),
    );
    expect(model.column('garden_used[plum,jam]')).toMatchObject({ lower: 0, upper: 8 });
    expect(model.column('garden_used[plum,sauce]')).toMatchObject({ lower: 0, upper: 4 });
    expect(model.row('garden_crop[plum,as wanted]')).toEqual(
      says('garden_used[plum,jam] + garden_used[plum,sauce] + garden_lost[plum] >= 12'),
    );
    expect(model.row('garden_crop[plum]')).toMatchObject({ least: 12 });
  });

  it('that is all bought is nobody’s loss', () => {
    const model = readModel(garden({ sources: [source('stall', 'plum', [20, 20])] }));
    expect(model.rows('garden')).toEqual([]);
  });

  it('is no wish where use must be served', () => {
    expect(readModel(garden(), canningStage, lotSizingRules).rows('garden')).toEqual([]);
  });
});
