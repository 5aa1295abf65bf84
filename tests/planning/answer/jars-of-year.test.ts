import { describe, expect, test } from 'vitest';
import { jarsOfYear } from '../../../src/planning/answer/jars-of-year.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';

// Four weeks. Six pints of peaches stand, ready now and best until week 3; two quarts of them from week 2 on. In week 2 a batch of
// four pints is filled. A pint a week is eaten.
const weeks = ['2026-W33', '2026-W34', '2026-W35', '2026-W36'];
const lot = (
  jarKind: string | null,
  units: number,
  jars: number,
  readyFrom: string,
  bestQualityUntil: string,
) => ({
  lotId: `${jarKind}`,
  units,
  jars,
  jarKind,
  readyFrom,
  bestQualityUntil,
});
const stored = (
  change: { readonly year?: object; readonly weeks?: object[]; readonly taken?: readonly number[] } = {},
) =>
  ({
    year: {
      weeks,
      items: [
        {
          id: 'peaches',
          jarKind: 'pint/regular',
          bestQualityWeeks: 52,
          openingLots: [
            lot('pint/regular', 6, 6, '2026-W20', '2026-W36'),
            lot('quart/regular', 4, 2, '2026-W34', '2026-W50'),
          ],
        },
        {
          id: 'oats',
          jarKind: null,
          bestQualityWeeks: 52,
          openingLots: [lot(null, 9, 0, '2026-W20', '2026-W50')],
        },
      ],
      recipes: [
        { id: 'halves', itemId: 'peaches', jarKind: 'pint/regular', readyAfterWeeks: 1 },
        { id: 'quarts', itemId: 'peaches', jarKind: 'quart/wide', readyAfterWeeks: 0 },
        { id: 'bags', itemId: 'peaches', jarKind: null, readyAfterWeeks: 0 },
        { id: 'flour', itemId: 'oats', jarKind: 'pint/regular', readyAfterWeeks: 0 },
      ],
      jars: [
        { kind: 'pint/regular', empty: 3 },
        { kind: 'pint/wide', empty: 2 },
      ],
      ...change.year,
    },
    plan: {
      weeks: change.weeks ?? [
        { week: '2026-W34', sessions: [{ recipe: 'halves', units: 4 }], purchases: [] },
      ],
    },
    paths: [{ item: 'peaches', takenByWeek: change.taken ?? [1, 1, 1, 1] }],
  }) as unknown as StoredPlan;
const inUse = (plan: StoredPlan) =>
  Object.fromEntries(jarsOfYear(plan).map(({ size, inUseByWeek }) => [size, inUseByWeek]));
const owned = (plan: StoredPlan) =>
  Object.fromEntries(jarsOfYear(plan).map(({ size, ownedByWeek }) => [size, ownedByWeek]));
const made = (week: string, recipe: string, units: number, purchases: object[] = []) => ({
  week,
  sessions: [{ recipe, units }],
  purchases,
});

describe('jars through the weeks of a plan', () => {
  test('hold what stands and what is filled, until the last of it is eaten', () => {
    expect(inUse(stored())).toEqual({ pint: [5, 4 + 4, 3 + 4, 2 + 4], quart: [2, 2, 2, 2] });
  });

  test('are in use until they are empty, the one whose best ends first eaten first', () => {
    // Seven pints' worth a week: six pints and half a quart, then a quart and a half; the new pints only from week 3 on.
    expect(inUse(stored({ taken: [6, 1, 1, 4] }))).toEqual({ pint: [0, 4, 4, 2], quart: [2, 2, 1, 0] });
  });

  test('of another size count as they are: a batch of four units is two quarts', () => {
    expect(inUse(stored({ weeks: [made('2026-W33', 'quarts', 4)] }))).toEqual({
      pint: [5, 4, 3, 2],
      quart: [4, 4, 4, 4],
    });
  });

  test('are none of what goes into none, or of what is kept in none', () => {
    const pints = inUse(stored({ weeks: [] }));
    for (const recipe of ['bags', 'flour', 'gone'])
      expect(inUse(stored({ weeks: [made('2026-W34', recipe, 4)] }))).toEqual(pints);
  });

  test('that are filled may be eaten once they are ready, not before', () => {
    // Nothing stands; of four pints filled in week 2 one is wanted in each week, and had from week 3 on.
    const items = [{ id: 'peaches', jarKind: 'pint/regular', bestQualityWeeks: 52, openingLots: [] }];
    expect(inUse(stored({ year: { items } }))).toEqual({ pint: [0, 4, 3, 2] });
  });

  test('of a lot that stands in no jar, or in none any more, are none', () => {
    const lots = (...openingLots: object[]) =>
      inUse(
        stored({
          year: { items: [{ id: 'peaches', jarKind: 'pint/regular', bestQualityWeeks: 52, openingLots }] },
          weeks: [],
          taken: [0, 0, 0, 0],
        }),
      );
    const one = lot('pint/regular', 2, 2, '2026-W20', '2027-W40');
    expect(lots(one, lot(null, 6, 3, '2026-W20', '2027-W40'))).toEqual({ pint: [2, 2, 2, 2] });
    expect(lots(one, lot('pint/regular', 3, 0, '2026-W20', '2027-W40'))).toEqual({ pint: [2, 2, 2, 2] });
  });

  test('of a size that only stands empty hold nothing', () => {
    expect(
      inUse(stored({ year: { items: [], jars: [{ kind: 'quart/wide', empty: 2 }] }, weeks: [] })),
    ).toEqual({
      quart: [0, 0, 0, 0],
    });
  });

  test('eaten in no path stand as they are', () => {
    expect(inUse({ ...stored({ weeks: [] }), paths: [] } as StoredPlan)).toEqual({
      pint: [6, 6, 6, 6],
      quart: [2, 2, 2, 2],
    });
  });

  test('that are ready before the year or past their best before it count all the same', () => {
    const year = {
      items: [
        {
          id: 'peaches',
          jarKind: 'pint/regular',
          bestQualityWeeks: 52,
          openingLots: [
            lot('pint/regular', 2, 2, '2026-W20', '2027-W40'),
            lot('half-pint/wide', 1, 2, '2026-W20', '2026-W30'),
          ],
        },
      ],
    };
    expect(inUse(stored({ year, weeks: [], taken: [0.5, 0.5, 1, 1] }))).toEqual({
      'half-pint': [1, 0, 0, 0],
      pint: [2, 2, 1, 0],
    });
  });
});

describe('jars there are', () => {
  test('are the empty ones of all mouths, the full ones, and what is bought until then', () => {
    const jars = (what: string, quantity: number) => ({ kind: 'jars', what, quantity });
    const plan = stored({
      weeks: [
        made('2026-W34', 'halves', 4, [
          jars('pint/wide', 12),
          jars('quart/wide', 12),
          { kind: 'lids', what: 'pint/wide', quantity: 9 },
        ]),
        made('2026-W36', 'halves', 4, [jars('pint/regular', 1)]),
      ],
    });
    expect(owned(plan)).toEqual({ pint: [11, 23, 23, 24], quart: null });
  });

  test('are not known of a size nobody counted, and none of a size nobody has', () => {
    expect(owned(stored()).quart).toBeNull();
    expect(Object.keys(owned(stored()))).toEqual(['pint', 'quart']);
    const year = {
      items: [],
      jars: [
        { kind: 'pint/regular', empty: 0 },
        { kind: 'quart/regular', empty: 1 },
      ],
    };
    expect(owned(stored({ year, weeks: [] }))).toEqual({ quart: [1, 1, 1, 1] });
  });
});
