import { beforeEach, describe, expect, test } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import type { ItemId } from '../../../../shared/ids.ts';
import { oneOf, type Take } from '../../../../shared/schemas/shelf/take.ts';
import { lastEntries } from '../../../../src/household/last-entries.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import {
  type Cast,
  curedPickles,
  day,
  oats,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
} from '../../../builders/quince-yard.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});

const jam = (change: Partial<Take> = {}): Take => ({ ...oneOf(plumJam), ...change });
const left = async (itemId: ItemId = plumJam) =>
  Object.fromEntries(
    (await lotsOf(cast.db, quinceYard, { itemId, empty: true })).map((lot) => [lot.id, lot.unitsLeft]),
  );
const factsVersion = async () =>
  (await cast.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow()).facts_version;

describe('which jar is taken', () => {
  test('the one whose best quality ends first, whatever the order it was put up in', async () => {
    await shelve(cast.db, {
      id: 'warm-shelf',
      itemId: plumJam,
      units: 4,
      madeOn: '2026-03-01',
      bestQualityUntil: '2026-12-01',
    });
    await shelve(cast.db, {
      id: 'older',
      itemId: plumJam,
      units: 4,
      madeOn: '2026-01-10',
      bestQualityUntil: '2027-01-10',
    });

    const answer = worked(await take(cast.writer(), jam()));

    expect(answer.from.map((part) => part.lotId)).toEqual(['warm-shelf']);
    expect(await left()).toEqual({ 'warm-shelf': 3, older: 4 });
  });

  test('several jars reach into the next batch when the first has too few', async () => {
    await shelve(cast.db, {
      id: 'january',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-01-10',
      bestQualityUntil: '2027-01-10',
    });
    await shelve(cast.db, {
      id: 'march',
      itemId: plumJam,
      units: 5,
      madeOn: '2026-03-10',
      bestQualityUntil: '2027-03-10',
    });

    const answer = worked(await take(cast.writer(), jam({ units: 4 })));

    expect(answer.from.map(({ lotId, units }) => [lotId, units])).toEqual([
      ['january', 2],
      ['march', 2],
    ]);
    expect(await left()).toEqual({ january: 0, march: 3 });
  });

  test('not before it is ready, unless somebody names the batch they opened', async () => {
    await shelve(cast.db, {
      id: 'curing',
      itemId: curedPickles,
      units: 6,
      madeOn: '2026-08-01',
      readyFrom: '2026-09-12',
      bestQualityUntil: '2027-08-01',
      jarKind: 'quart/wide',
    });

    const early = refusalOf(await take(cast.writer(), { ...jam(), itemId: curedPickles }));
    const named = worked(
      await take(cast.writer(), { ...jam(), itemId: curedPickles, lotId: 'curing' as Take['lotId'] }),
    );

    expect(early.code).toBe('not-ready');
    expect(early.message).toContain('ready from Sep 12, 2026');
    expect(named.from).toHaveLength(1);
    expect(await left(curedPickles)).toEqual({ curing: 5 });
  });

  test('never one that was put up after the day it is said to have been taken on', async () => {
    await shelve(cast.db, {
      id: 'yesterday',
      itemId: plumJam,
      units: 6,
      madeOn: '2026-08-16',
      bestQualityUntil: '2027-08-16',
    });

    const answer = worked(await take(cast.writer(), jam({ occurredOn: day('2026-08-09') })));

    expect(answer).toMatchObject({ from: [], conflictUnits: 1 });
  });

  test('a batch set aside is not eaten, but may be thrown away', async () => {
    await shelve(cast.db, {
      id: 'doubtful',
      itemId: plumJam,
      units: 6,
      madeOn: '2026-08-01',
      bestQualityUntil: '2027-08-01',
      setAside: 'the gauge read 2 psi low',
    });

    const eaten = refusalOf(await take(cast.writer(), jam()));
    const thrown = worked(
      await take(cast.writer(), jam({ kind: 'discarded', reason: 'not-sealed', units: 6 })),
    );

    expect(eaten).toMatchObject({ code: 'lot-set-aside' });
    expect(eaten.message).toContain('the gauge read 2 psi low');
    expect(thrown.from.map((part) => part.units)).toEqual([6]);
  });
});

describe('what a take writes', () => {
  beforeEach(() =>
    shelve(cast.db, {
      id: 'july',
      itemId: plumJam,
      units: 6,
      madeOn: '2026-07-20',
      bestQualityUntil: '2027-07-20',
    }),
  );

  test('only what is eaten trains the forecast, and only an eaten jar comes back empty', async () => {
    worked(await take(cast.writer(), jam()));
    worked(await take(cast.writer(), jam({ kind: 'given away' })));
    worked(await take(cast.writer(), jam({ kind: 'discarded', reason: 'not-sealed' })));
    worked(await take(cast.writer(), jam({ kind: 'seal failed' })));

    const events = await cast.db
      .selectFrom('jar_event')
      .select(['kind', 'units', 'trains_use'])
      .where('units', '<', 0)
      .orderBy('seq')
      .execute();
    const empties = await cast.db.selectFrom('empty_jar_event').select(['kind', 'jars']).execute();
    expect(events).toEqual([
      { kind: 'taken', units: -1, trains_use: 1 },
      { kind: 'given away', units: -1, trains_use: 0 },
      { kind: 'discarded', units: -1, trains_use: 0 },
      { kind: 'seal failed', units: -1, trains_use: 0 },
    ]);
    expect(empties).toEqual([
      { kind: 'emptied', jars: 1 },
      { kind: 'emptied', jars: 1 },
    ]);
  });

  test('the same form sent twice counts once, and the second answer is the first', async () => {
    const before = await factsVersion();

    const first = await take(cast.writer({ key: 'tap-on-the-phone' }), jam());
    const second = await take(cast.writer({ key: 'tap-on-the-phone' }), jam());

    expect(second).toEqual(first);
    expect(await left()).toEqual({ july: 5 });
    expect(await factsVersion()).toBe(before + 1);
  });

  test('the same key with another request is refused and writes nothing', async () => {
    worked(await take(cast.writer({ key: 'tap-on-the-phone' }), jam()));

    const other = refusalOf(await take(cast.writer({ key: 'tap-on-the-phone' }), jam({ units: 2 })));

    expect(other.code).toBe('key-reused');
    expect(await left()).toEqual({ july: 5 });
  });

  test('a refused form may be mended and sent under the same key', async () => {
    const wrong = refusalOf(await take(cast.writer({ key: 'a-mended-form' }), jam({ units: 60 })));
    const mended = worked(await take(cast.writer({ key: 'a-mended-form' }), jam({ units: 6 })));

    expect(wrong.message).toBe('The book has 6 jars of Plum jam, not 60. Take fewer, or count the shelf.');
    expect(mended.from[0]?.units).toBe(6);
  });

  test.each([
    [{ units: 1.5 }, 'units-not-whole', 'Plum jam is counted in whole jars, and 1.5 is not'],
    [{ itemId: 'moon-jam' as ItemId }, 'item-unknown', 'There is no “moon-jam” here'],
    [
      { occurredOn: day('2026-08-18') },
      'date-in-future',
      'Aug 18, 2026 is still to come; today is Aug 17, 2026',
    ],
    [{ kind: 'discarded' as const }, 'reason-missing', 'Choose why it was thrown away'],
    [{ lotId: 'nowhere' as Take['lotId'] }, 'lot-unknown', 'There is no batch “nowhere” here'],
  ])('refuses %o with a reason and changes nothing', async (change, code, words) => {
    const before = await factsVersion();

    const refusal = refusalOf(await take(cast.writer(), jam(change)));

    expect(refusal.code).toBe(code);
    expect(refusal.message).toContain(words);
    expect(await factsVersion()).toBe(before);
    expect(await left()).toEqual({ july: 6 });
  });

  test('pounds may be weighed', async () => {
    await shelve(cast.db, {
      id: 'sack',
      itemId: oats,
      units: 25,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-11-01',
      jarKind: null,
    });

    worked(await take(cast.writer(), { ...jam(), itemId: oats, units: 1.25 }));

    expect(await left(oats)).toEqual({ sack: 23.75 });
    expect(await cast.db.selectFrom('empty_jar_event').selectAll().execute()).toEqual([]);
  });
});

describe('a jar that the book does not have', () => {
  test('two people take the same last jar: the second is kept as a conflict, not lost', async () => {
    const lotId = await shelve(cast.db, {
      id: 'last',
      itemId: plumJam,
      units: 1,
      madeOn: '2026-07-20',
      bestQualityUntil: '2027-07-20',
    });
    worked(await take(cast.writer(), jam({ lotId })));

    const second = worked(await take(cast.writer(), jam({ lotId, late: true })));

    const conflicts = await cast.db.selectFrom('jar_conflict').selectAll().execute();
    expect(second).toMatchObject({ entryId: null, from: [], conflictUnits: 1 });
    expect(conflicts).toEqual([
      expect.objectContaining({
        item_id: plumJam,
        lot_id: 'last',
        kind: 'taken',
        units: 1,
        settled_at: null,
      }),
    ]);
    expect(await left()).toEqual({ last: 0 });
  });

  test('what arrives late takes what is there and keeps the rest as a conflict', async () => {
    await shelve(cast.db, {
      id: 'two',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-07-20',
      bestQualityUntil: '2027-07-20',
    });

    const answer = worked(await take(cast.writer(), jam({ units: 3, late: true })));

    expect(answer.from.map((part) => part.units)).toEqual([2]);
    expect(answer.conflictUnits).toBe(1);
  });
});

describe('undo', () => {
  test('puts every jar back where it came from, and can be done once', async () => {
    await shelve(cast.db, {
      id: 'january',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-01-10',
      bestQualityUntil: '2027-01-10',
    });
    await shelve(cast.db, {
      id: 'march',
      itemId: plumJam,
      units: 5,
      madeOn: '2026-03-10',
      bestQualityUntil: '2027-03-10',
    });
    const taken = worked(await take(cast.writer(), jam({ units: 4 })));

    const undone = worked(await undo(cast.writer(), taken.entryId ?? ''));
    const again = refusalOf(await undo(cast.writer(), taken.entryId ?? ''));

    expect(undone).toMatchObject({ itemName: 'Plum jam', units: 4 });
    expect(await left()).toEqual({ january: 2, march: 5 });
    expect(again.code).toBe('already-undone');
    const empties = await cast.db.selectFrom('empty_jar_event').select('jars').execute();
    expect(empties.reduce((total, row) => total + row.jars, 0)).toBe(0);
    const [entry] = await lastEntries(await ledgerOf(cast.db, quinceYard), 5);
    expect(entry).toMatchObject({ id: taken.entryId, kind: 'taken', units: -4, isUndone: true });
  });

  test('of a batch whose jars are already eaten is refused', async () => {
    await shelve(cast.db, {
      id: 'july',
      itemId: plumJam,
      units: 6,
      madeOn: '2026-07-20',
      bestQualityUntil: '2027-07-20',
    });
    worked(await take(cast.writer(), jam()));

    const refusal = refusalOf(await undo(cast.writer(), 'made july'));

    expect(refusal).toMatchObject({ code: 'already-used' });
    expect(refusal.message).toContain('5 are left');
  });

  test('of something never recorded says so', async () => {
    expect(refusalOf(await undo(cast.writer(), 'nothing'))).toMatchObject({ code: 'entry-unknown' });
  });
});

describe('a cellar that is gone through every month', () => {
  const potatoes = 'potatoes' as ItemId;
  beforeEach(async () => {
    await cast.db
      .insertInto('item')
      .values({
        household_id: quinceYard,
        id: potatoes,
        name: 'Cellar potatoes',
        kind: 'preserve',
        keeping: 'cellar',
        family: 'roots',
        unit: 'bin',
        best_quality_days: 150,
      })
      .execute();
    await shelve(cast.db, {
      id: 'bins',
      itemId: potatoes,
      units: 2,
      madeOn: '2026-08-01',
      bestQualityUntil: '2026-12-29',
      jarKind: null,
    });
  });
  const left = async () => (await lotsOf(cast.db, quinceYard, { lotId: 'bins', empty: true }))[0]?.unitsLeft;

  test('loses part of a bin, which is no use of it, and keeps the reason', async () => {
    worked(
      await take(cast.writer(), {
        ...oneOf(potatoes),
        units: 0.25,
        kind: 'discarded',
        reason: 'sorted-out',
      }),
    );

    expect(await left()).toBe(1.75);
    expect((await ledgerOf(cast.db, quinceYard, { itemId: potatoes })).at(-1)).toMatchObject({
      kind: 'discarded',
      reason: 'sorted-out',
      trainsUse: false,
    });
  });

  test('gives the last part of a bin to whoever takes one, without a difference', async () => {
    worked(
      await take(cast.writer(), {
        ...oneOf(potatoes),
        units: 0.25,
        kind: 'discarded',
        reason: 'sorted-out',
      }),
    );
    worked(await take(cast.writer(), oneOf(potatoes)));

    expect(worked(await take(cast.writer(), oneOf(potatoes)))).toMatchObject({
      from: [{ units: 0.75 }],
      conflictUnits: 0,
    });
    expect(await left()).toBe(0);
  });
});
