import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { CannerId } from '../../shared/ids.ts';
import { addDays, addMonths, asDate, type CalendarDate } from '../../shared/week.ts';
import type { Canner } from '../../src/household/kitchen.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { dialCheckDays } from '../../src/preserving/canner.ts';
import { factNumber, factOf } from '../../src/preserving/citation.ts';
import {
  isDue,
  lookOverMonths,
  storedWater,
  type UpkeepDone,
  upkeepLines,
} from '../../src/preserving/upkeep.ts';
import { quietPantry } from '../notices/pantry.ts';

const { emergencyAdvice } = loadReferenceTables();
const canner = (id: string, over: Partial<Canner> = {}): Canner => ({
  id: id as CannerId,
  name: id,
  method: 'pressure',
  gauge: 'dial',
  gaugeCheckedOn: null,
  gaugeOff: null,
  volumeQuarts: null,
  holds: { quarts: 7, pints: 8, halfPints: 8 },
  ...over,
});
const done = (over: Partial<UpkeepDone> & { readonly doneOn: CalendarDate }): UpkeepDone => ({
  id: `on ${over.doneOn}`,
  kind: 'look-over',
  cannerId: 'pot' as CannerId,
  taskId: null,
  note: null,
  gaugeOff: null,
  by: null,
  ...over,
});
const none = { tasks: [], done: [] };

describe('what the guides ask for', () => {
  test('is asked of pressure canners alone, and a check of dial gauges alone', () => {
    const kitchen = [
      canner('dial'),
      canner('weight', { gauge: 'weighted' }),
      canner('unknown', { gauge: null }),
      canner('kettle', { method: 'boiling-water', gauge: null }),
      canner('steamer', { method: 'steam', gauge: null }),
    ];

    expect(upkeepLines(none, kitchen).map(({ key }) => key)).toEqual([
      'gauge.dial',
      'look-over.dial',
      'look-over.weight',
      'look-over.unknown',
    ]);
  });

  test('has the figures of the published table', () => {
    const { cannerFacts, sources } = loadReferenceTables();

    expect(factNumber(cannerFacts, 'pc.look_over_interval') * 12).toBe(lookOverMonths);
    expect(factNumber(cannerFacts, 'pc.dial_gauge_check_interval') * 365).toBe(dialCheckDays);
    for (const key of ['pc.look_over', 'pc.look_over_interval', 'pc.weighted_gauge_needs_check']) {
      const fact = factOf(cannerFacts, key);
      expect(fact.basis).toBe('read');
      expect(sources.map(({ sourceId }) => sourceId)).toContain(fact.sourceId);
    }
  });

  test('has no date while nothing is written down, and none is made up', () => {
    for (const line of upkeepLines(none, [canner('pot')]))
      expect([line.last, line.dueOn]).toEqual([null, null]);
  });

  test('is due a year after the last day it was done, whenever that was written down', () => {
    const upkeep = {
      tasks: [],
      done: [done({ doneOn: asDate('2026-04-18') }), done({ doneOn: asDate('2025-05-02') })],
    };
    const kitchen = [canner('pot', { gauge: 'weighted' })];
    const [line] = upkeepLines(upkeep, kitchen);

    expect(line?.last).toBe('2026-04-18');
    expect(line?.dueOn).toBe('2027-04-18');
    expect(line?.history.map(({ doneOn }) => doneOn)).toEqual(['2026-04-18', '2025-05-02']);
    expect(isDue({ dueOn: asDate('2027-04-18') }, asDate('2027-04-18'))).toBe(true);
    expect(isDue({ dueOn: asDate('2027-04-18') }, asDate('2027-04-17'))).toBe(false);
  });

  test('of a dial gauge is due on the last day its check counts for the gate', () => {
    const [line] = upkeepLines(none, [canner('pot', { gaugeCheckedOn: asDate('2026-03-01') })]);

    expect(line?.dueOn).toBe(addDays(asDate('2026-03-01'), dialCheckDays));
  });
});

test.each([1, 7, 12, 36, 240])(
  'a task of the household’s own comes again after its own %i months',
  (everyMonths) => {
    const task = {
      id: 'gasket',
      cannerId: 'pot' as CannerId,
      device: null,
      name: 'Put in another gasket',
      everyMonths,
    };
    const on = asDate('2026-01-31');
    const upkeep = {
      tasks: [task],
      done: [done({ kind: 'own', cannerId: null, taskId: 'gasket', doneOn: on })],
    };
    const line = upkeepLines(upkeep, [canner('pot')]).find(({ kind }) => kind === 'own');

    expect(line?.dueOn).toBe(addMonths(on, everyMonths));
  },
);

test('a task without an interval has no date, one of a canner that is gone no line, and other devices come last', () => {
  const own = { everyMonths: null, name: 'Check it' };
  const tasks = [
    { ...own, id: 'scale', cannerId: null, device: 'Scale' },
    { ...own, id: 'gone', cannerId: 'gone' as CannerId, device: null },
    { ...own, id: 'pot', cannerId: 'pot' as CannerId, device: null },
  ];
  const upkeep = {
    tasks,
    done: [done({ kind: 'own', cannerId: null, taskId: 'scale', doneOn: asDate('2026-02-01') })],
  };
  const lines = upkeepLines(upkeep, [canner('pot', { gauge: 'weighted' })]);

  expect(lines.map(({ key }) => key)).toEqual(['look-over.pot', 'own.pot', 'own.scale']);
  expect(lines.at(-1)).toMatchObject({ device: 'Scale', last: '2026-02-01', dueOn: null });
});

test('water that was filled at home is due after the months of the guide, and nothing is asked of a household that keeps none', () => {
  const filled = asDate('2026-03-10');
  const line = (kept: number | null, filledOn: CalendarDate | null) =>
    upkeepLines(none, [], storedWater({ waterGallons: kept, waterFilledOn: filledOn }, emergencyAdvice));

  // CDC: water not bought in a store is replaced every six months (read).
  expect(line(12, filled)).toMatchObject([{ key: 'water', last: filled, dueOn: '2026-09-10' }]);
  expect(line(12, null)).toMatchObject([{ key: 'water', last: null, dueOn: null }]);
  expect(line(0, filled)).toEqual([]);
  expect(line(null, null)).toEqual([]);
});

describe('the notice', () => {
  const asOf = asDate('2026-11-25');
  const told = (lastDone: CalendarDate | null, everyMonths: number | null = 12) => {
    const task = { id: 'scale', cannerId: null, device: 'Kitchen scale', name: 'Check it', everyMonths };
    const all =
      lastDone === null ? [] : [done({ kind: 'own', cannerId: null, taskId: 'scale', doneOn: lastDone })];
    const upkeep = upkeepLines({ tasks: [task], done: all }, [
      canner('pot', { gaugeCheckedOn: asDate('2024-01-01') }),
    ]);
    return noticesFor(quietPantry({ asOf, upkeep }), defaultNoticeSettings);
  };

  test.each([
    [31, 0],
    [30, 1],
    [0, 1],
    [-400, 1],
  ])('comes from thirty days before its day on and stays past it (%i days ahead)', (ahead, count) => {
    const last = addMonths(addDays(asOf, ahead), -12);
    const notices = told(last);

    expect(notices.map(({ kind }) => kind)).toEqual(count === 0 ? [] : ['upkeep due']);
    for (const { dueOn, subject, reason } of notices) {
      expect(dueOn).toBe(addDays(asOf, ahead));
      expect(subject).toBe('upkeep:own.scale');
      expect(reason).toContain('Kitchen scale: Check it. You last did it on');
    }
  });

  test('of water says when it was filled and how often a guide replaces it', () => {
    const upkeep = upkeepLines(
      none,
      [],
      storedWater({ waterGallons: 20, waterFilledOn: asDate('2026-05-20') }, emergencyAdvice),
    );

    const [notice] = noticesFor(quietPantry({ asOf, upkeep }), defaultNoticeSettings);

    expect(notice).toMatchObject({ kind: 'upkeep due', dueOn: '2026-11-20' });
    expect(notice?.reason).toContain('filled the water you keep for an emergency on May 20');
    expect(notice?.reason).toContain('every 6 months');
  });

  test('does not come of what was never written down or has no interval, nor a second time of a gauge', () => {
    expect(told(null)).toEqual([]);
    expect(told(asDate('2020-01-01'), null)).toEqual([]);
  });
});
