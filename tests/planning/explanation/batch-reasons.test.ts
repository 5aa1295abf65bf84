import { describe, expect, test } from 'vitest';
import { asCents } from '../../../shared/money.ts';
import { asDate, type WeekKey } from '../../../shared/week.ts';
import type { PlanPath } from '../../../src/planning/answer/plan-path.ts';
import { batchReasons, type Reason } from '../../../src/planning/explanation/batch-reasons.ts';
import type { Plan, PlannedSession } from '../../../src/planning/plan.ts';
import type { PlannedRecipe, PlannedSource, PlanningYear } from '../../../src/planning/planning-year.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

// Plums come in weeks 34 to 37, at 90 cents in week 35 and 120 in the others; a batch takes 10 lb and gives 7 jars. A week has one
// session of 300 minutes. Of the jam 17 jars are handed over at the year's end and 2 are held in reserve.
const last = plumWeeks.length - 1;
const weekAt = (at: number): WeekKey => plumWeeks[at] ?? ('' as never);
const inWeeks = <T>(from: number, until: number, there: T, otherwise: T): T[] =>
  plumWeeks.map((_, week) => (week >= from && week <= until ? there : otherwise));

const sessionOf = (change: Partial<PlannedSession> = {}): PlannedSession =>
  ({
    recipe: jamRecipe.id,
    batches: 1,
    units: 7,
    jars: [{ kind: jamRecipe.jarKind, count: 8 }],
    ...change,
  }) as PlannedSession;
const planOf = (
  sessions: Readonly<Record<number, readonly PlannedSession[]>>,
  minutes: Readonly<Record<number, number>> = {},
): Plan =>
  ({
    weeks: plumWeeks.map((week, at) => ({
      week,
      sessions: sessions[at] ?? [],
      kitchenMinutes: minutes[at] ?? 0,
    })),
  }) as unknown as Plan;
/** A shelf that never runs short, but for the weeks named. */
const pathOf = (stock: Readonly<Record<number, number>> = {}, item: string = plumJam.id): PlanPath =>
  ({ item, stockByWeek: plumWeeks.map((_, at) => stock[at] ?? 1000) }) as unknown as PlanPath;

interface Asked {
  readonly year?: PlanningYear;
  readonly at?: number;
  readonly session?: Partial<PlannedSession>;
  readonly paths?: readonly PlanPath[];
  readonly minutes?: Readonly<Record<number, number>>;
}
const reasonsOf = ({ year = plumYear(), at = 34, session = {}, paths = [], minutes = {} }: Asked = {}) =>
  batchReasons(year, planOf({ [at]: [sessionOf(session)] }, minutes), paths)[0]?.reasons ?? [];
const ofCode = (code: Reason['code'], asked: Asked = {}) =>
  reasonsOf(asked).filter((reason) => reason.code === code);
const withRecipe = (change: Partial<PlannedRecipe>, year: Partial<PlanningYear> = {}) =>
  plumYear({ recipes: [{ ...jamRecipe, ...change }], ...year });
const sourceOf = (change: Partial<PlannedSource>): PlannedSource =>
  ({ ...plumYear().sources[0], ...change }) as PlannedSource;

describe('the batches of a plan', () => {
  test('stand with their weeks and numbers in the order of the plan; what no recipe is left of is passed over', () => {
    const plan = planOf({
      35: [sessionOf({ batches: 2 }), sessionOf({ recipe: 'gone' as never })],
      34: [sessionOf()],
    });
    expect(
      batchReasons(plumYear(), plan, []).map(({ week, recipe, batches }) => [week, recipe, batches]),
    ).toEqual([
      [weekAt(34), jamRecipe.id, 1],
      [weekAt(35), jamRecipe.id, 2],
    ]);
  });

  test('have the heaviest reason first: the person, then the shelf, then the week', () => {
    const year = plumYear({
      kept: [{ recipeId: jamRecipe.id, week: weekAt(35), decision: 'pinned', batches: 1 }],
      sources: [sourceOf({ kind: 'garden' })],
    });
    const codes = reasonsOf({ year, at: 35, paths: [pathOf({ 40: 0 })], minutes: { 34: 300, 36: 300 } });
    expect(codes.map(({ code }) => code)).toEqual([
      'pinned',
      'wanted',
      'only-weeks',
      'cheapest-week',
      'garden-crop',
      'hours-full-before',
      'hours-full-after',
    ]);
  });
});

describe('a batch is pinned', () => {
  const pinned = (change: object) =>
    ofCode('pinned', {
      year: plumYear({
        kept: [
          { recipeId: jamRecipe.id, week: weekAt(34), decision: 'pinned', batches: 1, ...change } as never,
          { recipeId: 'another' as never, week: weekAt(2), decision: 'done', batches: 1 },
        ],
      }),
    });

  test('where the person said so of this recipe in this week', () => {
    expect(pinned({})).toEqual([{ code: 'pinned' }]);
  });

  test.each([
    ['another recipe', { recipeId: 'another' }],
    ['another week', { week: weekAt(35) }],
    ['another answer', { decision: 'done' }],
  ])('not by what was said of %s', (_, change) => {
    expect(pinned(change)).toEqual([]);
  });
});

describe('a batch is wanted', () => {
  const wanted = (stock: Readonly<Record<number, number>>, asked: Asked = {}) =>
    ofCode('wanted', { paths: [pathOf(stock)], ...asked });
  const shortIn = (at: number) => [{ code: 'wanted', item: 'Plum jam', shortIn: weekAt(at) }];
  const beyond = [{ code: 'wanted', item: 'Plum jam', shortIn: null }];

  test('where the shelf would be short of its 7 jars without it, in the first such week', () => {
    expect(wanted({ 40: 6, 45: 0 })).toEqual(shortIn(40));
    expect(wanted({ 40: 6.9 })).toEqual(shortIn(40));
    expect(wanted({ 40: 7 })).toEqual([]);
  });

  test('in its own week too, and in no week before it', () => {
    expect(wanted({ 34: 6 })).toEqual(shortIn(34));
    expect(wanted({ 33: 0 })).toEqual([]);
    const always = withRecipe({}, { sources: [sourceOf({ lbByWeek: plumWeeks.map(() => 20) })] });
    expect(wanted({ 0: 6 }, { year: always, at: 0 })).toEqual(shortIn(0));
  });

  test('not for a week before it is ready: jars that stand four weeks are short by what it brings from then on', () => {
    const year = withRecipe({ readyAfterWeeks: 4 });
    expect(wanted({ 35: 0, 37: 0 }, { year })).toEqual([]);
    expect(wanted({ 35: 0, 38: 6 }, { year })).toEqual(shortIn(38));
  });

  test('to carry beyond the year’s end, where its last week would hand over too little: 17, the reserve of 2, and its own 7', () => {
    expect(wanted({ [last]: 25.9 })).toEqual(beyond);
    expect(wanted({ [last]: 26 })).toEqual([]);
    // Short of its jars in the last week alone: that is what is handed over.
    expect(wanted({ [last]: 0 })).toEqual(beyond);
    expect(wanted({ [last - 1]: 6 })).toEqual(shortIn(last - 1));
    const aimed = plumYear({ items: [{ ...plumJam, reserveForAim: 5 }] });
    expect(wanted({ [last]: 30.9 }, { year: aimed })).toEqual(beyond);
    expect(wanted({ [last]: 31 }, { year: aimed })).toEqual([]);
  });

  test('of its own item alone, and of nothing where no shelf is known', () => {
    const other = { ...plumJam, id: 'butter' as never, name: 'Plum butter' };
    const year = plumYear({ items: [other, plumJam] });
    expect(wanted({}, { year, paths: [pathOf({ 40: 0 }, 'butter'), pathOf()] })).toEqual([]);
    expect(wanted({}, { year, paths: [pathOf({}, 'butter'), pathOf({ 40: 0 })] })).toEqual(shortIn(40));
    expect(wanted({}, { paths: [] })).toEqual([]);
    expect(wanted({ 40: 0 }, { year: plumYear({ items: [] }) })).toEqual([]);
  });
});

describe('a batch that is begun', () => {
  const begunOn = asDate('2026-11-20');
  const begun = (mayLoad: (week: number) => boolean, at = 3) =>
    reasonsOf({
      at,
      session: { begun: { id: 'crock', on: begunOn } },
      paths: [pathOf()],
      year: plumYear({
        begun: [
          {
            id: 'crock',
            recipeId: jamRecipe.id,
            jarKind: jamRecipe.jarKind,
            batches: 1,
            begunOn,
            mayLoadByWeek: plumWeeks.map((_, week) => mayLoad(week)),
          },
        ],
      }),
    });

  test('says since when, and in which weeks its jars may be filled; its season and price matter no more', () => {
    expect(begun((week) => week >= 2 && week <= 5)).toEqual([
      { code: 'begun', on: begunOn, may: { from: weekAt(2), until: weekAt(5) } },
    ]);
    expect(begun((week) => week === 3)).toEqual([
      { code: 'begun', on: begunOn, may: { from: weekAt(3), until: weekAt(3) } },
    ]);
    expect(begun((week) => week >= 2 && week < last)).toMatchObject([{ may: { until: weekAt(last - 1) } }]);
  });

  test('may be filled any time where no week of the year is the last, and where none is left', () => {
    expect(begun((week) => week >= 2)).toEqual([{ code: 'begun', on: begunOn, may: null }]);
    expect(begun(() => false)).toEqual([{ code: 'begun', on: begunOn, may: null }]);
  });

  test('is another batch than one still to begin', () => {
    expect(ofCode('begun')).toEqual([]);
  });
});

describe('a batch has few weeks', () => {
  const window = (from: number, until: number, at: number, change: Partial<PlannedRecipe> = {}) =>
    ofCode('only-weeks', {
      at,
      year: withRecipe(change, { sources: [sourceOf({ lbByWeek: inWeeks(from, until, 20, 0) })] }),
    });
  const only = (from: number, until: number, isBegunBefore = false) => [
    { code: 'only-weeks', isBegunBefore, from: weekAt(from), until: weekAt(until) },
  ];

  test('from the first to the last in which it can be made, wherever in them it stands', () => {
    for (const at of [34, 35, 37]) expect(window(34, 37, at)).toEqual(only(34, 37));
    expect(window(34, 34, 34)).toEqual(only(34, 34));
    expect(window(0, 1, 1)).toEqual(only(0, 1));
    expect(window(last - 1, last, last)).toEqual(only(last - 1, last));
  });

  test('up to ten of them; a longer season is not named', () => {
    expect(window(30, 39, 33)).toEqual(only(30, 39));
    expect(window(30, 40, 33)).toEqual([]);
  });

  test('those of its own season: what can be made again at the year’s end is the next one', () => {
    const twice = plumWeeks.map((_, week) => (week <= 2 || (week >= 34 && week <= 37) ? 20 : 0));
    const year = plumYear({ sources: [sourceOf({ lbByWeek: twice })] });
    expect(ofCode('only-weeks', { at: 1, year })).toEqual(only(0, 2));
    expect(ofCode('only-weeks', { at: 36, year })).toEqual(only(34, 37));
  });

  test('none are named where its week is none of them any more', () => {
    expect(window(34, 37, 33)).toEqual([]);
    expect(window(34, 37, 38)).toEqual([]);
  });

  test('of several days are told by the weeks in which it may be begun', () => {
    const stages = { weeks: 2, daysFromMonday: 5, handsOnByWeek: [40, 0, 50], possibleByWeek: null };
    expect(window(34, 37, 36, { stages })).toEqual(only(34, 37, true));
    expect(window(34, 37, 36, { stages: { ...stages, weeks: 0, handsOnByWeek: [90] } })).toEqual(
      only(34, 37, false),
    );
  });
});

describe('a batch stands in its cheapest week', () => {
  const pear = 'pear' as PlannedSource['crop'];
  const cents = (byWeek: (week: number) => number) => plumWeeks.map((_, week) => asCents(byWeek(week)));
  const cheapest = (at: number, sources: readonly PlannedSource[], change: Partial<PlannedRecipe> = {}) =>
    ofCode('cheapest-week', { at, year: withRecipe(change, { sources }) });
  const yes = [{ code: 'cheapest-week', isBegunBefore: false }];

  test('where its produce costs less than in another of its weeks, and nowhere less', () => {
    const [market] = plumYear().sources;
    if (market === undefined) throw new Error('expected a source of plums');
    expect(cheapest(35, [market])).toEqual(yes);
    expect(cheapest(34, [market])).toEqual([]);
    expect(cheapest(36, [market])).toEqual([]);
  });

  test('not where it costs the same all season, to the cent', () => {
    const ofOnePound = { produce: jamRecipe.produce.map((part) => ({ ...part, lb: 1 })) };
    const at35 = (byWeek: (week: number) => number) =>
      cheapest(35, [sourceOf({ priceCentsPerLbByWeek: cents(byWeek) })], ofOnePound);
    const oneDear = (dear: number) => at35((week) => (week === 37 ? dear : 100));
    expect([100, 101, 102].map((dear) => oneDear(dear).length)).toEqual([0, 0, 1]);
    const oneDearAnd = (price: number) => at35((week) => (week === 34 ? price : week === 37 ? 200 : 100));
    expect([99, 100, 101].map((price) => oneDearAnd(price).length)).toEqual([0, 1, 1]);
  });

  test('by the cheaper of two sources that give any then', () => {
    const dear = sourceOf({ id: 'dear' as never, priceCentsPerLbByWeek: cents(() => 150) });
    const cheap = (lb: number) =>
      sourceOf({
        id: 'cheap' as never,
        lbByWeek: inWeeks(36, 36, lb, 0),
        priceCentsPerLbByWeek: cents(() => 80),
      });
    expect(cheapest(36, [dear, cheap(20)])).toEqual(yes);
    expect(cheapest(34, [dear, cheap(20)])).toEqual([]);
    expect(cheapest(36, [dear, cheap(0)])).toEqual([]);
    const pears = sourceOf({
      id: 'pears' as never,
      crop: pear,
      priceCentsPerLbByWeek: cents((week) => week),
    });
    expect(cheapest(34, [dear, pears])).toEqual([]);
  });

  test('by all its crops together, each by its pounds', () => {
    const produce = [
      { crop: jamRecipe.produce[0]?.crop as PlannedSource['crop'], lb: 10, mayBeFrozen: false },
      { crop: pear, lb: 2, mayBeFrozen: false },
    ];
    // In week 36 plums cost 10 cents a pound less and pears 60 more: 20 cents more in all.
    const plums = sourceOf({ priceCentsPerLbByWeek: cents((week) => (week === 36 ? 90 : 100)) });
    const pears = (rise: number) =>
      sourceOf({
        id: 'pears' as never,
        crop: pear,
        priceCentsPerLbByWeek: cents((week) => (week === 36 ? 50 + rise : 50)),
      });
    expect(cheapest(36, [plums, pears(60)], { produce })).toEqual([]);
    expect(cheapest(36, [plums, pears(40)], { produce })).toEqual(yes);
    expect(cheapest(35, [plums, pears(60)], { produce })).toEqual(yes);
  });

  test('is told of what is begun before by the week of its produce', () => {
    const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [40, 50], possibleByWeek: null };
    const [market] = plumYear().sources;
    if (market === undefined) throw new Error('expected a source of plums');
    expect(cheapest(36, [market], { stages })).toEqual([{ code: 'cheapest-week', isBegunBefore: true }]);
    expect(cheapest(35, [market], { stages })).toEqual([]);
    // Begun in week 35 it costs more than in week 34, though less than in any after.
    const rising = sourceOf({ priceCentsPerLbByWeek: cents((week) => [80, 90, 120, 120][week - 34] ?? 0) });
    expect(cheapest(36, [rising], { stages })).toEqual([]);
    expect(cheapest(35, [rising], { stages })).toEqual([{ code: 'cheapest-week', isBegunBefore: true }]);
  });

  test('is not told where other weeks could only take what was frozen: that has no price of its week', () => {
    const flat = sourceOf({ priceCentsPerLbByWeek: cents(() => 100) });
    const frozen = withRecipe(
      { produce: jamRecipe.produce.map((part) => ({ ...part, mayBeFrozen: true })) },
      {
        sources: [flat],
        freezable: [
          {
            crop: jamRecipe.produce[0]?.crop as PlannedSource['crop'],
            openingLb: 0,
            keepsMonthsFrozen: 8,
            quartsPerLb: 0.5,
          },
        ],
      },
    );
    expect(ofCode('only-weeks', { at: 40, year: frozen })).toHaveLength(1);
    expect(ofCode('cheapest-week', { at: 37, year: frozen })).toEqual([]);
    expect(ofCode('cheapest-week', { at: 40, year: frozen })).toEqual([]);
  });
});

describe('a batch works up what our garden gives', () => {
  const ours = (sources: readonly PlannedSource[], change: Partial<PlannedRecipe> = {}, at = 35) =>
    ofCode('garden-crop', { at, year: withRecipe(change, { sources }) });
  const garden = (change: Partial<PlannedSource> = {}) =>
    sourceOf({ id: 'garden' as never, kind: 'garden', ...change });
  const yes = [{ code: 'garden-crop', isBegunBefore: false }];

  test('in its week, its own crop, and from no market', () => {
    expect(ours([garden()])).toEqual(yes);
    expect(ours([sourceOf({}), garden()])).toEqual(yes);
    expect(ours([sourceOf({})])).toEqual([]);
    expect(ours([sourceOf({}), garden({ crop: 'pear' as never })])).toEqual([]);
    expect(ours([sourceOf({}), garden({ lbByWeek: inWeeks(36, 37, 20, 0) })])).toEqual([]);
  });

  test('one of several crops is enough', () => {
    const produce = [{ crop: 'pear' as never, lb: 1, mayBeFrozen: false }, ...jamRecipe.produce];
    expect(ours([garden(), sourceOf({ crop: 'pear' as never })], { produce })).toEqual(yes);
  });

  test('of several days in the week in which it is begun', () => {
    const stages = { weeks: 1, daysFromMonday: 5, handsOnByWeek: [40, 50], possibleByWeek: null };
    const sources = [sourceOf({}), garden({ lbByWeek: inWeeks(34, 34, 20, 0) })];
    expect(ours(sources, { stages }, 35)).toEqual([{ code: 'garden-crop', isBegunBefore: true }]);
    expect(ours(sources, { stages }, 36)).toEqual([]);
    expect(ours(sources, { stages }, 0)).toEqual([]);
  });
});

describe('a batch works up what another leaves', () => {
  test('by the name of each material, or by its id where it is unknown', () => {
    const material = (id: string, name: string) =>
      ({
        id,
        name,
        unit: 'lb',
        opening: 0,
        keepsDaysCold: 7,
        keepsMonthsFrozen: null,
        quartsPerUnit: 1,
      }) as const;
    const year = withRecipe(
      { uses: ['pulp', 'peel'].map((materialId) => ({ materialId, quantity: 2 })) },
      { materials: [material('skins', 'Skins'), material('pulp', 'Pulp')] },
    );
    expect(ofCode('by-product', { year })).toEqual([
      { code: 'by-product', material: 'Pulp' },
      { code: 'by-product', material: 'peel' },
    ]);
    expect(ofCode('by-product')).toEqual([]);
  });
});

describe('the weeks beside a batch are full', () => {
  const full = (minutes: Readonly<Record<number, number>>, at = 35, year = plumYear()) =>
    reasonsOf({ at, minutes, year }).filter(({ code }) => code.startsWith('hours-full'));

  test('where less than an eighth of their room, or nearly, is left: 36 of 300 minutes', () => {
    expect(full({ 34: 265 })).toEqual([{ code: 'hours-full-before', week: weekAt(34) }]);
    expect(full({ 36: 265 })).toEqual([{ code: 'hours-full-after', week: weekAt(36) }]);
    expect(full({ 34: 264, 36: 264 })).toEqual([]);
    // Its own week, and weeks further away, say nothing.
    expect(full({ 33: 300, 35: 300, 37: 300 })).toEqual([]);
  });

  test('counts only weeks in which it could be made', () => {
    expect(full({ 33: 300 }, 34)).toEqual([]);
    expect(full({ 38: 300 }, 37)).toEqual([]);
  });

  test('are none before the first week of the year and after its last', () => {
    const always = plumYear({ sources: [sourceOf({ lbByWeek: plumWeeks.map(() => 20) })] });
    expect(full({ 0: 300, 1: 300 }, 0, always)).toEqual([{ code: 'hours-full-after', week: weekAt(1) }]);
    expect(full({ [last]: 300, [last - 1]: 300 }, last, always)).toEqual([
      { code: 'hours-full-before', week: weekAt(last - 1) },
    ]);
  });

  test('by all hands in them', () => {
    const two = plumYear({ time: { ...plumYear().time, handsByWeek: plumWeeks.map(() => 2) } });
    // Half an hour to set up and 270 minutes for each of two: 570; 502 of them are not yet full.
    expect(full({ 34: 501 }, 35, two)).toEqual([]);
    expect(full({ 34: 502 }, 35, two)).toEqual([{ code: 'hours-full-before', week: weekAt(34) }]);
  });
});
