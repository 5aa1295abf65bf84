import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, addWeeks, asDate, asWeek, mondayOf, weekOf } from '../../shared/week.ts';
import { plainReader, readOut } from '../../src/notices/marks.ts';
import { missingBySession } from '../../src/notices/missing-by-session.ts';
import { defaultNoticeSettings, type NoticeKind, noticeKinds } from '../../src/notices/notice.ts';
import type { NoticePicture, NoticeSession } from '../../src/notices/notice-picture.ts';
import { amountWords } from '../../src/notices/notice-words.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, jars, peaches, plumJam, plums, quietPantry } from './pantry.ts';

const noticesOf = (facts: Partial<NoticePicture>) => noticesFor(quietPantry(facts), defaultNoticeSettings);
const thisWeek = weekOf(asOf);
const lb = { one: 'lb', many: 'lb' };

test('a pantry in order is quiet', () => {
  expect(
    noticesOf({
      lots: [peaches({ bestQualityUntil: addDays(asOf, 200) })],
      items: [plumJam()],
      windows: [plums()],
    }),
  ).toEqual([]);
});

describe('running out before it can be made again', () => {
  const soon = addWeeks(thisWeek, 5);

  test('says when, what is left, at what pace, and when there can be more', () => {
    const [notice] = noticesOf({ items: [plumJam({ runsOutIn: soon, nextSupplyWeek: asWeek('2027-W33') })] });

    expect(notice).toEqual({
      kind: 'runs out',
      subject: 'item:plum-jam',
      reason:
        'Plum jam will likely run out in the week of Dec 28, 2026: 5 jars left, and you eat about 1 jar a week. You can make more in the week of Aug 16, 2027: eat it more slowly, or fill the gap with something else.',
      dueOn: mondayOf(soon),
    });
  });

  test.each([
    ['lasts until its supply', { runsOutIn: soon, nextSupplyWeek: soon }],
    ['is months away', { runsOutIn: addWeeks(thisWeek, 9) }],
    ['may run out but likely does not', { runsOutIn: null }],
    ['is eaten by nobody', { runsOutIn: soon, usePerWeek: 0 }],
  ])('is not said of what %s', (_, facts) => {
    expect(noticesOf({ items: [plumJam(facts)] })).toEqual([]);
  });

  test('an empty shelf is a fact without a date, and a rare taste is told in weeks', () => {
    const [notice] = noticesOf({
      items: [
        plumJam({
          onShelf: 0,
          usePerWeek: 0.2,
          runsOutIn: addWeeks(thisWeek, 2),
        }),
      ],
    });

    expect(notice?.dueOn).toBeNull();
    expect(notice?.reason).toBe(
      'Plum jam: none left, and you would eat about one every 5 weeks. Nothing in the plan brings more within the year.',
    );
  });
});

describe('eaten at another pace than before', () => {
  test('is asked without a day by which it matters, small figures in weeks', () => {
    expect(
      noticesOf({ items: [plumJam({ suspectedHabit: { perWeekBefore: 1, perWeek: 2.14, weeks: 10 } })] }),
    ).toEqual([
      {
        kind: 'appetite changed',
        subject: 'item:plum-jam',
        reason:
          'Plum jam: you ate about 2 jars a week over the last 10 weeks that counted, against about 1 jar a week before. If that is a new habit, say so, and what you ate before no longer counts.',
        dueOn: null,
      },
    ]);
    expect(
      noticesOf({ items: [plumJam({ suspectedHabit: { perWeekBefore: 1, perWeek: 0.21, weeks: 8 } })] })[0]
        ?.reason,
    ).toMatch(/^Plum jam: you ate about one every 5 weeks over the last 8 weeks/);
  });

  test('or in one full week, or in some months, is asked about too, one question an item', () => {
    const fullWeek = { week: asWeek('2026-W33'), taken: 13 };
    const season = { months: [6, 7, 8] };
    const reasons = (facts: Parameters<typeof plumJam>[0]) =>
      noticesOf({ items: [plumJam({ usePerWeek: 1, ...facts })] })
        .filter(({ kind }) => kind === 'appetite changed')
        .map(({ reason }) => reason);

    expect(reasons({ suspectedOccasion: fullWeek, suspectedSeason: season })).toEqual([
      expect.stringMatching(
        /^Plum jam: you took 13 jars in the week of Aug \d+, 2026, and about 1 jar a week is usual\. Was it an occasion\?/,
      ),
    ]);
    expect(reasons({ suspectedSeason: season })).toEqual([
      'Plum jam: you ate most of it from June to August. Is it like that every year? If you say so, the plan counts on it from now on.',
    ]);
    expect(reasons({ suspectedSeason: { months: [12] } })[0]).toContain('ate most of it in December.');
  });
});

describe('a harvest', () => {
  const on = (day: string, facts = {}) => noticesOf({ asOf: asDate(day), windows: [plums(facts)] });

  test('is announced two weeks before it begins, with this year’s shift', () => {
    expect(on('2026-07-26')).toEqual([]);
    expect(on('2026-07-27', { shiftDays: -9 })).toEqual([
      {
        kind: 'harvest opens',
        subject: 'source:hill-orchard-plums:2026',
        reason:
          'Plums from the hill orchard start about Aug 10, 2026, 9 days earlier than usual this year. You plan to make plum jam from them.',
        dueOn: '2026-08-10',
      },
    ]);
  });

  test('of a source that is named for its crop is named once', () => {
    for (const sourceName of ['Plums at the market', 'plums, pick your own', 'The hill’s Plums'])
      expect(on('2026-07-27', { sourceName })[0]?.reason).toBe(
        `${sourceName[0]?.toUpperCase()}${sourceName.slice(1)} start about Aug 10, 2026. You plan to make plum jam from them.`,
      );
  });

  test('is announced again ten days before its last day, with what is still to make', () => {
    expect(on('2026-08-26')).toEqual([]);
    expect(on('2026-08-27', { shiftDays: 1 })[0]?.reason).toBe(
      'Plums from the hill orchard end about Sep 6, 2026, 1 day later than usual this year. Still to make: plum jam.',
    );
    expect(on('2026-09-07')).toEqual([]);
  });

  test('nobody waits for is left alone', () => {
    expect(on('2026-08-01', { wantedFor: [] })).toEqual([]);
  });
});

describe('what a session needs', () => {
  const august = asWeek('2026-W34');
  const jamDay: NoticeSession = {
    week: august,
    on: asDate('2026-08-22'),
    buyBy: asDate('2026-08-20'),
    lastDay: asDate('2026-08-22'),
    isBegunBefore: false,
    makes: ['plum jam'],
    needs: [
      { name: 'sugar', quantity: 21, unit: lb },
      { name: 'half-pint jars', quantity: 24, unit: null },
    ],
  };

  test('is to be bought by the shopping day before it, told ten days ahead', () => {
    const on = (day: string) =>
      noticesOf({ asOf: asDate(day), sessions: [jamDay], onHand: { 'half-pint jars': 4, sugar: 5 } });

    expect(on('2026-08-09')).toEqual([]);
    expect(on('2026-08-10')).toEqual([
      {
        kind: 'buy for a session',
        subject: 'week:2026-W34',
        reason:
          'Buy 20 half-pint jars and 16 lb of sugar by Aug 20, 2026, for plum jam, put up on Aug 22, 2026.',
        dueOn: '2026-08-20',
      },
    ]);
    expect(on('2026-08-21').map(({ dueOn }) => dueOn)).toEqual(['2026-08-21']);
    expect(on('2026-08-22').map(({ reason, dueOn }) => [reason, dueOn])).toEqual([
      ['Buy 20 half-pint jars and 16 lb of sugar before you put up plum jam this week.', '2026-08-22'],
    ]);
    expect(on('2026-08-23')).toEqual([]);
  });

  test('is said as the shopping list says it, else in the whole packs it takes', () => {
    const beanDay: NoticeSession = {
      ...jamDay,
      on: asDate('2026-08-21'),
      isBegunBefore: true,
      makes: ['canned beans'],
      needs: [
        { name: 'dry pinto beans', quantity: 3.3, unit: lb, pack: 4 },
        { name: 'salt', quantity: 1.2, unit: lb, pack: 1, onList: { quantity: 3, packs: 3 } },
      ],
    };

    const [notice] = noticesOf({ asOf: asDate('2026-08-12'), sessions: [beanDay] });

    expect(notice?.reason).toBe(
      'Buy 4 lb of dry pinto beans (1 pack) and 3 lb of salt (3 packs) by Aug 20, 2026, for canned beans, begun on Aug 21, 2026.',
    );
  });

  test('is said for what takes it alone: of a day with jam and frozen beans sugar is for the jam', () => {
    const both: NoticeSession = {
      ...jamDay,
      makes: ['Frozen beans', 'plum jam', 'relish'],
      needs: [
        { name: 'sugar', quantity: 21, unit: lb, takenBy: ['plum jam'] },
        { name: 'vinegar', quantity: 2, unit: lb, takenBy: ['relish'] },
      ],
    };
    const reasonWith = (onHand: Readonly<Record<string, number>>) =>
      noticesOf({ asOf: asDate('2026-08-12'), sessions: [both], onHand })[0]?.reason;

    expect(reasonWith({ vinegar: 2 })).toBe(
      'Buy 21 lb of sugar by Aug 20, 2026, for plum jam, put up on Aug 22, 2026.',
    );
    expect(reasonWith({})).toContain('for plum jam and relish, put up on');
  });

  test('what is over in a pack bought for one week serves the next: a pack of salt is not bought for each crock', () => {
    const crock = (week: NoticeSession['week'], on: string, quantity: number): NoticeSession => ({
      ...jamDay,
      week,
      on: asDate(on),
      buyBy: addDays(asDate(on), -2),
      lastDay: asDate(on),
      makes: ['Sauerkraut'],
      needs: [{ name: 'canning salt', quantity, unit: lb, pack: 3 }],
    });
    const sessions = [
      crock(august, '2026-08-22', 0.5),
      crock(addWeeks(august, 1), '2026-08-29', 2),
      crock(addWeeks(august, 2), '2026-09-05', 1),
    ];
    const reasons = (onHand: Readonly<Record<string, number>>) =>
      noticesOf({ asOf: asDate('2026-08-20'), sessions, onHand }).map(({ subject, reason }) => [
        subject,
        reason.slice(0, reason.indexOf(' by ')),
      ]);

    expect(reasons({})).toEqual([['week:2026-W34', 'Buy 3 lb of canning salt (1 pack)']]);
    expect(
      noticesOf({
        asOf: asDate('2026-08-30'),
        sessions: sessions.slice(1),
        onHand: { 'canning salt': 2.5 },
      }).map(({ subject }) => subject),
    ).toEqual(['week:2026-W36']);
  });

  test('raw meat is bought neither earlier nor with the rest, and is told of the day before', () => {
    const frames = {
      week: august,
      need: { name: 'chicken frames', quantity: 10, unit: lb },
      notBefore: asDate('2026-08-20'),
      by: asDate('2026-08-21'),
      forDay: asDate('2026-08-22'),
      keepsDays: 2,
      makes: ['Chicken stock'],
    };
    const on = (day: string) => noticesOf({ asOf: asDate(day), fresh: [frames] });

    expect(on('2026-08-10')).toEqual([]);
    expect(on('2026-08-18')).toEqual([]);
    expect(on('2026-08-19')).toEqual([
      {
        kind: 'buy for a session',
        subject: 'fresh:2026-W34',
        reason:
          'Buy 10 lb of chicken frames between Aug 20, 2026 and Aug 21, 2026 (it keeps 2 days at most), not earlier, for Chicken stock in the week of Aug 17, 2026.',
        dueOn: '2026-08-21',
      },
    ]);
    expect(on('2026-08-22')).toHaveLength(1);
    expect(on('2026-08-23')).toEqual([]);
  });

  test('what an earlier week uses up is missing in the later one', () => {
    const later = { ...jamDay, week: addWeeks(august, 1), makes: ['peach jam'] };

    const missing = missingBySession([later, jamDay], { sugar: 30, 'half-pint jars': 100 });

    expect(missing.map((each) => each.missing.map((need) => [need.name, need.quantity]))).toEqual([
      [],
      [['sugar', 12]],
    ]);
  });

  test('what is on hand and what is bought cover all needs exactly', () => {
    const session = fc.record({
      week: fc.nat(6).map((week) => addWeeks(august, week)),
      on: fc.constant(jamDay.on),
      buyBy: fc.constant(jamDay.buyBy),
      lastDay: fc.constant(jamDay.lastDay),
      isBegunBefore: fc.boolean(),
      makes: fc.constant(['jam']),
      needs: fc.array(
        fc.record({ name: fc.constantFrom('sugar', 'lids'), quantity: fc.nat(40), unit: fc.constant(lb) }),
        { maxLength: 4 },
      ),
    });
    fc.assert(
      fc.property(fc.array(session, { maxLength: 8 }), fc.nat(100), (sessions, sugar) => {
        const needed = sessions
          .flatMap((each) => each.needs)
          .filter((need) => need.name === 'sugar')
          .reduce((sum, need) => sum + need.quantity, 0);

        const bought = missingBySession(sessions, { sugar })
          .flatMap((each) => each.missing)
          .filter((need) => need.name === 'sugar')
          .reduce((sum, need) => sum + need.quantity, 0);

        expect(bought).toBe(Math.max(0, needed - sugar));
        expect(missingBySession([...sessions].reverse(), { sugar })).toEqual(
          missingBySession(sessions, { sugar }),
        );
      }),
    );
  });
});

describe('a wish that gave way', () => {
  test('less than a whole jar short over a year is no notice, money always is', () => {
    const told = noticesOf({
      gaveWay: [
        { rung: 'use', key: 'plum-jam', name: 'Plum jam', amount: 0.9, words: '1 jar' },
        { rung: 'use', key: 'peach-jam', name: 'Peach jam', amount: 1, words: '1 jar' },
        {
          rung: 'cash and hours',
          key: '2026-W40',
          name: 'the week of Sep 28, 2026',
          amount: 50,
          isMoney: true,
          words: '$0.50',
        },
      ],
    });

    expect(told.map(({ reason }) => reason)).toEqual([
      'Peach jam will be short. The plan needs $0.50 more in the week of Sep 28, 2026 than you have set aside by then.',
    ]);
  });

  test('where only a reserve is short, nothing is said to be missing', () => {
    const [notice] = noticesOf({
      gaveWay: [{ rung: 'reserve', key: 'plum-jam', name: 'Plum jam', amount: 4, words: '4 jars' }],
    });

    expect(notice?.reason).toBe('You can eat everything as planned; only the reserve of Plum jam is short.');
  });

  // Before, every wish was a notice: 29 of 51 in an ordinary November, some saying the opposite of each other.
  test('however much gives way, it is one notice that names each thing once and contradicts nothing', () => {
    const rungs = ['family minimum', 'use', 'reserve', 'variety'] as const;
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            rung: fc.constantFrom(...rungs),
            food: fc.integer({ min: 0, max: 12 }),
            amount: fc.double({ min: 1, max: 300, noNaN: true }),
          }),
          { minLength: 1, maxLength: 60 },
        ),
        (wishes) => {
          const told = noticesOf({
            gaveWay: wishes.map(({ rung, food, amount }) => ({
              rung,
              key: `food-${food}`,
              name: `Food ${String.fromCharCode(65 + food)}`,
              isPreserve: true,
              amount,
              words: `${amount} jars`,
            })),
          });

          expect(told).toHaveLength(1);
          const { reason = '' } = told[0] ?? {};
          const shortOf = new Set(
            wishes.filter(({ rung }) => rung === 'use' || rung === 'family minimum').map(({ food }) => food),
          );
          expect(reason.includes('You can eat everything as planned')).toBe(shortOf.size === 0);
          if (shortOf.size > 1) expect(reason).toContain(`${shortOf.size} preserves will be short: `);
          for (const food of 'ABCDEFGHIJKLM')
            expect(reason.split(`Food ${food}`).length).toBeLessThanOrEqual(2);
          expect(reason).not.toMatch(/\d\.\d/);
        },
      ),
    );
  });
});

describe('words of an amount', () => {
  test('what is counted is whole, what is measured has one decimal, and something is never nothing', () => {
    const lb = { one: 'lb', many: 'lb' };

    expect(amountWords(51.9, jars)).toBe('52 jars');
    expect(amountWords(1.2, jars)).toBe('1 jar');
    expect(amountWords(0.3, jars)).toBe('less than 1 jar');
    expect(readOut(amountWords(0.04, lb), plainReader)).toBe('less than 0.1 lb');
    expect(readOut(amountWords(2.46, lb), plainReader)).toBe('2.5 lb');
    expect(amountWords(0, jars)).toBe('0 jars');
  });
});

describe('the kitchen', () => {
  test('a dial gauge is to be checked within a year of its last check, and at once when it has none', () => {
    const canner = { cannerId: 'big-one', name: 'the big canner', gauge: 'dial' as const };

    const dueIn = (days: number) =>
      noticesOf({ canners: [{ ...canner, gaugeCheckedOn: addDays(asOf, days - 365) }] }).map(
        (each) => each.dueOn,
      );

    expect(dueIn(31)).toEqual([]);
    expect(dueIn(30)).toEqual([addDays(asOf, 30)]);
    expect(dueIn(-5)).toEqual([addDays(asOf, -5)]);
    expect(noticesOf({ canners: [{ ...canner, gaugeCheckedOn: null }] })[0]?.reason).toMatch(
      /No check of the dial gauge/,
    );
    expect(noticesOf({ canners: [{ ...canner, gauge: 'weighted', gaugeCheckedOn: null }] })).toEqual([]);
  });

  test('a gauge check that a planned canning day needs is due the day before it, and says for what', () => {
    const canner = {
      cannerId: 'big-one',
      name: 'the big canner',
      gauge: 'dial' as const,
      gaugeCheckedOn: addDays(asOf, -360),
      checkNeededFor: { on: addDays(asOf, 40), makes: ['green beans', 'sweet corn'] },
    };

    const [notice, ...others] = noticesOf({ canners: [canner] });

    expect(others).toEqual([]);
    expect(notice?.dueOn).toBe(addDays(asOf, 39));
    expect(notice?.reason).toMatch(/counts on a new check before .*, for green beans and sweet corn/);
    expect(notice?.reason).toMatch(/shows no time/);
  });

  test('an altitude of zero is known, none is not', () => {
    expect(noticesOf({ altitudeFt: 0 })).toEqual([]);
    expect(noticesOf({ altitudeFt: null })[0]?.kind).toBe('altitude unknown');
  });
});

const busy = fc
  .record({
    day: fc.integer({ min: 0, max: 900 }),
    lots: fc.uniqueArray(
      fc.record({ id: fc.nat(30), made: fc.nat(900), left: fc.nat(9), aside: fc.boolean() }),
      { selector: (lot) => lot.id, maxLength: 8 },
    ),
    items: fc.uniqueArray(
      fc.record({
        id: fc.nat(30),
        out: fc.option(fc.nat(20)),
        supply: fc.option(fc.nat(60)),
        onShelf: fc.nat(9),
        habit: fc.option(
          fc.record({
            perWeekBefore: fc.double({ min: 0.01, max: 20, noNaN: true }),
            perWeek: fc.double({ min: 0.01, max: 20, noNaN: true }),
            weeks: fc.integer({ min: 8, max: 13 }),
          }),
        ),
      }),
      { selector: (item) => item.id, maxLength: 8 },
    ),
    windows: fc.uniqueArray(
      fc.record({
        id: fc.nat(9),
        begins: fc.nat(900),
        lasts: fc.integer({ min: 1, max: 60 }),
        shift: fc.integer({ min: -20, max: 20 }),
      }),
      { selector: (window) => window.id, maxLength: 5 },
    ),
    sessions: fc.array(fc.record({ week: fc.nat(60), sugar: fc.nat(30) }), { maxLength: 6 }),
    altitudeFt: fc.option(fc.nat(9000)),
  })
  .map(({ day, lots, items, windows, sessions, altitudeFt }): NoticePicture => {
    const start = asDate('2025-06-01');
    const today = addDays(start, day);
    return quietPantry({
      asOf: today,
      weekStartsOn: 'sunday',
      altitudeFt,
      lots: lots.map((lot) =>
        peaches({
          lotId: `lot-${lot.id}`,
          madeOn: addDays(start, lot.made),
          left: lot.left,
          setAside: lot.aside ? { reason: 'acid forgotten', on: today } : null,
        }),
      ),
      items: items.map((item) =>
        plumJam({
          itemId: `item-${item.id}`,
          onShelf: item.onShelf,
          suspectedHabit: item.habit,
          runsOutIn: item.out === null ? null : addWeeks(weekOf(today), item.out),
          nextSupplyWeek: item.supply === null ? null : addWeeks(weekOf(today), item.supply),
        }),
      ),
      windows: windows.map((window) =>
        plums({
          sourceId: `source-${window.id}`,
          beginsOn: addDays(start, window.begins),
          endsOn: addDays(start, window.begins + window.lasts),
          shiftDays: window.shift,
        }),
      ),
      sessions: sessions.map((session) => ({
        week: addWeeks(weekOf(today), session.week),
        on: addDays(today, 7 * session.week + 5),
        buyBy: addDays(today, 7 * session.week + 3),
        lastDay: addDays(today, 7 * session.week + 5),
        isBegunBefore: false,
        makes: ['plum jam'],
        needs: [{ name: 'sugar', quantity: session.sugar, unit: lb }],
      })),
      canners: [{ cannerId: 'canner', name: 'the canner', gauge: 'dial', gaugeCheckedOn: start }],
    });
  });

describe('in every pantry', () => {
  test('a kind and subject come once, each reason is whole sentences, dates in order', () => {
    fc.assert(
      fc.property(busy, (picture) => {
        const notices = noticesFor(picture, defaultNoticeSettings);

        const keys = notices.map((notice) => `${notice.kind} ${notice.subject}`);
        expect(new Set(keys).size).toBe(keys.length);
        for (const notice of notices) {
          expect(notice.reason).toMatch(/^[A-Z].*\.$/s);
          expect(notice.reason).not.toMatch(/undefined|NaN|null|\bp\d\d\b|quantile/);
        }
        const dates = notices.map((notice) => notice.dueOn ?? '');
        expect(dates).toEqual([...dates].sort());
      }),
    );
  });

  test('the order of lots, items, windows and sessions changes nothing', () => {
    fc.assert(
      fc.property(busy, (picture) => {
        const turned = {
          ...picture,
          lots: [...picture.lots].reverse(),
          items: [...picture.items].reverse(),
          windows: [...picture.windows].reverse(),
          sessions: [...picture.sessions].reverse(),
        };

        expect(noticesFor(turned, defaultNoticeSettings)).toEqual(noticesFor(picture, defaultNoticeSettings));
      }),
    );
  });

  test('a kind that is switched off is silent and the others are not changed by it', () => {
    fc.assert(
      fc.property(busy, fc.constantFrom<NoticeKind[]>(...noticeKinds), (picture, off) => {
        const settings = { leadDays: { ...defaultNoticeSettings.leadDays, [off]: null } };

        expect(noticesFor(picture, settings)).toEqual(
          noticesFor(picture, defaultNoticeSettings).filter((notice) => notice.kind !== off),
        );
      }),
    );
  });
});

describe('what was never written down', () => {
  const unheard = (name: string, facts: object = {}) =>
    plumJam({
      itemId: name.toLowerCase().replaceAll(' ', '-'),
      itemName: name,
      onShelf: 0,
      runsOutIn: thisWeek,
      isOnRecord: false,
      ...facts,
    });
  const ten = ['Plum jam', 'Peaches', 'Salsa', 'Beets', 'Corn', 'Beans', 'Pears', 'Relish', 'Stock', 'Chili'];

  test('is asked about once in a new household, not once for each thing it eats', () => {
    const notices = noticesOf({ items: ten.map((name) => unheard(name)) });

    expect(notices).toEqual([
      {
        kind: 'not on record',
        subject: 'shelf',
        reason:
          'You have not written down yet what is on your shelf. Count it, or put in what you have: until then Beans, Beets, Chili and 7 more look as if there were none.',
        dueOn: null,
      },
    ]);
  });

  test('is named beside what is known, which keeps its own notice', () => {
    const notices = noticesOf({
      items: [unheard('Salsa'), unheard('Peaches'), plumJam({ onShelf: 0, runsOutIn: thisWeek })],
    });

    expect(notices.map(({ kind, subject }) => [kind, subject])).toEqual([
      ['not on record', 'shelf'],
      ['runs out', 'item:plum-jam'],
    ]);
    expect(notices[0]?.reason).toBe(
      'You have never written down any Peaches or Salsa. Count them, or put in what you have: until then it looks as if there were none.',
    );
  });

  test.each([
    [['A', 'B', 'C'], 'any A, B or C. Count them'],
    [['A', 'B', 'C', 'D', 'E'], 'any A, B, C or 2 more. Count them'],
  ])('is said of %s with or, as what there is none of', (names, words) => {
    const known = plumJam({ onShelf: 9 });

    expect(noticesOf({ items: [...names.map((name) => unheard(name)), known] })[0]?.reason).toContain(
      `You have never written down ${words}`,
    );
  });

  test('and nobody eats, or can be had before it would be missed, is left alone', () => {
    expect(
      noticesOf({
        items: [
          unheard('Salsa', { usePerWeek: 0 }),
          unheard('Peaches', { nextSupplyWeek: thisWeek }),
          unheard('Oats', { runsOutIn: null }),
        ],
      }),
    ).toEqual([]);
  });

  test('ends with the first thing written down of each', () => {
    const before = noticesOf({ items: [unheard('Salsa')] });
    const after = noticesOf({ items: [unheard('Salsa', { isOnRecord: true })] });

    expect([before, after].map((notices) => notices.map(({ kind }) => kind))).toEqual([
      ['not on record'],
      ['runs out'],
    ]);
  });
});
