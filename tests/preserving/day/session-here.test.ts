import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { Preparations, RecipeBatches } from '../../../src/household/begun.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { SessionSetting } from '../../../src/household/session.ts';
import {
  batchesHere,
  type SessionKitchen,
  sessionHere,
  usualSetting,
} from '../../../src/preserving/day/session-here.ts';
import { copyOf, householdAt, itemOf, kettle, ownRecipe, pressureCanner } from '../own-kitchen.ts';
import { answerOf, codesOf, tables } from '../tables.ts';

const on = asDate('2026-08-22');
const setting: SessionSetting = { by: 'start', time: '09:00', people: 2, burners: 4, rows: {} };

const kitchenOf = (recipes: readonly Recipe[], change: Partial<SessionKitchen> = {}): SessionKitchen =>
  ({
    household: householdAt(5300),
    canners: [kettle, pressureCanner],
    items: recipes.map((recipe) => itemOf(recipe.name, { id: recipe.itemId })),
    recipes,
    hours: { stoveBurners: 4, setUpMinutes: 20 },
    reference: tables,
    preparations: { batches: [], filled: [] },
    now: Date.UTC(2026, 7, 1),
    ...change,
  }) as unknown as SessionKitchen;

const itemsApart = (recipes: readonly Recipe[]): readonly Recipe[] =>
  recipes.map((recipe) => ({ ...recipe, itemId: `item-of-${recipe.id}` as never }));

const daysWork = (...work: readonly (readonly [string, number])[]) =>
  work.map(([recipeId, batches]) => ({ recipeId: recipeId as never, batches }));

const dayOf = (
  recipes: readonly Recipe[],
  work: readonly (readonly [string, number])[],
  { change = {}, set = setting, begun = [] as readonly string[] } = {},
) => sessionHere(daysWork(...work), kitchenOf(recipes, change), on, set, new Set(begun));

const peaches = copyOf('peaches-pints');
const jam = copyOf('strawberry-jam');
const dill = copyOf('quick-dill-pickles');
const crushed = copyOf('tomatoes-crushed-quarts', { in: pressureCanner });

describe('how a day is laid out until somebody says otherwise', () => {
  test.each([
    [1, [], 1],
    [2, [], 2],
    [5, [], 2],
    [0, [], 1],
    [1, ['Ada', 'Bo', 'Cy'], 3],
    [4, ['Ada'], 1],
  ])('a household of %i, with %j named: %i at work', (people, who, atWork) => {
    const usual = usualSetting({ people }, { stoveBurners: 3 }, who);
    expect(usual).toEqual({
      by: 'start',
      time: '09:00',
      people: atWork,
      burners: 3,
      rows: {},
      ...(who.length > 0 ? { who } : {}),
    });
  });
});

describe('the batches of a day as they can be done here', () => {
  // USDA Complete Guide 2, p2-20: peaches in pints, hot pack, boiling water, 3,001 to 6,000 ft: 30 minutes.
  test('two batches of pint peaches at 5,300 ft: the printed 30 minutes, a pot and a load each, 18 jars', () => {
    const [batch] = dayOf([peaches], [['peaches-pints', 2]]).batches;
    const canned = answerOf(batch?.canned ?? { ok: false, problems: [] });
    expect(batch).toMatchObject({ low: 18, high: 18, batches: 2, isStaged: false, alternatives: [] });
    expect(canned.schedule).toMatchObject({ minutes: 30, bandFromFt: 3001, bandToFt: 6000 });
    expect(canned.canner.id).toBe('kettle');
    expect(canned.loads).toEqual([
      { key: 'peaches-pints.1.1', pot: 1, load: 1, jars: 9 },
      { key: 'peaches-pints.2.1', pot: 2, load: 1, jars: 9 },
    ]);
    expect(canned.steps.some(({ kind }) => kind === 'process')).toBe(true);
    expect(canned.dayBatch).toMatchObject({ id: 'peaches-pints', canner: 'kettle', pots: 2, loadsPerPot: 1 });
  });

  test.each([
    { holds: 3, jars: [3, 3, 2], aside: 0 },
    { holds: 7, jars: [7], aside: 1 },
    { holds: 8, jars: [8], aside: 0 },
    { holds: 4, jars: [4, 4], aside: 0 },
  ])('8 jars of a batch where $holds fit go in loads of $jars, $aside aside, in every batch', (counted) => {
    const small = { ...kettle, holds: { ...kettle.holds, pints: counted.holds } };
    const eight = { ...peaches, yieldLow: 7, yieldHigh: 8 };
    const [batch] = dayOf([eight], [['peaches-pints', 2]], { change: { canners: [small] } }).batches;
    const canned = answerOf(batch?.canned ?? { ok: false, problems: [] });
    expect(batch).toMatchObject({ low: 14, high: 16 });
    expect(canned.jarsAside).toBe(2 * counted.aside);
    const perPot = counted.jars.length;
    expect(canned.loads.map(({ pot, load, jars, key }) => ({ pot, load, jars, key }))).toEqual(
      [1, 2].flatMap((pot) =>
        counted.jars.map((jars, at) => ({ pot, load: at + 1, jars, key: `peaches-pints.${pot}.${at + 1}` })),
      ),
    );
    expect(canned.dayBatch.loadsPerPot).toBe(perPot);
  });

  test('a fraction of a jar is a jar: 8.2 come in 9', () => {
    const [batch] = dayOf([{ ...peaches, yieldLow: 8, yieldHigh: 8.2 }], [['peaches-pints', 1]]).batches;
    expect(answerOf(batch?.canned ?? { ok: false, problems: [] }).loads).toMatchObject([{ jars: 9 }]);
  });

  test('what names no recipe, or a recipe without its item, is left out', () => {
    const kitchen = kitchenOf([peaches], { items: [] as readonly Item[] });
    expect(batchesHere(daysWork(['peaches-pints', 1]), kitchen, on, setting, new Set())).toEqual([]);
    expect(dayOf([peaches], [['of-nobody', 1]]).batches).toEqual([]);
  });

  test('what is not canned has no schedule and no timeline, and is on the day all the same', () => {
    const frozen = ownRecipe('Frozen plums', { itemId: 'frozen' as never });
    const day = dayOf([frozen], [['own', 3]], {
      change: { items: [itemOf('Frozen plums', { id: 'frozen' as never, keeping: 'frozen' })] },
    });
    expect(day.batches).toMatchObject([
      { canned: null, heldBack: null, batches: 3, headline: 'Frozen plums' },
    ]);
    expect(day.timeline).toBeNull();
    expect(day.basis).toEqual([]);
  });

  test('canned food of no named process is refused, not left without a word', () => {
    const day = dayOf([ownRecipe('Plums in jars')], [['own', 1]]);
    expect(codesOf(day.batches[0]?.canned ?? { ok: true })).toEqual(['no-process-named']);
  });

  test('a kitchen whose altitude nobody said has no time, no timeline and nothing a sheet could rest on', () => {
    const day = dayOf([peaches], [['peaches-pints', 1]], { change: { household: householdAt(null) } });
    expect(codesOf(day.batches[0]?.canned ?? { ok: true })).toEqual(['altitude-unknown']);
    expect(day.timeline).toBeNull();
    expect(day.basis).toEqual([]);
  });

  // USDA Complete Guide 3, p3-8: crushed tomatoes in a weighted-gauge canner are printed with more than one pressure.
  test('where the table prints several rows one is chosen, and no time is given before', () => {
    const open = dayOf([crushed], [['tomatoes-crushed-quarts', 1]]).batches[0];
    expect(codesOf(open?.canned ?? { ok: true })).toEqual(['choose-schedule']);
    expect(open?.alternatives.length).toBeGreaterThan(1);
    for (const { rowKey, minutes, psi } of open?.alternatives ?? []) {
      const set = { ...setting, rows: { 'tomatoes-crushed-quarts': rowKey } };
      const [batch] = dayOf([crushed], [['tomatoes-crushed-quarts', 1]], { set }).batches;
      expect(answerOf(batch?.canned ?? { ok: false, problems: [] }).schedule).toMatchObject({ minutes, psi });
    }
    const [ofAnother] = dayOf([crushed], [['tomatoes-crushed-quarts', 1]], {
      set: { ...setting, rows: { 'peaches-pints': open?.alternatives[0]?.rowKey ?? '' } },
    }).batches;
    expect(codesOf(ofAnother?.canned ?? { ok: true })).toEqual(['choose-schedule']);
  });

  test('a day takes 40 batches of a recipe and 200 of its loads, and not one more', () => {
    const ofDay = (batches: number, pints: number) =>
      dayOf([{ ...peaches, yieldLow: 9, yieldHigh: 10 }], [['peaches-pints', batches]], {
        change: { canners: [{ ...kettle, holds: { ...kettle.holds, pints } }] },
      }).batches[0]?.canned;
    expect(codesOf(ofDay(40, 9) ?? { ok: false, problems: [] })).toEqual([]);
    expect(codesOf(ofDay(41, 9) ?? { ok: true })).toEqual(['too-many-loads']);
    expect(codesOf(ofDay(40, 2) ?? { ok: false, problems: [] })).toEqual([]);
    const refused = ofDay(21, 1) ?? { ok: true as const, value: undefined };
    expect(refused).toMatchObject({
      ok: false,
      problems: [
        {
          path: ['batches'],
          message:
            'One day takes 40 batches and 200 canner loads at most; Peaches, halved or sliced (9 pints) would have 21 batches of 10 loads. Put fewer on this day.',
        },
      ],
    });
    expect(codesOf(ofDay(20, 1) ?? { ok: false, problems: [] })).toEqual([]);
  });
});

describe('a batch whose stages are not written down', () => {
  // USDA Complete Guide 6, p6-10: the cucumbers of quick dill pickles stand 12 hours in salt water.
  const begun = (begunAt: string, batches = 1, change: Partial<RecipeBatches> = {}): Preparations => ({
    batches: [
      {
        id: 'one',
        recipeId: dill.id,
        batches,
        begun: [{ position: 1, way: null, begunAt }],
        isThrownAway: false,
        ...change,
      },
    ],
    filled: [],
  });
  const held = (preparations: Preparations, more: Partial<Parameters<typeof dayOf>[2]> = {}, now = 0) => {
    const change = { preparations, now: now === 0 ? Date.UTC(2026, 7, 1) : now };
    const [batch] = dayOf([dill], [['quick-dill-pickles', 1]], { change, ...more }).batches;
    return { codes: codesOf(batch?.canned ?? { ok: true }), heldBack: batch?.heldBack ?? null };
  };

  test('has no time, and says how it will be canned once they are', () => {
    const { codes, heldBack } = held({ batches: [], filled: [] });
    expect(codes).toEqual(['stage-not-begun']);
    expect(heldBack?.schedule.foodKey).toBe('quick-dill-pickles');
    expect(dayOf([dill], [['quick-dill-pickles', 1]]).timeline).toBeNull();
  });

  test.each([
    ['2026-08-21T21:00', []],
    ['2026-08-21T20:00', []],
    ['2026-08-21T21:01', ['stage-too-short']],
    ['2026-08-21T19:59', ['stage-too-long']],
  ])('begun at %s for a day from nine: %j', (begunAt, codes) => {
    const answer = held(begun(begunAt));
    expect(answer.codes).toEqual(codes);
    expect(answer.heldBack === null).toBe(codes.length === 0);
  });

  test('a day laid out back from its end is asked about from midnight, so that nothing is begun too early', () => {
    const set: SessionSetting = { ...setting, by: 'end', time: '18:00' };
    expect(held(begun('2026-08-21T21:00'), { set }).codes).toEqual(['stage-too-short']);
    expect(held(begun('2026-08-21T12:00'), { set }).codes).toEqual([]);
  });

  test('once the clock is past the hour the day was to begin at, the clock counts', () => {
    const atTenPastNine = Date.UTC(2026, 7, 22, 15, 10);
    expect(held(begun('2026-08-21T21:10'), {}, atTenPastNine).codes).toEqual([]);
    expect(held(begun('2026-08-21T21:10'), {}, atTenPastNine - 60_000).codes).toEqual(['stage-too-short']);
  });

  test('a batch that was thrown away, or filled on another day, does not stand; one filled on this day does', () => {
    expect(held(begun('2026-08-21T21:00', 1, { isThrownAway: true })).codes).toEqual(['stage-not-begun']);
    const at = begun('2026-08-21T21:00');
    const filled = (day: string) => ({ ...at, filled: [{ recipeId: dill.id, on: asDate(day), batches: 1 }] });
    expect(held(filled('2026-08-21')).codes).toEqual(['stage-not-begun']);
    expect(held(filled('2026-08-22')).codes).toEqual([]);
  });

  test('two batches on the day need two that were begun', () => {
    const change = { preparations: begun('2026-08-21T21:00', 1) };
    const [two] = dayOf([dill], [['quick-dill-pickles', 2]], { change }).batches;
    expect(codesOf(two?.canned ?? { ok: true })).toEqual(['stage-not-begun']);
  });

  test('keeps its loads in sight once one of them was ticked or timed', () => {
    const [batch] = dayOf([dill], [['quick-dill-pickles', 1]], { begun: ['quick-dill-pickles'] }).batches;
    expect(codesOf(batch?.canned ?? { ok: false, problems: [] })).toEqual([]);
    expect(batch?.isStaged).toBe(true);
    expect(batch?.heldBack).toBeNull();
  });
});

describe('the timeline of a day', () => {
  const both = itemsApart([peaches, jam]);
  const work = [
    ['peaches-pints', 1],
    ['strawberry-jam', 1],
  ] as const;

  test('from a start: the kitchen is set up first, and it ends when the last jar is out of a canner', () => {
    const timeline = answerOf(dayOf(both, work).timeline ?? { ok: false, problems: [] });
    expect(timeline.startsAt).toBe(9 * 60);
    expect(timeline.setUpMinutes).toBe(20);
    const lastOut = Math.max(
      ...timeline.day.tasks.filter(({ kind }) => kind === 'unload').map(({ toMinute }) => toMinute),
    );
    expect(timeline.endsAt).toBe(9 * 60 + 20 + lastOut);
  });

  test('back from an end: the same work, so much earlier', () => {
    const forward = answerOf(dayOf(both, work).timeline ?? { ok: false, problems: [] });
    const length = forward.endsAt - forward.startsAt;
    const set: SessionSetting = { ...setting, by: 'end', time: '17:45' };
    const back = answerOf(dayOf(both, work, { set }).timeline ?? { ok: false, problems: [] });
    expect(back.endsAt).toBe(17 * 60 + 45);
    expect(back.startsAt).toBe(17 * 60 + 45 - length);
  });

  test('five minutes in and five out of a canner are the household’s for each load', () => {
    const { tasks } = answerOf(
      dayOf([peaches], [['peaches-pints', 2]]).timeline ?? { ok: false, problems: [] },
    ).day;
    const lengths = tasks
      .filter(({ kind }) => kind === 'load' || kind === 'unload')
      .map(({ fromMinute, toMinute }) => toMinute - fromMinute);
    expect(lengths).toEqual([5, 5, 5, 5]);
  });

  test('a stove of one burner is refused where a pot and a canner are needed', () => {
    const day = dayOf([peaches], [['peaches-pints', 1]], { set: { ...setting, burners: 1 } });
    expect(codesOf(day.timeline ?? { ok: true })).toEqual(['too-few-burners']);
  });

  test('a batch that is refused takes no time of the others', () => {
    const alone = answerOf(dayOf([peaches], [['peaches-pints', 1]]).timeline ?? { ok: false, problems: [] });
    const day = dayOf(itemsApart([peaches, dill]), [
      ['peaches-pints', 1],
      ['quick-dill-pickles', 1],
    ]);
    expect(answerOf(day.timeline ?? { ok: false, problems: [] }).endsAt).toBe(alone.endsAt);
    expect(day.basis).toHaveLength(1);
  });
});

describe('what a sheet printed now would rest on', () => {
  test('canner by canner, each row once', () => {
    const stock = copyOf('meat-stock-quarts', { in: pressureCanner });
    const again = { ...peaches, id: 'peaches-again' as never };
    const day = dayOf(itemsApart([peaches, again, stock]), [
      ['peaches-pints', 1],
      ['peaches-again', 2],
      ['meat-stock-quarts', 1],
    ]);
    expect(day.basis).toEqual([
      {
        altitudeFt: 5300,
        canner: 'kettle',
        gauge: null,
        gaugeCheckedOn: null,
        rowKeys: [expect.stringContaining('peaches|')],
      },
      {
        altitudeFt: 5300,
        canner: 'pressure',
        gauge: 'weighted',
        gaugeCheckedOn: null,
        rowKeys: [expect.stringContaining('meat-stock|')],
      },
    ]);
  });
});
