import { describe, expect, test } from 'vitest';
import { addDays } from '../../shared/week.ts';
import { defaultNoticeSettings } from '../../src/notices/notice.ts';
import type { NoticeBatch } from '../../src/notices/notice-picture.ts';
import { noticesFor } from '../../src/notices/notices-for.ts';
import { asOf, quietPantry } from './pantry.ts';

const day = (more: number) => addDays(asOf, more);
const soak = (facts: Partial<NoticeBatch['days'][number]> = {}): NoticeBatch['days'][number] => ({
  position: 1,
  what: 'Cover the beans with water and soak',
  on: asOf,
  state: 'due',
  waits: true,
  ...facts,
});
const beans = (facts: Partial<NoticeBatch> = {}): NoticeBatch => ({
  batchKey: 'beans-2026-W48',
  name: 'Pinto beans',
  isBegun: false,
  state: 'to begin',
  plannedOn: day(1),
  loadOn: day(1),
  fillFrom: null,
  fillUntil: null,
  days: [soak()],
  ...facts,
});
const told = (facts: Partial<NoticeBatch>) =>
  noticesFor(quietPantry({ batches: [beans(facts)] }), defaultNoticeSettings);
const kinds = (facts: Partial<NoticeBatch>) => told(facts).map(({ kind }) => kind);

describe('a stage that is due', () => {
  test('is told the day before and on its day, with what it is for', () => {
    expect(kinds({})).toEqual(['stage due']);
    expect(kinds({ days: [soak({ on: day(1), state: 'ahead' })], loadOn: day(2) })).toEqual(['stage due']);
    const [notice] = told({});
    expect(notice).toMatchObject({ dueOn: asOf, subject: 'batch:beans-2026-W48:1' });
    expect(notice?.reason).toContain('Cover the beans with water and soak');
  });

  test.each([
    ['weeks away', { days: [soak({ on: day(20), state: 'ahead' as const })], loadOn: day(21) }],
    ['done', { days: [soak({ state: 'done' as const })] }],
    ['over', { days: [soak({ on: day(-1), state: 'missed' as const })] }],
    ['for no load', { loadOn: null }],
  ])('is not told when it is %s', (_, facts) => {
    expect(kinds(facts)).not.toContain('stage due');
  });

  test('only the next one of a batch is told', () => {
    const two = [soak(), soak({ position: 2, what: 'Drain', on: asOf })];

    expect(told({ days: two }).map(({ subject }) => subject)).toEqual(['batch:beans-2026-W48:1']);
  });
});

describe('what was begun', () => {
  const begun: Partial<NoticeBatch> = {
    isBegun: true,
    state: 'on its way',
    days: [soak({ on: day(-1), state: 'done' })],
    fillFrom: `${asOf}T08:00`,
    fillUntil: `${day(3)}T14:00`,
  };

  test('may be canned, until its last day', () => {
    const [notice] = told(begun);

    expect(notice).toMatchObject({ kind: 'may be canned', dueOn: day(3) });
    expect(notice?.reason).toContain('may be canned now, until');
  });

  test('is not told as ready while a wait is still to be begun, or weeks before', () => {
    expect(kinds({ ...begun, days: [soak({ on: day(9), state: 'ahead' })] })).toEqual([]);
    expect(kinds({ ...begun, fillFrom: `${day(30)}T08:00`, fillUntil: null, loadOn: day(30) })).toEqual([]);
  });
});

describe('a load held back', () => {
  test.each([
    ['not begun in time', { loadOn: null, days: [soak({ on: day(-1), state: 'missed' as const })] }],
    ['moved', { loadOn: day(3), days: [] }],
    ['spoilt', { loadOn: null, days: [] }],
  ] as const)('is told where it is %s, once', (state, facts) => {
    const notices = told({ state, ...facts }).filter(({ kind }) => kind === 'load held back');

    expect(notices).toHaveLength(1);
    expect(notices[0]?.reason).toContain('Pinto beans');
    expect(notices[0]?.reason).toMatch(state === 'spoilt' ? /throw it away/ : /can’t be canned on/);
  });

  test.each(['one go', 'to begin', 'on its way'] as const)('is not told where it is %s', (state) => {
    expect(kinds({ state })).not.toContain('load held back');
  });
});
