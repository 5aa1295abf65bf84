import { beforeEach, describe, expect, test } from 'vitest';
import { noticesOnRecord } from '../../../../server/queries/notices/notices.ts';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { answerNotice, keepNotices } from '../../../../server/records/notices/notices.ts';
import { addDays } from '../../../../shared/week.ts';
import type { Notice } from '../../../../src/notices/notice.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import { type Cast, quinceYard, quinceYardHousehold, today } from '../../../builders/quince-yard.ts';

const jamNearsItsDate: Notice = {
  kind: 'best by near',
  subject: 'lot:july',
  reason: 'Eat soon: 3 jars of Plum jam.',
  dueOn: addDays(today, 30),
};

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});

const keep = (notices: readonly Notice[], on = today, at = 1) =>
  keepNotices(cast.db, quinceYard, notices, { at, today: on });
const onRecord = async () =>
  (await noticesOnRecord(cast.db, quinceYard)).map(({ state, reason }) => [state, reason]);
const idOfJam = async () => (await noticesOnRecord(cast.db, quinceYard))[0]?.id ?? '';

describe('a notice', () => {
  test('is opened once, however often the rules give it', async () => {
    await keep([jamNearsItsDate]);
    await keep([jamNearsItsDate]);

    expect(await onRecord()).toEqual([['open', jamNearsItsDate.reason]]);
    expect(await cast.db.selectFrom('notice').selectAll().execute()).toHaveLength(1);
  });

  test('changes its words with the facts, and goes with its reason', async () => {
    await keep([jamNearsItsDate]);
    await keep([{ ...jamNearsItsDate, reason: 'Eat soon: 2 jars of Plum jam.' }]);
    expect(await onRecord()).toEqual([['open', 'Eat soon: 2 jars of Plum jam.']]);

    await keep([]);
    expect(await onRecord()).toEqual([['gone', 'Eat soon: 2 jars of Plum jam.']]);

    await keep([jamNearsItsDate], today, 2);
    expect(await onRecord()).toEqual([['open', jamNearsItsDate.reason]]);
  });

  test('put to sleep wakes on its day, and one that is done stays done', async () => {
    await keep([jamNearsItsDate]);
    const until = addDays(today, 7);
    worked(await answerNotice(cast.writer(), await idOfJam(), { state: 'snoozed', until }));

    await keep([jamNearsItsDate], addDays(today, 6));
    expect(await onRecord()).toEqual([['snoozed', jamNearsItsDate.reason]]);
    await keep([jamNearsItsDate], until);
    expect(await onRecord()).toEqual([['open', jamNearsItsDate.reason]]);

    worked(await answerNotice(cast.writer(), await idOfJam(), { state: 'done' }));
    await keep([jamNearsItsDate], until);
    expect(await onRecord()).toEqual([['done', jamNearsItsDate.reason]]);
  });

  test('cannot sleep until a day that is past, or be answered when it is gone', async () => {
    await keep([jamNearsItsDate]);
    const id = await idOfJam();

    expect(refusalOf(await answerNotice(cast.writer(), id, { state: 'snoozed', until: today })).code).toBe(
      'snooze-is-past',
    );
    await keep([]);
    expect(refusalOf(await answerNotice(cast.writer(), id, { state: 'done' })).code).toBe('notice-unknown');
  });

  test('leaves the plan as current as it was', async () => {
    const before = await cast.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow();
    await keep([jamNearsItsDate]);

    worked(await answerNotice(cast.writer(), await idOfJam(), { state: 'done' }));

    expect(await cast.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow()).toEqual(
      before,
    );
    expect(await newestPlan(cast.db, quinceYard)).toBeNull();
  });
});
