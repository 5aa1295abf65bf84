import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { checkSignIn, failureLimits } from '../../../../server/access/sign-in-check.ts';
import { personOf, signInLimits } from '../../../../server/access/sign-ins.ts';
import { tokenHash } from '../../../../server/access/tokens.ts';
import { keepPlan } from '../../../../server/jobs/keep-plan.ts';
import { latestClockJump } from '../../../../server/queries/household/clock-jumps.ts';
import { noticesOnRecord } from '../../../../server/queries/notices/notices.ts';
import { newestPlan } from '../../../../server/queries/year/plans.ts';
import { keepClock } from '../../../../server/records/household/clock.ts';
import { keepNotices } from '../../../../server/records/notices/notices.ts';
import { noticesNow } from '../../../../server/records/notices/standing-notices.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { asDate, weekOf } from '../../../../shared/week.ts';
import type { Notice } from '../../../../src/notices/notice.ts';
import { planCosting } from '../../../builders/plan-answers.ts';
import { bareYear } from '../../../builders/planned-week.ts';
import { type Cast, quinceYard, quinceYardHousehold } from '../../../builders/quince-yard.ts';

// A clock that was ahead for a while, and what its rows do to the time after.

const now = Date.UTC(2026, 7, 17, 18);
const today = asDate('2026-08-17');
const day = 86_400_000;
const ahead = now + 2 * 365 * day;

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});
afterEach(() => cast.db.destroy());

const notice = (reason: string): Notice => ({
  kind: 'altitude unknown',
  subject: 'kitchen',
  reason,
  dueOn: null,
});

const planAt = (at: number, cents: number) => {
  const asOf = asDate(new Date(at).toISOString().slice(0, 10));
  const plan = planCosting(cents, asOf);
  return keepPlan(cast.db, quinceYard, {
    year: bareYear(asOf, [weekOf(asOf)]),
    factsVersion: 1,
    answer: {
      outcome: 'planned',
      plan,
      paths: [],
      stoppedBy: 'gap',
      size: { rows: 0, columns: 0, integers: 0 },
      canningSeconds: 0,
    },
    at,
  });
};

test('a plan made while the clock was ahead is not newer than the one made after', async () => {
  await planAt(ahead, 1);
  await planAt(now, 2);

  expect((await newestPlan(cast.db, quinceYard))?.plan.objective.total).toBe(2);
});

test('twenty plans of a wrong year do not push out the first right one', async () => {
  for (let made = 0; made < 20; made += 1) await planAt(ahead + made, made);
  await planAt(now, 100);

  expect((await newestPlan(cast.db, quinceYard))?.plan.objective.total).toBe(100);
});

test('notices open, go and come again over a clock that goes back and forth, one open at a time', async () => {
  const at = (instant: number, current: readonly Notice[]) =>
    keepNotices(cast.db, quinceYard, current, { at: instant, today });

  for (const instant of [now, ahead, now + 1000, ahead + day, now + 2000]) {
    await at(instant, [notice(`at ${instant}`)]);
    await at(instant, []);
    await at(instant, [notice(`again at ${instant}`)]);
  }

  const [kept, ...others] = await noticesOnRecord(cast.db, quinceYard);
  expect(others).toEqual([]);
  expect(kept).toMatchObject({ state: 'open', reason: `again at ${now + 2000}` });
});

test('what was done stays done, though an older record has a later date', async () => {
  await keepNotices(cast.db, quinceYard, [notice('first')], { at: ahead, today });
  await keepNotices(cast.db, quinceYard, [], { at: ahead, today });
  await keepNotices(cast.db, quinceYard, [notice('second')], { at: now, today });
  await cast.db.updateTable('notice').set({ state: 'done' }).where('state', '=', 'open').execute();

  await keepNotices(cast.db, quinceYard, [notice('second')], { at: now + 1, today });

  const [kept] = await noticesOnRecord(cast.db, quinceYard);
  expect(kept).toMatchObject({ state: 'done', reason: 'second' });
});

test('failed sign-ins of a time to come count for nothing', async () => {
  await cast.db
    .insertInto('sign_in_failure')
    .values(
      Array.from({ length: failureLimits.account }, () => ({ subject: 'account ada', failed_at: ahead })),
    )
    .execute();

  const said = { name: 'Ada', name_key: 'ada', passphrase: 'whatever it is', address: '192.0.2.7' };
  expect((await checkSignIn(cast.db, said, now)).answer).toBe('unknown');
});

describe('when the clock has gone back', () => {
  const person = async () => {
    await cast.db
      .insertInto('person')
      .values({ id: 'ada', name: 'Ada', name_key: 'ada', passphrase_hash: 'x', created_at: 0 })
      .execute();
    await cast.db
      .insertInto('sign_in')
      .values({ token_hash: tokenHash('token'), person_id: 'ada', began_at: ahead, seen_at: ahead })
      .execute();
    await cast.db
      .insertInto('second_factor')
      .values({
        person_id: 'ada',
        seed: 's',
        begun_at: 0,
        confirmed_at: 0,
        last_step: Math.floor(ahead / 30_000),
      })
      .execute();
  };

  test('sign-ins end when they would have, and codes of today are taken', async () => {
    await person();

    await keepClock(cast.db, now);

    expect((await personOf(cast.db, 'token', now + day))?.name).toBe('Ada');
    expect(await personOf(cast.db, 'token', now + signInLimits.wholeMs + 1)).toBeNull();
    const factor = await cast.db.selectFrom('second_factor').select('last_step').executeTakeFirstOrThrow();
    expect(factor.last_step).toBeLessThanOrEqual(now / 30_000);
  });

  test('plans for days that have not come are let go and asked for anew, the ones before them stand', async () => {
    await planAt(now - day, 1);
    await planAt(ahead, 2);

    const { toPlan } = await keepClock(cast.db, now);

    expect(toPlan).toEqual([quinceYard]);
    expect((await newestPlan(cast.db, quinceYard))?.plan.objective.total).toBe(1);
  });

  test('what was put to sleep in the wrong year is open again', async () => {
    await keepNotices(cast.db, quinceYard, [notice('a')], { at: now, today });
    await cast.db
      .updateTable('notice')
      .set({ state: 'snoozed', snoozed_until: '2028-09-01', changed_at: ahead })
      .execute();

    await keepClock(cast.db, now);

    expect((await noticesOnRecord(cast.db, quinceYard))[0]).toMatchObject({ state: 'open', changedAt: now });
  });

  test('one notice says so, once, however often the clock is looked at', async () => {
    await keepClock(cast.db, ahead);
    for (let look = 0; look < 3; look += 1) await keepClock(cast.db, now + look * 60_000);

    const standing = await noticesNow(cast.db, quinceYard, { at: now, today }, loadReferenceTables());

    const told = standing.filter(({ kind }) => kind === 'clock was wrong');
    expect(told).toHaveLength(1);
    expect(told[0]?.reason).toMatch(
      /the clock of this computer was set back; it had run ahead, up to .*2028/,
    );
    expect(await latestClockJump(cast.db)).toMatchObject({ seq: 1, noticedAt: now, aheadUntil: ahead });
  });

  test('a machine that begins in 1970 and finds the time later has changed nothing', async () => {
    await person();
    await keepClock(cast.db, 0);

    const row = await cast.db.selectFrom('sign_in').select('seen_at').executeTakeFirstOrThrow();
    expect(row.seen_at).toBe(ahead);
    expect(await latestClockJump(cast.db)).toBeNull();
  });

  test('small corrections are none', async () => {
    await keepClock(cast.db, now);
    await keepClock(cast.db, now - 60_000);

    expect(await latestClockJump(cast.db)).toBeNull();
  });
});
