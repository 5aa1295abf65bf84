import { describe, expect, test } from 'vitest';
import { asDate, asWeek, mondayOf, sundayOf, weeksFrom } from '../../../shared/week.ts';
import { sourceYears } from '../../../src/harvest/source-years.ts';
import type { Item } from '../../../src/household/item.ts';
import type { PlanPath } from '../../../src/planning/answer/plan-path.ts';
import {
  seasonAhead,
  withoutHarvest,
  yearWithout,
} from '../../../src/planning/explanation/without-harvest.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { plumYear } from '../plum-year.ts';
import { berries, eaten, oats, peaches, yearOf } from '../year/orchard-street.ts';

const seasons = sourceYears(
  [
    {
      year: 2026,
      beginsOn: asDate('2026-07-08'),
      endsOn: asDate('2026-08-20'),
      mostActive: null,
      lbPerWeek: 14,
      firstPickedOn: null,
    },
  ],
  weeksFrom(asWeek('2026-W20'), 80),
);

describe('the season a harvest would be missed in', () => {
  test.each([
    ['2026-05-20', 2026],
    ['2026-08-20', 2026],
    ['2026-08-21', 2027],
  ])('on %s is that of %i', (today, year) => {
    expect(seasonAhead(seasons, asDate(today))?.year).toBe(year);
  });

  test('is none where no dates are known', () => {
    expect(seasonAhead([], asDate('2026-05-20'))).toBeNull();
  });
});

describe('a year without a harvest', () => {
  const year = plumYear();
  const [source] = year.sources;
  const open = year.weeks.filter((_, at) => (source?.lbByWeek[at] ?? 0) > 0);
  const [first, ...rest] = open;

  test('gives nothing of it in the weeks its season touches, and all else as before', () => {
    if (source === undefined || first === undefined) throw new Error('expected a harvest');
    const lost = { beginsOn: sundayOf(first), endsOn: mondayOf(rest.at(-2) ?? first) };
    const without = withoutHarvest(year, source.id, lost);

    for (const [at, week] of year.weeks.entries()) {
      const isLost = sundayOf(week) >= lost.beginsOn && mondayOf(week) <= lost.endsOn;
      expect(without.sources[0]?.lbByWeek[at]).toBe(isLost ? 0 : source.lbByWeek[at]);
    }
    expect(without.sources.slice(1)).toEqual(year.sources.slice(1));
    expect({ ...without, sources: [] }).toEqual({ ...year, sources: [] });
  });
});

describe('one source of several', () => {
  const [orchard] = plumYear().sources;
  if (orchard === undefined) throw new Error('expected an orchard');
  const year = plumYear({ sources: [orchard, { ...orchard, id: 'stall' as never }] });
  const given = (beginsOn: string, endsOn: string) =>
    withoutHarvest(year, orchard.id, { beginsOn: asDate(beginsOn), endsOn: asDate(endsOn) }).sources.map(
      ({ lbByWeek }) => lbByWeek.flatMap((lb, at) => (lb > 0 ? [at] : [])),
    );

  // Week 35 of this year is Monday, August 2 to Sunday, August 8, 2027.
  test('fails alone, in each week of which the season has a day', () => {
    expect(mondayOf(year.weeks[35] ?? ('' as never))).toBe('2027-08-02');
    expect(given('2027-08-08', '2027-08-08')).toEqual([
      [34, 36, 37],
      [34, 35, 36, 37],
    ]);
    expect(given('2027-08-02', '2027-08-02')[0]).toEqual([34, 36, 37]);
    expect(given('2027-08-01', '2027-08-02')[0]).toEqual([36, 37]);
    expect(given('2027-01-01', '2027-12-31')[0]).toEqual([]);
  });
});

// Of peaches one is eaten a week, of oats two, of strawberries half a bag; nothing stands.
describe('the year as planned beside the year without a harvest', () => {
  const loaded = yearOf();
  const { weeks } = loaded.year;
  interface Comes {
    readonly madeIn?: number;
    readonly made?: number;
    readonly bought?: number;
  }
  const pathOf = (item: Item, { made = 0, madeIn = 0, bought = 0 }: Comes = {}): PlanPath => {
    const inWeek = (at: number, units: number) => weeks.map((_, week) => (week === at ? units : 0));
    return {
      item: item.id,
      madeByWeek: inWeek(madeIn, made),
      readyByWeek: inWeek(madeIn, made),
      boughtByWeek: inWeek(0, bought),
    } as unknown as PlanPath;
  };
  const planOf = (...spend: readonly number[]) =>
    ({ weeks: spend.map((cents) => ({ spend: cents })) }) as unknown as Plan;
  const beside = (now: readonly PlanPath[], instead: readonly PlanPath[], year = loaded) =>
    yearWithout(year, weeks, {
      now: { plan: planOf(), paths: now },
      instead: { plan: planOf(), paths: instead },
    }).items;
  const names = (items: ReturnType<typeof beside>) => items.map(({ item }) => item.name);
  const plenty = { made: 500 };

  test('tells of each item what is put up and bought, and how many weeks are without', () => {
    expect(
      beside(
        [pathOf(peaches, plenty), pathOf(oats, { bought: 500 })],
        [pathOf(peaches, { made: 500, madeIn: 20 }), pathOf(oats, { bought: 500 })],
      ),
    ).toEqual([
      {
        item: peaches,
        now: { putUp: 500, bought: 0, weeksWithout: 0 },
        instead: { putUp: 500, bought: 0, weeksWithout: 20 },
      },
    ]);
    expect(beside([pathOf(oats, { bought: 500 })], [pathOf(oats, { bought: 700 })])).toEqual([
      {
        item: oats,
        now: { putUp: 0, bought: 500, weeksWithout: 0 },
        instead: { putUp: 0, bought: 700, weeksWithout: 0 },
      },
    ]);
  });

  test('every stretch without counts: before it is made, and after it is eaten up', () => {
    const [only] = beside([pathOf(peaches, plenty)], [pathOf(peaches, { made: 10, madeIn: 5 })]);
    // Five weeks before; of the 47 after it, ten or so are covered by ten jars.
    expect(only?.instead.weeksWithout).toBeGreaterThan(5 + 30);
    expect(only?.instead.weeksWithout).toBeLessThan(52);
  });

  test('what no plan knows of has nothing to come and no weeks without', () => {
    expect(beside([], [pathOf(peaches, plenty)])).toMatchObject([
      { now: { putUp: 0, bought: 0, weeksWithout: 0 }, instead: { putUp: 500 } },
    ]);
    expect(beside([], [])).toEqual([]);
  });

  test('half a unit is worth telling, less is not; a unit more counts as one less does', () => {
    const telling = (now: Comes, instead: Comes) =>
      beside([pathOf(oats, now)], [pathOf(oats, instead)]).length;
    expect(telling({ bought: 500 }, { bought: 500.4 })).toBe(0);
    for (const bought of [499.5, 500.5]) expect(telling({ bought: 500 }, { bought })).toBe(1);
    expect(telling(plenty, { made: 500.4 })).toBe(0);
    for (const made of [499.5, 500.5]) expect(telling(plenty, { made })).toBe(1);
  });

  test('what loses most weeks comes first, then what is put up less of, then by name', () => {
    const never = { made: 0 };
    expect(
      names(
        beside(
          [pathOf(peaches, plenty), pathOf(berries, plenty), pathOf(oats, plenty)],
          [pathOf(peaches, { made: 500, madeIn: 3 }), pathOf(berries, { made: 400 }), pathOf(oats, never)],
        ),
      ),
    ).toEqual(['Oats', 'Peaches', 'Strawberries']);
    const lessOf = (peach: number, berry: number, oat: number) =>
      names(
        beside(
          [pathOf(peaches, plenty), pathOf(berries, plenty), pathOf(oats, plenty)],
          [pathOf(peaches, { made: peach }), pathOf(berries, { made: berry }), pathOf(oats, { made: oat })],
        ),
      );
    expect(lessOf(450, 300, 400)).toEqual(['Strawberries', 'Oats', 'Peaches']);
    expect(lessOf(450, 450, 450)).toEqual(['Oats', 'Peaches', 'Strawberries']);
    expect(lessOf(600, 450, 700)).toEqual(['Strawberries', 'Peaches', 'Oats']);
  });

  test('what was retired is told nothing of', () => {
    const retired = yearOf({
      items: [{ ...peaches, retiredOn: asDate('2026-01-01') }, berries, oats],
      declaredUses: new Map([eaten(berries, 0.5), eaten(oats, 2)]),
    });
    expect(beside([pathOf(peaches, plenty)], [pathOf(peaches)], retired)).toEqual([]);
  });

  test('what is spent is that of all weeks of either plan', () => {
    expect(
      yearWithout(loaded, weeks, {
        now: { plan: planOf(100, 20, 3), paths: [] },
        instead: { plan: planOf(400), paths: [] },
      }).spend,
    ).toEqual({ now: 123, instead: 400 });
  });
});
