import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { householdById } from '../../../../server/queries/household/household.ts';
import { cannersOf } from '../../../../server/queries/household/kitchen.ts';
import { upkeepOf } from '../../../../server/queries/household/upkeep.ts';
import { saveCanner } from '../../../../server/records/household/kitchen.ts';
import { undoUpkeep } from '../../../../server/records/household/upkeep.ts';
import { sayEmergencyWish } from '../../../../server/records/year/emergency-wish.ts';
import type { CannerId } from '../../../../shared/ids.ts';
import { asDate, type CalendarDate } from '../../../../shared/week.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// Monday, 17 August 2026. The log of what was done to canners and other devices, and what it leads to elsewhere.

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const save = async (over: {
  readonly cannerId?: string | null;
  readonly on: string | null;
  readonly off?: readonly [number, number, number];
}): Promise<string> => {
  const off = over.on === null ? null : (over.off ?? [0, 0, 0]);
  const { cannerId } = worked(
    await saveCanner(pages.writer(), {
      cannerId: (over.cannerId ?? null) as CannerId | null,
      name: 'Tall pot',
      method: 'pressure',
      gauge: 'dial',
      gaugeCheckedOn: over.on === null ? null : asDate(over.on),
      gaugeOffAt5: off?.[0] ?? null,
      gaugeOffAt10: off?.[1] ?? null,
      gaugeOffAt15: off?.[2] ?? null,
      volumeQuarts: null,
      quartJars: 7,
      pintJars: 8,
      halfPintJars: 8,
    }),
  );
  return cannerId;
};
const pot = async (id: string) => (await cannersOf(pages.db, quinceYard)).find((one) => one.id === id);
const checks = async () => (await upkeepOf(pages.db, quinceYard)).done.filter(({ kind }) => kind === 'gauge');
const say = (fill: Readonly<Record<string, string>>, form = '/upkeep/tasks') =>
  pages.visitor.submitOn('/upkeep', { form, fill });
const page = async (path = '/upkeep') => wordsOf((await pages.visitor.open(path)).body);

describe('a check of a dial gauge', () => {
  test('that is saved on Kitchen stands in the log with its figures; saved unchanged it stands once', async () => {
    const id = await save({ on: '2026-03-01', off: [0, -1, 0] });
    await save({ cannerId: id, on: '2026-03-01', off: [0, -1, 0] });

    expect(await checks()).toMatchObject([{ doneOn: '2026-03-01', gaugeOff: { at5: 0, at10: -1, at15: 0 } }]);
    expect(await page()).toMatch(/Have the dial gauge checked last done Mar 1, 2026, due by Mar 1, 2027/);
    expect(await page()).toContain('off by 0, −1 and 0 psi at 5, 10 and 15');
  });

  test('undone gives way to the one before it, figures and all, and without one to none at all', async () => {
    const id = await save({ on: '2025-06-01', off: [-1, -1, -1] });
    await save({ cannerId: id, on: '2026-06-01', off: [0, 0, 0] });
    const [first, second] = await checks();
    const version = async () => (await householdById(pages.db, quinceYard)).factsVersion;
    const before = await version();
    worked(await undoUpkeep(pages.writer(), second?.id ?? ''));

    expect(await pot(id)).toMatchObject({
      gaugeCheckedOn: '2025-06-01',
      gaugeOff: { at5: -1, at10: -1, at15: -1 },
    });
    expect(await version()).toBe(before + 1);
    worked(await undoUpkeep(pages.writer(), first?.id ?? ''));
    expect(await pot(id)).toMatchObject({ gaugeCheckedOn: null, gaugeOff: null });
    expect(refusalOf(await undoUpkeep(pages.writer(), first?.id ?? '')).message).toContain('undone already');
  });

  test('from before there was a log can be gone back to', async () => {
    const id = await save({ on: '2025-06-01', off: [1, 1, 1] });
    await pages.db.deleteFrom('upkeep_event').execute();
    await save({ cannerId: id, on: '2026-06-01' });
    const last = (await checks()).at(-1);
    worked(await undoUpkeep(pages.writer(), last?.id ?? ''));

    expect(await pot(id)).toMatchObject({
      gaugeCheckedOn: '2025-06-01',
      gaugeOff: { at5: 1, at10: 1, at15: 1 },
    });
  });

  test('taken out on Kitchen leaves none that counts', async () => {
    const id = await save({ on: '2026-06-01' });
    await save({ cannerId: id, on: null });

    expect(await checks()).toEqual([]);
    expect((await pot(id))?.gaugeCheckedOn).toBeNull();
  });
});

describe('what was done', () => {
  test('is written down with its day, and its next day follows; undone, it is as before', async () => {
    await say({
      cannerId: '',
      device: 'Kitchen scale',
      name: 'Check it with a known weight',
      everyMonths: '6',
    });
    expect(await page()).toContain('Check it with a known weight not written down yet');
    const { tasks } = await upkeepOf(pages.db, quinceYard);
    const body = {
      kind: 'own',
      of: tasks[0]?.id ?? '',
      doneOn: '2026-08-10',
      note: 'with a pound of butter',
    };
    const done = await pages.visitor.post(await pages.visitor.open('/upkeep'), '/upkeep/done', body);

    expect(done.location).toBe('/upkeep?said=done');
    expect(await page()).toContain('last done Aug 10, 2026, due by Feb 10, 2027');
    expect(await page()).toContain('Aug 10, 2026: with a pound of butter');
    await pages.visitor.submitOn('/upkeep', { form: '/upkeep/undone' });
    expect(await page()).toContain('not written down yet');
    const kept = await pages.db.selectFrom('upkeep_event').select('undone_at').execute();
    expect(kept.map(({ undone_at }) => undone_at !== null)).toEqual([true]);
  });

  test('leaves the plan as it is', async () => {
    const id = await save({ on: '2026-06-01' });
    const before = (await householdById(pages.db, quinceYard)).factsVersion;
    const body = { kind: 'look-over', of: id, doneOn: '2026-08-10', note: '' };
    const done = await pages.visitor.post(await pages.visitor.open('/upkeep'), '/upkeep/done', body);

    expect(done.status).toBe(303);
    expect((await householdById(pages.db, quinceYard)).factsVersion).toBe(before);
    expect(await page()).toContain(
      'Look it over before the season last done Aug 10, 2026, due by Aug 10, 2027',
    );
  });

  test.each([
    [{ kind: 'own', of: 'nobodys', doneOn: '2026-08-10' }, 'no longer looked after'],
    [{ kind: 'look-over', of: 'nobodys', doneOn: '2026-08-10' }, 'no longer looked after'],
    [{ kind: 'gauge', of: 'tall-pot', doneOn: '2026-08-10' }, 'Choose a task'],
    [{ kind: 'look-over', of: 'tall-pot', doneOn: '2026-08-18' }, 'is still to come'],
    [{ kind: 'look-over', of: 'tall-pot', doneOn: '' }, 'Done on'],
  ])('is refused where it cannot be (%j)', async (body, words) => {
    await save({ on: '2026-06-01' });
    const answer = await pages.visitor.post(await pages.visitor.open('/upkeep'), '/upkeep/done', body);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
    expect((await upkeepOf(pages.db, quinceYard)).done.filter(({ kind }) => kind !== 'gauge')).toEqual([]);
  });

  test('long ago is told on This week and in the notices, and by nothing once it is done again', async () => {
    const id = await save({ on: '2026-06-01' });
    const write = async (doneOn: string) =>
      pages.visitor.post(await pages.visitor.open('/upkeep'), '/upkeep/done', {
        kind: 'look-over',
        of: id,
        doneOn,
        note: '',
        key: `written-on-${doneOn}`,
      });
    await write('2025-05-01');
    const told = 'Tall pot was last looked over on';

    expect(await page('/notices')).toContain(told);
    expect(await page('/')).toContain(told);
    expect(await page('/kitchen')).toContain('1 task of upkeep due within the month, or past.');
    await write('2026-08-17');
    expect(await page('/notices')).not.toContain(told);
    expect(await page('/kitchen')).toContain('No upkeep is due before Jun 1, 2027.');
  });
});

test.each([
  [{ cannerId: '', device: '', name: 'Check it', everyMonths: '' }, 'Choose a canner, or another device'],
  [{ cannerId: '', device: 'Scale', name: '', everyMonths: '' }, 'What you do is empty'],
  [{ cannerId: '', device: 'Scale', name: 'Check it', everyMonths: '0' }, 'Every so many months cannot be'],
  [{ cannerId: '', device: 'Scale', name: 'Check it', everyMonths: '1.5' }, 'Every so many months cannot be'],
])('a task that does not fit is sent back with what was typed (%j)', async (fill, words) => {
  const answer = await say(fill);

  expect(answer.status).toBe(422);
  expect(wordsOf(answer.body)).toContain(words);
  expect((await upkeepOf(pages.db, quinceYard)).tasks).toEqual([]);
});

test('a task is had once for a device, and removed leaves what was written down of it', async () => {
  const fill = { cannerId: '', device: 'Scale', name: 'Check it', everyMonths: '12' };
  await say(fill);
  const twice = await say(fill);
  const { tasks } = await upkeepOf(pages.db, quinceYard);
  await pages.visitor.post(await pages.visitor.open('/upkeep'), '/upkeep/done', {
    kind: 'own',
    of: tasks[0]?.id ?? '',
    doneOn: '2026-08-10' satisfies string as CalendarDate,
  });
  const removed = await pages.visitor.submitOn('/upkeep', { form: `/upkeep/tasks/${tasks[0]?.id}/removal` });

  expect([twice.status, removed.status]).toEqual([422, 303]);
  expect(wordsOf(twice.body)).toContain('You do this already');
  expect(await page()).not.toContain('Scale');
  expect((await upkeepOf(pages.db, quinceYard)).done).toHaveLength(1);
});

test('January’s list on Look back has what falls due in the year ahead, the soonest first', async () => {
  await save({ on: '2026-03-01' });
  await say({ cannerId: '', device: 'Scale', name: 'Check it', everyMonths: '120' });
  const words = await page('/look-back');

  expect(words).toContain('For next year');
  expect(words).toMatch(/Upkeep.*Tall pot: have the dial gauge checked, due by Mar 1, 2027/);
  expect(words).toContain('Tall pot: look it over before the season, not written down yet');
  expect(words).toMatch(/Lids and jars to buy.*Seeds and plants/);
});

test('water kept for an emergency is on the page, in the notices and in the calendar from the day it was filled', async () => {
  worked(
    await sayEmergencyWish(pages.writer(), {
      days: 3,
      waterGallons: 12,
      filledOn: asDate('2026-03-01'),
    }),
  );
  expect(await page()).toMatch(
    /Emergency water Replace the water you filled yourself last done Mar 1, 2026, due by Sep 1, 2026.*every 6 months\. Write down the day you filled it/,
  );
  expect(await page('/notices')).toContain('You filled the water you keep for an emergency on Mar 1, 2026');

  await pages.visitor.submitOn('/calendar', { form: '/calendar' });
  const feed = /\/calendar\/[A-Za-z0-9_-]+\.ics/.exec((await pages.visitor.open('/calendar')).body);
  const { body } = await pages.visitor.open(feed?.[0] ?? '/calendar');
  expect(body.replaceAll(/\r\n /g, '')).toMatch(
    /DTSTART;VALUE=DATE:20260901[\s\S]*?SUMMARY:Emergency water: replace the water you filled yourself/,
  );
});
