import { describe, expect, it } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { canningStage } from '../../../src/planning/model/build-model.ts';
import type { PlannedSupply, PlanningYear } from '../../../src/planning/planning-year.ts';
import {
  each,
  handMadeYear,
  named,
  pack,
  pint,
  produceOf,
  recipe,
  source,
  staged,
  used,
  week,
  wideQuart,
} from './hand-made-year.ts';
import { readModel } from './read-model.ts';

const time = (awayByWeek: readonly boolean[]) => ({
  awayByWeek,
  maxSessionsByWeek: each(awayByWeek.length, 1),
  hoursPerSessionByWeek: each(awayByWeek.length, 4),
  setUpMinutes: 20,
});
const away = (count: number, ...weeks: readonly number[]) =>
  time(Array.from({ length: count }, (_, at) => weeks.includes(at)));
const skipped = (kind: 'item' | 'produce' | 'supply' | 'jars' | 'lids', what: string, at: number) => ({
  week: week(at),
  kind,
  what,
});

describe('weeks in which stores are bought', () => {
  const sugar: PlannedSupply = {
    id: 'sugar',
    name: 'Sugar',
    unit: 'lb',
    onHand: 0,
    packQuantity: 4,
    packPrice: asCents(350),
  };
  const buying = (
    made: readonly number[],
    parts: Partial<PlanningYear> = {},
    supply: Partial<PlannedSupply> = {},
  ) =>
    readModel(
      handMadeYear(6, {
        items: [used('jam', each(6, 1))],
        recipes: [
          recipe('boil', 'jam', {
            jarKind: pint,
            supplies: [{ supplyId: 'sugar', quantity: 2 }],
            allowedByWeek: Array.from({ length: 6 }, (_, at) => made.includes(at)),
          }),
        ],
        supplies: [{ ...sugar, ...supply }],
        jars: [
          { kind: pint, owned: 0, empty: 0, pack: 12, packPrice: asCents(900), returnShare: 0 },
          { kind: wideQuart, owned: 0, empty: 0, pack: 12, packPrice: asCents(900), returnShare: 0 },
        ],
        lids: [
          { mouth: 'regular', onHand: 0, box: 12, boxPrice: asCents(300) },
          { mouth: 'wide', onHand: 0, box: 12, boxPrice: asCents(300) },
        ],
        ...parts,
      }),
    );
  const weeksOf = (names: readonly string[]) => names.map((name) => Number(/w(\d)\]$/.exec(name)?.[1]));
  const sugarIn = (...asked: Parameters<typeof buying>) =>
    weeksOf(buying(...asked).columns('supply_bought[sugar'));

  it('are those before the weeks in which they are used, and the first at once', () => {
    expect(sugarIn([0, 4])).toEqual([0, 3]);
    expect(sugarIn([1])).toEqual([0]);
    expect(sugarIn([5])).toEqual([4]);
    expect(sugarIn([])).toEqual([]);
  });

  it('are the last in which somebody can shop before them', () => {
    expect(sugarIn([4], { time: away(6, 3) })).toEqual([2]);
    expect(sugarIn([4], { time: away(6, 2, 3) })).toEqual([1]);
    expect(sugarIn([4], { time: away(6, 0, 1, 2, 3) })).toEqual([]);
    // Used in a week in which nobody can shop all the same.
    expect(sugarIn([3, 4], { time: away(6, 3) })).toEqual([2]);
    expect(sugarIn([0, 5], { time: away(6, 0) })).toEqual([4]);
    expect(sugarIn([2], { time: away(6, 2) })).toEqual([1]);
  });

  it('are not those that somebody skipped', () => {
    expect(sugarIn([4], { skipped: [skipped('supply', 'sugar', 3)] })).toEqual([2]);
    expect(sugarIn([4], { skipped: [skipped('supply', 'salt', 3)] })).toEqual([3]);
    expect(sugarIn([4], { skipped: [skipped('item', 'sugar', 3)] })).toEqual([3]);
    expect(sugarIn([4], { skipped: [skipped('supply', 'sugar', 2)] })).toEqual([3]);
  });

  it('are their own weeks for what spoils', () => {
    expect(sugarIn([0, 4], {}, { freshDays: 5 })).toEqual([0, 4]);
    expect(sugarIn([0, 4], { time: away(6, 4) }, { freshDays: 5 })).toEqual([0]);
  });

  it('are those of jars and lids of the kinds that are filled', () => {
    const model = buying([0, 4], {
      skipped: [skipped('jars', pint, 3), skipped('lids', 'regular', 0)],
    });
    expect(model.columns('jars_bought')).toEqual([
      'jars_bought[pint/regular,w0]',
      'jars_bought[pint/regular,w2]',
    ]);
    expect(model.columns('lids_bought')).toEqual(['lids_bought[regular,w3]']);
    expect(model.columns('jars_empty')).toEqual(
      [0, 1, 2, 3, 4].map((at) => `jars_empty[pint/regular,w${at}]`),
    );
    expect(model.columns('lids_left')).toHaveLength(5);
  });

  it('are any amount, and whole packs where those are asked for', () => {
    expect(buying([0]).column('supply_bought[sugar,w0]')).toEqual({
      lower: 0,
      upper: Number.POSITIVE_INFINITY,
      integer: false,
      cost: 350,
    });
    const year = buying([0]).built.sets.year;
    const whole = readModel(year, { ...canningStage, wholePacks: true });
    expect(whole.column('supply_bought[sugar,w0]')).toMatchObject({ integer: true });
    expect(whole.column('jars_bought[pint/regular,w0]')).toMatchObject({ integer: true });
    expect(whole.column('lids_bought[regular,w0]')).toMatchObject({ integer: true });
  });
});

describe('weeks in which an item is bought', () => {
  const bought = (count: number, parts: Partial<PlanningYear> = {}) =>
    readModel(
      handMadeYear(count, {
        items: [used('salt', each(count, 1), { packs: [pack('bag', 1, each(count, 90))] })],
        ...parts,
      }),
      canningStage,
    ).columns('purchases');
  const inWeeks = (...weeks: readonly number[]) => weeks.map((at) => `purchases[salt,bag,w${at}]`);

  it('are not those away or skipped', () => {
    expect(bought(4)).toEqual(inWeeks(0, 1, 2, 3));
    expect(bought(4, { time: away(4, 1) })).toEqual(inWeeks(0, 2, 3));
    expect(bought(4, { skipped: [skipped('item', 'salt', 2)] })).toEqual(inWeeks(0, 1, 3));
    expect(bought(4, { skipped: [skipped('item', 'sugar', 2), skipped('supply', 'salt', 2)] })).toHaveLength(
      4,
    );
  });

  it('are joined weeks as long as one of them is open', () => {
    expect(bought(12, { time: away(12, 8, 9, 11) }).slice(8)).toEqual(inWeeks(11));
    expect(bought(12, { time: away(12, 8, 9, 10, 11) }).slice(8)).toEqual([]);
    expect(bought(12, { time: away(12, 9, 10, 11) }).slice(8)).toEqual(inWeeks(11));
    expect(bought(16, { time: away(16, 8, 9, 10, 11) }).slice(8)).toEqual(inWeeks(15));
  });
});

describe('produce', () => {
  it('is taken up to what a source gives, not where it was skipped', () => {
    const model = readModel(
      handMadeYear(3, {
        items: [used('jam', each(3, 1))],
        recipes: [recipe('boil', 'jam', { produce: [produceOf('plum', 4)] })],
        sources: [source('orchard', 'plum', [9, 0, 7])],
        skipped: [skipped('produce', 'orchard', 2)],
      }),
    );
    expect(model.columns('produce')).toEqual(['produce[orchard,w0]']);
    expect(model.column('produce[orchard,w0]')).toEqual({ lower: 0, upper: 9, integer: false, cost: 100 });
  });
});

describe('use that may be missed', () => {
  it('is up to all of it, and none where none is', () => {
    const model = readModel(
      handMadeYear(3, { items: [used('jam', [2, 0, 3])], recipes: [recipe('boil', 'jam')] }),
    );
    expect(model.columns('shortage')).toEqual(['shortage[jam,w0]', 'shortage[jam,w2]']);
    expect(model.column('shortage[jam,w2]')).toMatchObject({ lower: 0, upper: 3, integer: false });
  });

  it('of a batch is whole and up to the most', () => {
    const model = readModel(handMadeYear(1, { items: [used('jam', [2])], recipes: [recipe('boil', 'jam')] }));
    expect(model.column('batches[boil,w0]')).toEqual({ lower: 0, upper: 3, integer: true, cost: 0 });
  });
});

describe('a reserve that is looked at only at the year’s end', () => {
  it('is missing only there', () => {
    const model = readModel(
      handMadeYear(3, {
        items: [used('jam', each(3, 1), { reserveUnits: 2 })],
        recipes: [recipe('boil', 'jam')],
      }),
    );
    expect(model.columns('reserve')).toEqual(['reserve_at_end_shortage[jam]']);
  });
});

describe('what waits and what is frozen', () => {
  const frozen = (parts: Partial<PlanningYear>) =>
    readModel(
      handMadeYear(5, {
        items: [used('jam', each(5, 1))],
        recipes: [
          recipe('fresh', 'jam', {
            produce: [produceOf('plum', 4)],
            allowedByWeek: [true, true, false, false, false],
          }),
          recipe('thaw', 'jam', {
            produce: [produceOf('plum', 4, true)],
            allowedByWeek: [true, false, false, false, true],
          }),
        ],
        sources: [source('orchard', 'plum', [9, 9, 0, 0, 0])],
        freezable: [{ crop: named('plum'), openingLb: 0, keepsMonthsFrozen: 8, quartsPerLb: 1 }],
        ...parts,
      }),
    );

  it('is frozen only while it comes, and stands until it is used for the last time', () => {
    const model = frozen({});
    expect(model.columns('frozen_in')).toEqual(['frozen_in[plum,w0]', 'frozen_in[plum,w1]']);
    expect(model.columns('frozen[')).toEqual([0, 1, 2, 3, 4].map((at) => `frozen[plum,w${at}]`));
  });

  it('is thawed only where a recipe that allows it may be made', () => {
    expect(frozen({}).columns('thawed')).toEqual(['thawed[plum,w0]', 'thawed[plum,w4]']);
    expect(frozen({ freezable: [] }).columns('thawed')).toEqual([]);
    expect(frozen({ freezable: [] }).columns('frozen')).toEqual([]);
  });

  it('is there no longer than it keeps', () => {
    const model = frozen({
      freezable: [{ crop: named('plum'), openingLb: 0, keepsMonthsFrozen: 0.5, quartsPerLb: 1 }],
    });
    expect(model.columns('frozen[')).toEqual(['frozen[plum,w0]', 'frozen[plum,w1]']);
    expect(model.rows('frozen_balance')).toEqual(['frozen_balance[plum,w0]', 'frozen_balance[plum,w1]']);
  });

  it('is wanted only until the last batch is begun', () => {
    const soak = recipe('soak', 'jam', {
      produce: [produceOf('plum', 4)],
      stages: staged(1, [30, 30]),
      allowedByWeek: [true, true, true, false, false],
    });
    const model = readModel(
      handMadeYear(5, {
        items: [used('jam', each(5, 1))],
        recipes: [soak],
        sources: [source('orchard', 'plum', each(5, 9), { useByDays: 14 })],
      }),
    );
    expect(model.columns('waiting')).toEqual(['waiting[plum,w0]']);
  });

  it('is lost only of what some batch leaves', () => {
    const model = readModel(
      handMadeYear(3, {
        items: [used('jam', each(3, 1))],
        recipes: [
          recipe('press', 'jam', {
            gives: [{ materialId: 'pulp', quantity: 2 }],
            allowedByWeek: [false, true, false],
          }),
          recipe('use', 'jam', { uses: [{ materialId: 'pulp', quantity: 2 }] }),
        ],
        materials: [
          {
            id: 'pulp',
            name: 'Pulp',
            unit: 'lb',
            opening: 0,
            keepsDaysCold: 7,
            keepsMonthsFrozen: null,
            quartsPerUnit: 1,
          },
        ],
      }),
    );
    expect(model.columns('lost')).toEqual(['lost[pulp,w1]', 'lost[pulp,w2]']);
    expect(model.columns('waiting')).toEqual(['waiting[pulp,w1]']);
    expect(model.columns('lost[plum')).toEqual([]);
  });
});
