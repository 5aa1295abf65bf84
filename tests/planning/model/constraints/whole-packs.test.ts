import { describe, expect, it } from 'vitest';
import { asCents } from '../../../../shared/money.ts';
import type { CanningDecision } from '../../../../src/planning/model/planning-stage.ts';
import type { PlannedItem, PlanningYear } from '../../../../src/planning/planning-year.ts';
import { each, handMadeYear, lot, pack, pint, recipe, staged, used } from '../hand-made-year.ts';
import { readModel, says, weekly } from '../read-model.ts';

const wholePacks = (year: PlanningYear, batches: CanningDecision['batches'] = []) =>
  readModel(year, {
    ...weekly,
    wholePacks: true,
    canning: { batches, sessionsByWeek: year.weeks.map(() => 1) },
  });
const bought = (parts: Partial<PlannedItem>, useByWeek: readonly number[] = [3, 3]) =>
  handMadeYear(useByWeek.length, {
    items: [
      used('salt', useByWeek, {
        packs: [
          pack(
            'bag',
            4,
            useByWeek.map(() => 90),
          ),
        ],
        ...parts,
      }),
    ],
  });

describe('packs of what is eaten', () => {
  it('are so many by each week as what is eaten takes, less what is missed of the last', () => {
    const model = wholePacks(bought({}));
    // 3 of 4: one pack, of which 0.75 is wanted. 6 of 4: two, of which half of the last is wanted.
    expect(model.row('whole_packs[salt,bag,w0]')).toEqual(
      says('purchases[salt,bag,w0] + 0.333333 shortage[salt,w0] >= 1'),
    );
    expect(model.row('whole_packs[salt,bag,w1]')).toEqual(
      says(
        'purchases[salt,bag,w0] + purchases[salt,bag,w1] + 0.5 shortage[salt,w0] + 0.5 shortage[salt,w1] >= 2',
      ),
    );
  });

  it('are fewer by what stands and what is made', () => {
    const stands = wholePacks(bought({ openingLots: [lot('old', 2)] }));
    expect(stands.row('whole_packs[salt,bag,w0]')).toMatchObject({
      least: 1,
      counts: { 'shortage[salt,w0]': 1 },
    });
    const year = bought({}, [3, 8, 3]);
    const made = wholePacks({ ...year, recipes: [recipe('mill', 'salt', { readyAfterWeeks: 1 })] }, [
      [1, 0, 0],
    ]);
    expect(made.row('whole_packs[salt,bag,w0]')).toMatchObject({ least: 1 });
    // 11 eaten, 5 made a week before: 6 of 4.
    expect(made.row('whole_packs[salt,bag,w1]')).toMatchObject({
      least: 2,
      counts: { 'shortage[salt,w0]': 0.5 },
    });
  });

  it('of another size count for as many of this one as they hold, the last part for what is wanted of it', () => {
    const model = wholePacks(
      bought({ packs: [pack('bag', 4, [90, 90]), pack('sack', 10, [200, 200]), pack('cup', 1, [30, 30])] }),
    );
    // Need 3 of 4, so 0.75 of a pack: a sack holds 2.5, the half being two thirds of it; a cup a quarter, a third of it.
    expect(model.row('whole_packs[salt,bag,w0]')?.counts).toMatchObject({
      'purchases[salt,bag,w0]': 1,
      'purchases[salt,sack,w0]': 2.666667,
      'purchases[salt,cup,w0]': 0.333333,
    });
    // Need 3 of 10: a bag holds 0.4, more than the 0.3 wanted.
    expect(model.row('whole_packs[salt,sack,w0]')?.counts).toMatchObject({ 'purchases[salt,bag,w0]': 1 });
    // Need 3 of 1 is whole: nothing to round.
    expect(model.row('whole_packs[salt,cup,w0]')).toBeUndefined();
  });

  it('of another size that hold just so many of this one count for those', () => {
    // 0.3 is three times 0.1, though not to a computer.
    const model = wholePacks(
      bought({ packs: [pack('cup', 0.1, [30, 30]), pack('jar', 0.3, [80, 80])] }, [0.25, 0]),
    );
    expect(model.row('whole_packs[salt,cup,w0]')).toMatchObject({
      least: 3,
      counts: { 'purchases[salt,cup,w0]': 1, 'purchases[salt,jar,w0]': 3 },
    });
  });

  it('know of no reserve in weeks in which nobody can shop yet', () => {
    const year = bought({ reserveUnits: 2 }, [3, 3, 3]);
    const model = wholePacks({ ...year, time: { ...year.time, awayByWeek: [true, false, false] } });
    const least = model.built.model.rows
      .filter(({ name }) => name.startsWith('whole_packs'))
      .map(({ lower }) => lower);
    // 3, 6 and 9 eaten, and with the reserve 8 (two packs just so) and 11; nothing is bought in the first week.
    expect(least).toEqual([1, 2, 3, 3]);
  });

  it('have a bound of their own where a reserve or the year’s end is looked at', () => {
    const model = readModel(bought({ reserveUnits: 2, yearEndUnits: 5 }), {
      ...weekly,
      wholePacks: true,
      canning: { batches: [], sessionsByWeek: [1, 1] },
    });
    const rows = model.built.model.rows.filter(({ name }) => name.startsWith('whole_packs'));
    const least = rows.map(({ name, lower }) => [name.slice(-2, -1), lower]);
    // Use 3 and 6; with the reserve 5; at the end with both 13.
    expect(least).toEqual([
      ['7', 1],
      ['7', 2],
      ['8', 2],
      ['8', 4],
    ]);
    const names = (at: number) =>
      rows[at]?.entries
        .map(([column]) => model.built.model.columns[column]?.name.replace(/,?\d{4}-W\d\d/, ''))
        .slice(1);
    expect(names(1)).toEqual(['shortage[salt]', 'reserve_shortage[salt]', 'reserve_at_end_shortage[salt]']);
    expect(names(3)?.slice(1)).toEqual([
      'shortage[salt]',
      'shortage[salt]',
      'reserve_at_end_shortage[salt]',
      'year_end_shortage[salt]',
    ]);
  });

  it('have one where only the year’s end is looked at', () => {
    const model = readModel(bought({ yearEndUnits: 3 }), {
      ...weekly,
      wholePacks: true,
      canning: { batches: [], sessionsByWeek: [1, 1] },
    });
    const rows = model.built.model.rows.filter(({ name }) => name.startsWith('whole_packs'));
    // Use 3 and 6; handed over as well 9.
    expect(rows.map(({ lower }) => lower)).toEqual([1, 2, 3]);
    expect(rows[2]?.entries).toHaveLength(5);
  });

  it('are said only once canning is decided', () => {
    expect(readModel(bought({}), { ...weekly, wholePacks: true }).rows('whole_packs')).toEqual([]);
    expect(
      readModel(bought({}), { ...weekly, canning: { batches: [], sessionsByWeek: [1, 1] } }).rows(
        'whole_packs',
      ),
    ).toEqual([]);
  });

  it('are not said where enough stands', () => {
    expect(wholePacks(bought({ openingLots: [lot('old', 6)] })).rows('whole_packs')).toEqual([]);
    expect(wholePacks(bought({ openingLots: [lot('old', 3)] })).rows('whole_packs')).toEqual([
      'whole_packs[salt,bag,w1]',
    ]);
  });
});

describe('packs of what canning takes', () => {
  const year = handMadeYear(4, {
    items: [used('jam', [1, 1, 1, 1], { jarKind: pint, openingLots: [lot('old', 4, { jarKind: pint })] })],
    recipes: [
      recipe('boil', 'jam', { jarKind: pint, supplies: [{ supplyId: 'sugar', quantity: 3 }] }),
      recipe('dry', 'jam', { supplies: [{ supplyId: 'lemon', quantity: 1 }] }),
    ],
    supplies: [
      {
        id: 'lemon',
        name: 'Lemon',
        unit: 'each',
        onHand: 0,
        packQuantity: 1,
        packPrice: asCents(50),
        freshDays: 7,
      },
      { id: 'sugar', name: 'Sugar', unit: 'lb', onHand: 1, packQuantity: 4, packPrice: asCents(350) },
    ],
    jars: [{ kind: pint, owned: 0, empty: 5, pack: 12, packPrice: asCents(1500), returnShare: 0 }],
    lids: [{ mouth: 'regular', onHand: 3, box: 12, boxPrice: asCents(400) }],
  });
  const model = () =>
    wholePacks(year, [
      [1, 0, 2, 0],
      [1, 1, 1, 1],
    ]);

  it('are so many by the week in which the need first takes one more', () => {
    // Sugar: 3 - 1 = 2, then 8: one pack, then two, bought before the third week.
    expect(model().rows('whole_packs[sugar')).toEqual(['whole_packs[sugar,w0]', 'whole_packs[sugar,w2]']);
    expect(model().row('whole_packs[sugar,w2]')).toMatchObject({ least: 2 });
    const more = wholePacks(year, [
      [1, 0, 3, 0],
      [0, 0, 0, 0],
    ]);
    expect(more.row('whole_packs[sugar,w0]')).toEqual(says('supply_bought[sugar,w0] >= 1'));
    expect(more.row('whole_packs[sugar,w2]')).toEqual(
      says('supply_bought[sugar,w0] + supply_bought[sugar,w1] >= 3'),
    );
  });

  it('of jars are fewer by those emptied by then', () => {
    // 6 - 5 = 1, then 12 more less the 2 emptied in two weeks: 11, one pack.
    expect(model().row('whole_packs[pint/regular,w0]')).toEqual(says('jars_bought[pint/regular,w0] >= 1'));
    expect(model().rows('whole_packs[pint')).toEqual(['whole_packs[pint/regular,w0]']);
    const more = wholePacks(year, [
      [1, 0, 3, 0],
      [0, 0, 0, 0],
    ]);
    // 1 + 18 - 2 = 17: two packs.
    expect(more.row('whole_packs[pint/regular,w2]')).toMatchObject({ least: 2 });
  });

  it('of lids count the spares', () => {
    // 6.3 - 3, then 12.6 more: 15.9.
    expect(model().row('whole_packs[regular,w0]')).toEqual(says('lids_bought[regular,w0] >= 1'));
    expect(model().row('whole_packs[regular,w2]')).toEqual(
      says('lids_bought[regular,w0] + lids_bought[regular,w1] >= 2'),
    );
  });

  it('are not said of what spoils, nor of what is there', () => {
    expect(model().rows('whole_packs[lemon')).toEqual([]);
    expect(wholePacks(year, [each(4, 0), each(4, 0)]).rows('whole_packs')).toEqual([]);
  });

  it('are bought by the week in which a batch is begun', () => {
    const begun = wholePacks(
      {
        ...year,
        recipes: [
          recipe('soak', 'jam', {
            supplies: [{ supplyId: 'sugar', quantity: 3 }],
            stages: staged(1, [30, 30]),
          }),
        ],
      },
      [[0, 0, 0, 1]],
    );
    expect(begun.rows('whole_packs[sugar')).toEqual(['whole_packs[sugar,w2]']);
  });
});

it('what is decided stays as it is', () => {
  const year = handMadeYear(2, { items: [used('jam', [1, 1])], recipes: [recipe('boil', 'jam')] });
  const model = readModel(year, { ...weekly, canning: { batches: [[2, 1]], sessionsByWeek: [1, 0] } });
  expect(model.column('batches[boil,w0]')).toMatchObject({ lower: 2, upper: 2 });
  expect(model.column('batches[boil,w1]')).toMatchObject({ lower: 1, upper: 1 });
  expect(model.column('total_batches[boil]')).toMatchObject({ lower: 3, upper: 3 });
  expect(model.column('sessions[w1]')).toMatchObject({ lower: 0, upper: 0 });
});
