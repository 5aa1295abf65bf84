import { describe, expect, test } from 'vitest';
import { addDays } from '../../shared/week.ts';
import type { Notice } from '../../src/notices/notice.ts';
import { type NoticeBefore, noticeChanges } from '../../src/notices/notice-changes.ts';
import { asOf } from './pantry.ts';

const notice: Notice = {
  kind: 'runs out',
  subject: 'item:plum-jam',
  reason: 'Plum jam likely runs out soon.',
  dueOn: addDays(asOf, 30),
};
const kept = (facts: Partial<NoticeBefore> = {}): NoticeBefore => ({
  kind: notice.kind,
  subject: notice.subject,
  reason: notice.reason,
  dueOn: notice.dueOn,
  state: 'open',
  snoozedUntil: null,
  ...facts,
});
const nothing = { opened: [], reopened: [], reworded: [], gone: [] };

describe('since the notices were kept', () => {
  test('the same notice is no news', () => {
    expect(noticeChanges([kept()], [notice], asOf)).toEqual(nothing);
  });

  test('a new one is opened, and one whose reason went before is opened anew', () => {
    expect(noticeChanges([], [notice], asOf)).toEqual({ ...nothing, opened: [notice] });
    expect(noticeChanges([kept({ state: 'gone' })], [notice], asOf)).toEqual({
      ...nothing,
      opened: [notice],
    });
  });

  test('one whose reason has gone is gone, whether open, snoozed or done', () => {
    for (const state of ['open', 'snoozed', 'done'] as const) {
      const before = kept({ state, snoozedUntil: state === 'snoozed' ? addDays(asOf, 3) : null });

      expect(noticeChanges([before], [], asOf)).toEqual({ ...nothing, gone: [before] });
    }
  });

  test('snoozed, it sleeps until its day', () => {
    const until = (days: number) => kept({ state: 'snoozed', snoozedUntil: addDays(asOf, days) });

    expect(noticeChanges([until(1)], [notice], asOf)).toEqual(nothing);
    expect(noticeChanges([until(0)], [notice], asOf)).toEqual({ ...nothing, reopened: [notice] });
  });

  test('done, it stays done when its words or date drift, and returns when it is due much sooner', () => {
    const done = (dueInDays: number) => kept({ state: 'done', dueOn: addDays(asOf, dueInDays) });

    expect(noticeChanges([done(43)], [notice], asOf)).toEqual(nothing);
    expect(noticeChanges([done(44)], [notice], asOf)).toEqual({ ...nothing, reopened: [notice] });
  });

  test('done, one of several things returns when something new is among them, not when one has gone', () => {
    const done = kept({ state: 'done', about: ['plum-jam', 'salsa'] });
    const of = (...about: string[]) => ({ ...notice, about });

    expect(noticeChanges([done], [of('salsa')], asOf)).toEqual(nothing);
    expect(noticeChanges([done], [of('salsa', 'corn')], asOf)).toEqual({
      ...nothing,
      reopened: [of('salsa', 'corn')],
    });
  });

  test('new words for an open or sleeping one replace the old', () => {
    const reworded = { ...notice, reason: 'Plum jam likely runs out in December.' };

    expect(noticeChanges([kept()], [reworded], asOf)).toEqual({ ...nothing, reworded: [reworded] });
  });
});
