import { describe, expect, test } from 'vitest';
import { asDate } from '../../shared/week.ts';
import { plainReader, readOut } from '../../src/notices/marks.ts';
import { missingBySession } from '../../src/notices/missing-by-session.ts';
import { noticePicture } from '../../src/notices/picture-of-year.ts';
import { fetchDays } from '../../src/planning/days/fetch-days.ts';

// Alder Steps, invented, on a Wednesday: what the rules look at is read off its facts and its plan, and no more than that.

type Loaded = Parameters<typeof noticePicture>[0];
type Walked = Parameters<typeof noticePicture>[1][number];
type Asked = Parameters<typeof noticePicture>[2];
type Facts = Loaded['facts'];
type StoredPlan = NonNullable<Asked['plan']>;
type PlannedWeek = StoredPlan['plan']['weeks'][number];
type Wish = StoredPlan['plan']['gaveWay'][number];

/** What a test says of something; what it does not say is never looked at. */
const given = <Whole>(part: object): Whole => part as Whole;

const asOf = asDate('2026-08-19');
const names: Asked['names'] = {
  cropPlural: (crop) => `${crop} (crop)`,
  unitPlural: (unit) => `${unit} (several)`,
  jarWord: (kind) => ({ one: `one ${kind}`, many: `several ${kind}` }),
  money: (amount) => `money ${amount}`,
  reader: plainReader,
};

const salsa = {
  id: 'salsa',
  name: 'Salsa',
  kind: 'preserve',
  unit: 'jar',
  usualJar: 'pint/regular',
  retiredOn: null,
};
const beans = { ...salsa, id: 'beans', name: 'Dry beans', kind: 'staple', unit: 'bag', usualJar: null };
const salsaRecipe = {
  id: 'salsa-pints',
  name: 'Salsa in pints',
  produce: [
    { crop: 'tomato', lb: 20 },
    { crop: 'pepper', lb: 3 },
  ],
  supplies: [
    { supplyId: 'vinegar', quantity: 2 },
    { supplyId: 'chicken', quantity: 4 },
    { supplyId: 'gone', quantity: 1 },
  ],
};
const relish = { id: 'relish', name: 'Relish', produce: [{ crop: 'pepper', lb: 4 }], supplies: [] };

const household = {
  weekStartsOn: 'monday',
  timeZone: 'America/Denver',
  altitudeFt: 5200,
  currency: 'USD',
};
const hours = {
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  setUpMinutes: 30,
  stoveBurners: 4,
  sessionWeekday: 6,
  weeks: [],
};
const calmFacts = {
  household,
  hours,
  events: [],
  canners: [],
  recipes: [salsaRecipe, relish],
  items: [salsa, beans],
  groups: [],
  sources: [],
  kept: [],
  purchases: [],
  jars: [],
  lids: [],
  supplies: [
    { id: 'vinegar', name: 'Vinegar', unit: 'qt', packQuantity: 4, onHand: 3 },
    { id: 'chicken', name: 'Chicken', unit: 'lb', packQuantity: 5, onHand: 0 },
  ],
};

const loaded = (
  facts: object = {},
  {
    supplies = [{ id: 'vinegar' }, { id: 'chicken', freshDays: 2 }],
    seasons = [],
  }: {
    supplies?: readonly object[];
    seasons?: readonly (readonly [string, readonly object[]])[];
  } = {},
): Loaded =>
  given({
    facts: { ...calmFacts, ...facts },
    year: { asOf, supplies },
    seasonsBySource: new Map(seasons),
  });

const session = (recipe: string, over: object = {}) => ({
  recipe,
  batches: 2,
  jars: [{ kind: 'pint/regular', count: 18 }],
  units: 16,
  handsOnMinutes: 120,
  canner: 'pot',
  loads: 2,
  ...over,
});
const week = (key: string, sessions: readonly object[], purchases: readonly object[] = []): PlannedWeek =>
  given({ week: key, sessions, purchases, materials: [], kitchenSessions: 1 });
const planOf = (
  weeks: readonly PlannedWeek[],
  gaveWay: readonly Wish[] = [],
  year: object = { sources: [], supplies: [], recipes: [] },
): StoredPlan => given({ plan: { weeks, gaveWay }, year });

const picture = (
  facts: object = {},
  rest: Partial<Asked> & {
    readonly items?: readonly Walked[];
    readonly seasons?: readonly (readonly [string, readonly object[]])[];
  } = {},
) => {
  const { items = [], seasons = [], ...asked } = rest;
  return noticePicture(loaded(facts, { seasons }), items, { plan: null, names, ...asked });
};

test('an empty pantry with no plan has a day, a kitchen, and nothing to tell', () => {
  expect(noticePicture(loaded({ supplies: [] }), [], { plan: null, names })).toEqual({
    asOf,
    weekStartsOn: 'monday',
    reader: plainReader,
    lots: [],
    items: [],
    windows: [],
    sessions: [],
    fresh: [],
    batches: [],
    onHand: {},
    gaveWay: [],
    canners: [],
    upkeep: [],
    altitudeFt: 5200,
    clockJump: null,
  });
});

test('a clock that jumped is told by the days of the household’s zone', () => {
  const jump = {
    seq: 4,
    noticedAt: Date.parse('2026-08-19T02:00:00Z'),
    aheadUntil: Date.parse('2026-09-02T05:00:00Z'),
  };

  expect(picture({}, { jump: given(jump) }).clockJump).toEqual({
    jumpId: '4',
    wentBackOn: '2026-08-18',
    aheadUntil: '2026-09-01',
  });
});

describe('lots', () => {
  const lot = {
    id: 'salsa-25',
    unitsLeft: 3,
    origin: 'put-up',
    madeOn: '2025-09-01',
    readyFrom: '2025-09-02',
    bestQualityUntil: '2026-09-01',
    place: { name: 'Cellar' },
    setAside: null,
  };
  const lotsOf = (item: object, ...lots: readonly object[]) =>
    picture({}, { items: [given({ item, lots })] }).lots;

  test('are what they are, in the word of what they are counted in', () => {
    expect(lotsOf({ ...salsa, retiredOn: '2026-01-01' }, lot)).toEqual([
      {
        lotId: 'salsa-25',
        itemName: 'Salsa',
        left: 3,
        unit: { one: 'jar', many: 'jars' },
        came: 'put up',
        madeOn: '2025-09-01',
        readyFrom: '2025-09-02',
        bestQualityUntil: '2026-09-01',
        place: 'Cellar',
        setAside: null,
      },
    ]);
  });

  test.each([
    ['jar', { one: 'jar', many: 'jars' }],
    ['bag', { one: 'bag', many: 'bags' }],
    ['lb', { one: 'lb', many: 'lb' }],
    ['bin', { one: 'bin', many: 'bins' }],
    ['each', { one: 'piece', many: 'pieces' }],
  ])('counted in %s', (unit, words) => {
    expect(lotsOf({ ...salsa, retiredOn: '2026-01-01', unit }, lot)[0]?.unit).toEqual(words);
  });

  test.each([
    ['put-up', 'put up'],
    ['bought', 'bought'],
    ['received', 'received'],
  ])('that came %s', (origin, came) => {
    expect(lotsOf({ ...salsa, retiredOn: '2026-01-01' }, { ...lot, origin })[0]?.came).toBe(came);
  });

  test('in the refrigerator are never eaten past their days, all others may be', () => {
    const kept = (keeping: string) =>
      lotsOf({ ...salsa, retiredOn: '2026-01-01', keeping }, lot)[0]?.neverPastDays;

    expect([kept('refrigerated'), kept('canned')]).toEqual([true, undefined]);
  });

  test('stand nowhere where no place was said, and are set aside since a day of the household’s zone', () => {
    const aside = { reason: 'lids came up', at: Date.parse('2026-08-10T03:00:00Z') };

    expect(
      lotsOf({ ...salsa, retiredOn: '2026-01-01' }, { ...lot, place: null, setAside: aside })[0],
    ).toMatchObject({ place: null, setAside: { reason: 'lids came up', on: '2026-08-09' } });
  });
});

describe('items', () => {
  const walked = (item: object, over: object = {}): Walked =>
    given({
      item,
      lots: [],
      unitsToEat: 7,
      forecast: null,
      projection: null,
      gaps: [],
      supply: { nextSupplyWeek: '2027-W33', by: 'made' },
      missing: null,
      ...over,
    });

  test('of which nothing is known but a name', () => {
    expect(picture({}, { items: [walked(salsa)] }).items).toEqual([
      {
        itemId: 'salsa',
        itemName: 'Salsa',
        unit: { one: 'one pint/regular', many: 'several pint/regular' },
        isOnRecord: false,
        onShelf: 7,
        usePerWeek: 0,
        runsOutIn: null,
        nextSupplyWeek: '2027-W33',
        nextSupplyBy: 'made',
        missing: null,
        suspectedHabit: null,
        suspectedOccasion: null,
        suspectedSeason: null,
      },
    ]);
  });

  test('of which all is known', () => {
    const suspectedChange = { share: 0.9, perWeek: 3, perWeekBefore: 1, weeks: 6 };
    const items = [
      walked(beans, {
        forecast: {
          perWeek: 0.4,
          belief: { suspectedChange },
          suspectedOccasion: { week: '2026-W30', taken: 6 },
          suspectedSeason: { months: [6, 7] },
        },
        projection: { weeks: [{ week: '2026-W34' }, { week: '2026-W35' }, { week: '2026-W36' }] },
        gaps: [{ from: 1 }, { from: 2 }],
        supply: { nextSupplyWeek: null, by: 'bought' },
        missing: { words: 'no source of beans' },
      }),
    ];

    expect(picture({ events: [{ itemId: 'beans' }] }, { items }).items).toEqual([
      {
        itemId: 'beans',
        itemName: 'Dry beans',
        unit: { one: 'bag', many: 'bags' },
        isOnRecord: true,
        onShelf: 7,
        usePerWeek: 0.4,
        runsOutIn: '2026-W35',
        nextSupplyWeek: null,
        nextSupplyBy: 'bought',
        missing: 'no source of beans',
        suspectedHabit: { perWeekBefore: 1, perWeek: 3, weeks: 6 },
        suspectedOccasion: { week: '2026-W30', taken: 6 },
        suspectedSeason: { months: [6, 7] },
      },
    ]);
  });

  test('that last through all weeks do not run out, and those no longer kept are left alone', () => {
    const items = [
      walked(salsa, { projection: { weeks: [{ week: '2026-W34' }] } }),
      walked({ ...beans, retiredOn: '2026-05-01' }),
    ];

    expect(picture({}, { items }).items.map(({ itemId, runsOutIn }) => [itemId, runsOutIn])).toEqual([
      ['salsa', null],
    ]);
  });
});

describe('harvests', () => {
  const bed = { id: 'bed', name: 'South bed', crop: 'tomato' };
  const season = { year: 2026, beginsOn: '2026-08-05', endsOn: '2026-09-15' };
  const windowsOf = (plan: StoredPlan | null, sources: readonly object[] = [bed]) =>
    picture({ sources }, { plan, seasons: [['bed', [{ season, shiftDays: -4 }]]] }).windows;

  test('are told with their shift and the first day after them', () => {
    expect(windowsOf(null)).toEqual([
      {
        sourceId: 'bed',
        sourceName: 'South bed',
        cropName: 'tomato (crop)',
        year: 2026,
        beginsOn: '2026-08-05',
        endsOn: '2026-09-16',
        shiftDays: -4,
        wantedFor: [],
      },
    ]);
  });

  test('are wanted for what the plan makes of the crop from now to their last week, each named once, in order', () => {
    const other = {
      id: 'salsa-quarts',
      name: 'Chunky salsa',
      produce: [{ crop: 'tomato', lb: 9 }],
      supplies: [],
    };
    const wanted = (...weeks: readonly PlannedWeek[]) =>
      picture(
        { sources: [bed], recipes: [salsaRecipe, relish, other] },
        { plan: planOf(weeks), seasons: [['bed', [{ season, shiftDays: 0 }]]] },
      ).windows[0]?.wantedFor;

    expect(wanted(week('2026-W33', [session('salsa-pints')]))).toEqual([]);
    expect(wanted(week('2026-W34', [session('salsa-pints')]))).toEqual(['Salsa in pints']);
    expect(wanted(week('2026-W38', [session('salsa-pints')]))).toEqual(['Salsa in pints']);
    expect(wanted(week('2026-W39', [session('salsa-pints')]))).toEqual([]);
    expect(wanted(week('2026-W35', [session('relish'), session('nobody-knows')]))).toEqual([]);
    expect(
      wanted(
        week('2026-W35', [session('salsa-pints'), session('salsa-quarts')]),
        week('2026-W36', [session('salsa-pints')]),
      ),
    ).toEqual(['Chunky salsa', 'Salsa in pints']);
  });

  test('that begin later are not wanted for what is made before them', () => {
    const late = { ...season, beginsOn: '2026-08-31' };
    const wanted = (key: string) =>
      picture(
        { sources: [bed] },
        {
          plan: planOf([week(key, [session('salsa-pints')])]),
          seasons: [['bed', [{ season: late, shiftDays: 0 }]]],
        },
      ).windows[0]?.wantedFor;

    expect([wanted('2026-W35'), wanted('2026-W36')]).toEqual([[], ['Salsa in pints']]);
  });

  test('of a source without a season are none', () => {
    expect(windowsOf(null, [{ ...bed, id: 'hedge' }])).toEqual([]);
  });
});

describe('sessions', () => {
  const stock = {
    jars: [
      { kind: 'quart/wide', empty: 2, pack: 6 },
      { kind: 'pint/regular', empty: 5, pack: 12 },
    ],
    lids: [
      { mouth: 'wide', onHand: 1, box: 10 },
      { mouth: 'regular', onHand: 9, box: 12 },
    ],
  };
  const takenBy = ['Salsa in pints'];
  const needs = {
    jars: { name: 'pint jars, regular mouth', quantity: 18, unit: null, pack: 12, takenBy },
    lids: { name: 'new regular lids', quantity: 18, unit: null, pack: 12, takenBy },
    vinegar: { name: 'vinegar', quantity: 4, unit: { one: 'qt', many: 'qt (several)' }, pack: 4, takenBy },
  };
  const sessionsOf = (weeks: readonly PlannedWeek[], facts: object = {}, rest: Partial<Asked> = {}) =>
    picture({ ...stock, ...facts }, { plan: planOf(weeks), ...rest }).sessions;

  test('need their jars, lids and what keeps, and are bought for by the day before', () => {
    expect(sessionsOf([week('2026-W34', [session('salsa-pints')])])).toEqual([
      {
        week: '2026-W34',
        on: '2026-08-22',
        buyBy: expect.stringMatching(/^2026-08-(19|20|21)$/),
        lastDay: '2026-08-22',
        isBegunBefore: false,
        makes: ['Salsa in pints'],
        needs: [needs.jars, needs.lids, needs.vinegar],
      },
    ]);
  });

  test('that are over, empty or done ask for nothing', () => {
    const done = [{ recipeId: 'salsa-pints', week: '2026-W34', decision: 'done' }];
    const planned = [week('2026-W34', [session('salsa-pints')])];

    expect(sessionsOf([week('2026-W33', [session('salsa-pints')])])).toEqual([]);
    expect(sessionsOf([week('2026-W34', [])])).toEqual([]);
    expect(sessionsOf(planned, { kept: done })).toEqual([]);
    expect(sessionsOf(planned, { kept: [{ ...done[0], decision: 'pinned' }] })).toHaveLength(1);
    expect(sessionsOf(planned, { kept: [{ ...done[0], week: '2026-W35' }] })).toHaveLength(1);
  });

  test('of which one recipe is done ask for the rest', () => {
    const kept = [{ recipeId: 'salsa-pints', week: '2026-W34', decision: 'done' }];
    const [left] = sessionsOf(
      [
        week('2026-W34', [
          session('salsa-pints'),
          session('relish', { jars: [] }),
          session('unknown', { jars: [] }),
        ]),
      ],
      { kept, recipes: [salsaRecipe, { ...relish, supplies: [{ supplyId: 'vinegar', quantity: 1 }] }] },
    );

    expect(left).toMatchObject({
      makes: ['Relish', 'unknown'],
      needs: [{ name: 'vinegar', quantity: 2, takenBy: ['Relish'] }],
    });
  });

  test('say what is on the list, in whole packs where it is bought in packs', () => {
    const line = (kind: string, what: string, quantity: number, count: number | null) => ({
      kind,
      what,
      quantity,
      packs: count === null ? null : { id: 'pack', count },
    });
    const [found] = sessionsOf([
      week(
        '2026-W34',
        [session('salsa-pints')],
        [
          line('jars', 'pint/regular', 12, 1),
          line('jars', 'pint/regular', 24, 2),
          line('jars', 'quart/wide', 90, 9),
          line('lids', 'regular', 10, null),
          line('supply', 'vinegar', 4, 1),
          line('supply', 'vinegar', 1, null),
          line('item', 'vinegar', 90, 9),
        ],
      ),
    ]);

    expect(found?.needs).toEqual([
      { ...needs.jars, onList: { quantity: 36, packs: 3 } },
      { ...needs.lids, onList: { quantity: 10, packs: null } },
      { ...needs.vinegar, onList: { quantity: 5, packs: 1 } },
    ]);
  });

  describe('for which the list buys in a week before', () => {
    const jars = (quantity: number) => ({
      kind: 'jars',
      what: 'pint/regular',
      quantity,
      packs: { id: 'pack', count: quantity / 12 },
    });
    const canning = (over: object = {}) => week('2026-W36', [session('salsa-pints', over)]);
    const jarsOf = (weeks: readonly PlannedWeek[], facts: object = {}) =>
      sessionsOf(weeks, facts).find((one) => one.week === '2026-W36')?.needs[0]?.onList;
    const asTheList = (bought: PlannedWeek, weeks: readonly PlannedWeek[]) =>
      fetchDays(bought.purchases[0] as PlannedWeek['purchases'][number], bought, {
        plan: given({ weeks }),
        year: given({ sources: [], supplies: [], recipes: [] }),
        hours: given(hours),
        weekStartsOn: 'monday',
      })[0].by;

    test.each(['2026-W34', '2026-W35'])('in %s, say its day and its packs', (bought) => {
      const early = week(bought, [], [jars(24)]);
      const weeks = [early, canning()];

      expect(jarsOf(weeks)).toEqual({ quantity: 24, packs: 2, by: asTheList(early, weeks) });
      const shortfall = missingBySession(sessionsOf(weeks), {});
      expect(shortfall[0]?.buyBy).toBe(asTheList(early, weeks));
    });

    test('leave to the canning between what that takes, and to the past what is over', () => {
      const between = week('2026-W35', [session('salsa-pints')]);

      expect(jarsOf([week('2026-W34', [], [jars(24)]), between, canning()])).toBeUndefined();
      expect(jarsOf([week('2026-W33', [], [jars(24)]), canning()])).toBeUndefined();
    });

    test('leave out what was bought of it', () => {
      const purchases = [{ kind: 'jars', what: 'pint/regular', week: '2026-W34', decision: 'bought' }];

      expect(jarsOf([week('2026-W34', [], [jars(24)]), canning()], { purchases })).toBeUndefined();
    });
  });

  test('say no pack where none is known', () => {
    const [found] = sessionsOf([week('2026-W34', [session('salsa-pints')])], {
      jars: [{ kind: 'pint/regular', empty: 0, pack: 0 }],
      lids: [],
    });

    expect(found?.needs.slice(0, 2)).toEqual([
      { name: 'pint jars, regular mouth', quantity: 18, unit: null, takenBy },
      { name: 'new regular lids', quantity: 18, unit: null, takenBy },
    ]);
  });

  test('do not ask for what was said not to be bought by then', () => {
    const skip = (kind: string, what: string, key = '2026-W34', decision = 'skipped') => ({
      kind,
      what,
      week: key,
      decision,
    });
    const names = (...purchases: readonly object[]) =>
      sessionsOf([week('2026-W34', [session('salsa-pints')])], { purchases })[0]?.needs.map(
        ({ name }) => name,
      );
    const all = ['pint jars, regular mouth', 'new regular lids', 'vinegar'];

    expect(names(skip('jars', 'pint/regular'))).toEqual(all.slice(1));
    expect(names(skip('lids', 'regular', '2026-W33'))).toEqual([all[0], all[2]]);
    expect(names(skip('supply', 'vinegar'))).toEqual(all.slice(0, 2));
    expect(names(skip('supply', 'chicken'))).toEqual(all);
    expect(names(skip('supply', 'never-heard-of'))).toEqual(all);
    expect(names(skip('jars', 'pint/regular', '2026-W35'))).toEqual(all);
    expect(names(skip('jars', 'pint/regular', '2026-W34', 'bought'))).toEqual(all);
    expect(
      names(skip('jars', 'pint/regular'), skip('lids', 'regular'), skip('supply', 'vinegar')),
    ).toBeUndefined();
  });

  test('whose first step comes before the canning day are bought for before it', () => {
    const soak = { plannedOn: '2026-08-22', calendar: { before: [{ on: '2026-08-20', state: 'ahead' }] } };
    const whole = {
      key: 'b',
      recipe: salsaRecipe,
      begunId: null,
      calendar: { ...soak.calendar, state: 'ahead', load: null, fill: null },
      plannedOn: soak.plannedOn,
    };
    whole.calendar.before = [
      given({ on: '2026-08-20', state: 'ahead', stage: { position: 1, what: 'soak', leastHours: 12 } }),
    ];
    const [found] = sessionsOf([week('2026-W34', [session('salsa-pints')])], {}, { batches: [given(whole)] });

    expect(found).toMatchObject({ on: '2026-08-20', isBegunBefore: true, lastDay: '2026-08-22' });
  });

  test('of a week whose days are past are not asked about', () => {
    const monday = {
      ...hours,
      sessionWeekday: 1,
      sessionsPerWeek: 1,
      rules: [{ id: 'mondays', weekday: 1, which: 'every', hours: 5 }],
    };

    expect(sessionsOf([week('2026-W34', [session('salsa-pints')])], { hours: monday })).toEqual([]);
  });

  test('of which today is the day are asked about today', () => {
    const wednesday = {
      ...hours,
      sessionWeekday: 3,
      rules: [{ id: 'wednesdays', weekday: 3, which: 'every', hours: 5 }],
    };

    expect(sessionsOf([week('2026-W34', [session('salsa-pints')])], { hours: wednesday })).toMatchObject([
      { on: '2026-08-19', lastDay: '2026-08-19' },
    ]);
  });

  test('what is on hand goes by the names of the needs', () => {
    expect(picture(stock).onHand).toEqual({
      'quart jars, wide mouth': 2,
      'pint jars, regular mouth': 5,
      'new wide lids': 1,
      'new regular lids': 9,
      vinegar: 3,
      chicken: 0,
    });
  });
});

describe('what spoils', () => {
  const year = {
    sources: [],
    supplies: [{ id: 'chicken', freshDays: 2 }],
    recipes: [
      {
        id: 'salsa-pints',
        jarKind: 'pint/regular',
        supplies: [{ supplyId: 'chicken', quantity: 4 }],
        produce: [],
      },
      {
        id: 'unknown',
        jarKind: 'pint/regular',
        supplies: [{ supplyId: 'chicken', quantity: 1 }],
        produce: [],
      },
    ],
  };
  const line = { kind: 'supply', what: 'chicken', quantity: 8, unit: 'lb', packs: null, cost: 0 };
  const freshOf = (purchase: object, recipe = 'salsa-pints', facts: object = {}) =>
    picture(facts, { plan: planOf([week('2026-W34', [session(recipe)], [purchase])], [], year) }).fresh;

  test('is bought on days of its own', () => {
    expect(freshOf(line)).toEqual([
      {
        week: '2026-W34',
        need: { name: 'chicken', quantity: 8, unit: { one: 'lb', many: 'lb (several)' } },
        notBefore: '2026-08-20',
        by: '2026-08-21',
        forDay: '2026-08-22',
        keepsDays: 2,
        makes: ['Salsa in pints'],
      },
    ]);
  });

  test('is named by its recipe’s key where the recipe is gone, and not at all where it is no supply any more', () => {
    expect(freshOf({ ...line, quantity: 2 }, 'unknown').map(({ makes }) => makes)).toEqual([['unknown']]);
    expect(freshOf(line, 'salsa-pints', { supplies: [] })).toEqual([]);
  });
});

test('batches are told with the days before their load', () => {
  const batch = (over: object, calendar: object) => ({
    key: 'hominy-1',
    recipe: { name: 'Hominy' },
    begunId: null,
    plannedOn: '2026-08-22',
    calendar: { state: 'ahead', before: [], load: null, fill: null, ...calendar },
    ...over,
  });
  const day = (leastHours: number) => ({
    on: '2026-08-21',
    state: 'ahead',
    stage: { position: 2, what: 'soak', leastHours },
  });

  expect(
    picture(
      {},
      {
        batches: [
          given(batch({}, {})),
          given(
            batch(
              { begunId: 'begun', plannedOn: null },
              {
                state: 'waiting',
                before: [day(12), day(0)],
                load: { on: '2026-08-22' },
                fill: { from: '2026-08-22T08:00', until: '2026-08-22T20:00' },
              },
            ),
          ),
        ],
      },
    ).batches,
  ).toEqual([
    {
      batchKey: 'hominy-1',
      name: 'Hominy',
      isBegun: false,
      state: 'ahead',
      plannedOn: '2026-08-22',
      loadOn: null,
      fillFrom: null,
      fillUntil: null,
      days: [],
    },
    {
      batchKey: 'hominy-1',
      name: 'Hominy',
      isBegun: true,
      state: 'waiting',
      plannedOn: null,
      loadOn: '2026-08-22',
      fillFrom: '2026-08-22T08:00',
      fillUntil: '2026-08-22T20:00',
      days: [
        { position: 2, what: 'soak', on: '2026-08-21', state: 'ahead', waits: true },
        { position: 2, what: 'soak', on: '2026-08-21', state: 'ahead', waits: false },
      ],
    },
  ]);
});

test('a canner says for which day and what its gauge has to be checked again', () => {
  const dial = {
    id: 'dial',
    name: 'Old pressure',
    method: 'pressure',
    gauge: 'dial',
    gaugeCheckedOn: '2025-08-30',
  };
  const pot = { id: 'pot', name: 'Pot', method: 'boiling-water', gauge: null, gaugeCheckedOn: null };
  const canners = [
    { ...dial, gaugeOff: null, volumeQuarts: null, holds: { quarts: 7, pints: 9, halfPints: 9 } },
    pot,
  ];
  const plan = planOf([week('2026-W38', [session('salsa-pints', { canner: 'dial' })])]);

  expect(picture({ canners }, { plan }).canners).toEqual([
    {
      cannerId: 'dial',
      name: 'Old pressure',
      gauge: 'dial',
      gaugeCheckedOn: '2025-08-30',
      checkNeededFor: { on: '2026-09-19', makes: ['Salsa in pints'] },
    },
    { cannerId: 'pot', name: 'Pot', gauge: null, gaugeCheckedOn: null, checkNeededFor: null },
  ]);
  expect(picture({ canners }).canners[0]?.checkNeededFor).toBeNull();
});

describe('what could not be met', () => {
  const wish = (over: object): Wish =>
    given({ rung: 'use', what: 'salsa', amount: 4.4, unit: 'units', ...over });
  const toldOf = (over: object, facts: object = {}, items: readonly Walked[] = []) =>
    picture(facts, {
      plan: planOf([], [wish(over)]),
      items: items.map((one) => ({ ...one, lots: [] })),
    }).gaveWay.map((told) => ({
      ...told,
      name: readOut(told.name, plainReader),
      words: readOut(told.words, plainReader),
    }));

  test('of an item is told by its name, in its own jar', () => {
    expect(toldOf({})).toEqual([
      {
        rung: 'use',
        key: 'salsa',
        isPreserve: true,
        name: 'Salsa',
        amount: 4.4,
        words: '4.4 several pint/regular',
      },
    ]);
    expect(toldOf({}, { items: [{ ...salsa, usualJar: null }] })[0]?.words).toBe('4 jars');
    expect(toldOf({}, { items: [{ ...salsa, unit: 'lb' }] })[0]?.words).toBe('4.4 lb');
    expect(toldOf({ what: 'beans', amount: 1 })).toMatchObject([
      { isPreserve: false, name: 'Dry beans', words: '1 bag' },
    ]);
  });

  test('is as many units as the item’s walk through the year says', () => {
    const walked = [
      given<Walked>({
        item: { ...salsa, retiredOn: '2026-01-01' },
        walk: { missing: 9, reserve: 2 },
        gaps: [],
      }),
    ];

    const other = given<Walked>({
      item: { ...beans, retiredOn: '2026-01-01' },
      walk: { missing: 1, reserve: 1 },
      gaps: [],
    });

    expect(toldOf({}, {}, [other, ...walked])[0]?.amount).toBe(7);
    expect(toldOf({ rung: 'reserve' }, {}, walked)[0]?.amount).toBe(2);
  });

  test('is bare where the year has weeks without any to eat, though the walk misses nothing', () => {
    const walked = (gaps: readonly object[]) => [
      given<Walked>({
        item: { ...salsa, retiredOn: '2026-01-01' },
        walk: { missing: 0, reserve: 2 },
        gaps,
      }),
    ];
    const bare = walked([{ from: 6, until: 15 }]);

    expect(toldOf({}, {}, bare)[0]).toMatchObject({ amount: 0, isBare: true });
    expect(toldOf({}, {}, walked([]))[0]).not.toHaveProperty('isBare');
    expect(toldOf({ rung: 'reserve' }, {}, bare)[0]).not.toHaveProperty('isBare');
  });

  test.each([
    ['a group', { what: 'sauces', unit: 'units' }, 'Sauces', '3 units'],
    ['a source', { what: 'bed', unit: 'lb' }, 'South bed', '3 lb'],
    ['a kind of a group', { what: 'sauces', unit: 'kinds' }, 'Sauces', '3 kinds'],
    ['one kind of a group', { what: 'sauces', unit: 'kinds', amount: 1 }, 'Sauces', '1 kind'],
    ['one unit of a group', { what: 'sauces', unit: 'units', amount: 1 }, 'Sauces', '1 unit'],
    ['something like a week', { what: 'x2026-W36', unit: 'units' }, 'x2026-W36', '3 units'],
    ['something that begins like one', { what: '2026-W36x', unit: 'units' }, '2026-W36x', '3 units'],
    ['something unknown', { what: 'gone', unit: 'crates' }, 'gone', '3 crates'],
    ['a week', { what: '2026-W36', unit: 'units' }, 'the week of Aug 31, 2026', '3 units'],
    [
      'batches',
      { what: 'x', unit: 'batches', batches: { recipe: 'relish', pinnedIn: null, begunOn: null } },
      'Relish',
      '3 batches',
    ],
    [
      'a batch chosen for a week',
      {
        what: 'x',
        amount: 1,
        unit: 'batches',
        batches: { recipe: 'relish', pinnedIn: '2026-W36', begunOn: null },
      },
      'Relish in the week of Aug 31, 2026',
      '1 batch',
    ],
    [
      'batches begun, of a recipe that is gone',
      {
        what: 'x',
        unit: 'batches',
        batches: { recipe: 'lost', pinnedIn: '2026-W36', begunOn: '2026-08-17' },
      },
      'lost begun on Aug 17, 2026',
      '3 batches',
    ],
  ])('of %s', (_, over, name, words) => {
    const facts: Partial<Record<keyof Facts, unknown>> = {
      groups: [{ id: 'sauces', name: 'Sauces' }],
      sources: [{ id: 'bed', name: 'South bed', crop: 'tomato' }],
    };
    const [found] = toldOf({ amount: 3, ...over }, facts);

    expect(found).toMatchObject({ name, words });
    expect(found).not.toHaveProperty('isMoney');
    expect(found).not.toHaveProperty('isPreserve');
  });

  test('in money is told in money, not in cents', () => {
    expect(toldOf({ rung: 'cash and hours', what: '2026-W36', amount: 1250, unit: 'cents' })).toMatchObject([
      { amount: 1250, isMoney: true, words: 'money 1250' },
    ]);
  });
});
