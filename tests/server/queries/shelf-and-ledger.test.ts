import { beforeEach, describe, expect, test } from 'vitest';
import { openConflicts } from '../../../server/queries/shelf/conflicts.ts';
import { ledgerOf } from '../../../server/queries/shelf/ledger.ts';
import { lotsOf, shelfByItem } from '../../../server/queries/shelf/shelf.ts';
import { setAside } from '../../../server/records/shelf/set-aside.ts';
import { settleConflict } from '../../../server/records/shelf/settle-conflict.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import type { HouseholdId, LotId } from '../../../shared/ids.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { lastEntries } from '../../../src/household/last-entries.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import {
  type Cast,
  day,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
} from '../../builders/quince-yard.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
  await shelve(cast.db, {
    id: 'half-pints',
    itemId: plumJam,
    units: 3,
    madeOn: '2026-01-10',
    bestQualityUntil: '2027-01-10',
  });
  await shelve(cast.db, {
    id: 'pints',
    itemId: plumJam,
    units: 2,
    madeOn: '2026-03-10',
    bestQualityUntil: '2026-12-10',
    jarKind: 'pint/regular',
  });
});

const jamOnShelf = async () =>
  (await shelfByItem(cast.db, quinceYard)).find(({ item }) => item.id === plumJam);

describe('the shelf', () => {
  test('lists batches first-expired first and counts a pint as two half-pints', async () => {
    const jam = await jamOnShelf();

    expect(jam?.lots.map((lot) => [lot.id, lot.unitsLeft])).toEqual([
      ['pints', 2],
      ['half-pints', 3],
    ]);
    expect(jam?.units).toBe(7);
  });

  test('keeps a batch that was set aside in sight, but does not count it as food', async () => {
    worked(await setAside(cast.writer(), { kind: 'lot', lotId: 'pints' as LotId }, 'acid forgotten'));

    const jam = await jamOnShelf();

    expect(jam?.lots.find((lot) => lot.id === 'pints')?.setAside?.reason).toBe('acid forgotten');
    expect(jam?.units).toBe(3);
  });

  test('can be asked for as it stood on an earlier day', async () => {
    worked(await take(cast.writer(), { ...oneOf(plumJam), units: 2 }));

    const now = await lotsOf(cast.db, quinceYard, { lotId: 'pints', empty: true });
    const inJuly = await lotsOf(cast.db, quinceYard, { lotId: 'pints', asOf: day('2026-07-01') });
    const inFebruary = await lotsOf(cast.db, quinceYard, { asOf: day('2026-02-01') });

    expect(now[0]?.unitsLeft).toBe(0);
    expect(inJuly[0]?.unitsLeft).toBe(2);
    expect(inFebruary.map((lot) => lot.id)).toEqual(['half-pints']);
  });

  test('of another household is never seen', async () => {
    await cast.db
      .insertInto('household')
      .values({ id: 'next-door', name: 'Next door', time_zone: 'UTC', created_at: 1 })
      .execute();
    const nextDoor = 'next-door' as HouseholdId;

    expect(await shelfByItem(cast.db, nextDoor)).toEqual([]);
    expect(await ledgerOf(cast.db, nextDoor)).toEqual([]);
    expect(refusalOf(await take({ ...cast.writer(), householdId: nextDoor }, oneOf(plumJam))).code).toBe(
      'item-unknown',
    );
    expect(refusalOf(await undo({ ...cast.writer(), householdId: nextDoor }, 'made half-pints')).code).toBe(
      'entry-unknown',
    );
    expect((await jamOnShelf())?.units).toBe(7);
  });
});

describe('the history', () => {
  test('shows one entry for what was done in one go, newest first, and what was undone as undone', async () => {
    const four = worked(await take(cast.writer(), { ...oneOf(plumJam), units: 4 }));
    const gift = worked(await take(cast.writer(), { ...oneOf(plumJam), kind: 'given away' }));
    worked(await undo(cast.writer(), gift.entryId ?? ''));

    const entries = await lastEntries(await ledgerOf(cast.db, quinceYard), 2);

    expect(entries.map(({ id, kind, units, isUndone }) => [id, kind, units, isUndone])).toEqual([
      [gift.entryId, 'given away', -1, true],
      [four.entryId, 'taken', -4, false],
    ]);
    expect(entries[1]?.events.map((event) => event.lotId)).toEqual(['pints', 'half-pints']);
  });
});

describe('takes the book had no jar for', () => {
  test('wait until somebody settles them, once', async () => {
    worked(await take(cast.writer(), { ...oneOf(plumJam), units: 7, late: true }));
    const [conflict] = await openConflicts(cast.db, quinceYard);

    worked(await settleConflict(cast.writer(), conflict?.id ?? '', 'was the same jar'));

    expect(conflict).toMatchObject({ itemName: 'Plum jam', units: 2, kind: 'taken' });
    expect(await openConflicts(cast.db, quinceYard)).toEqual([]);
    expect(refusalOf(await settleConflict(cast.writer(), conflict?.id ?? '', 'was the same jar')).code).toBe(
      'conflict-unknown',
    );
  });
});
