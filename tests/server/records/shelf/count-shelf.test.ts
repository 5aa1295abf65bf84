import { beforeEach, describe, expect, test } from 'vitest';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { countShelf } from '../../../../server/records/shelf/count-shelf.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import type { ShelfCount } from '../../../../shared/schemas/shelf/shelf-count.ts';
import { oneOf } from '../../../../shared/schemas/shelf/take.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import {
  type Cast,
  day,
  greenBeans,
  type oats,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
} from '../../../builders/quince-yard.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
  await shelve(cast.db, {
    id: 'january',
    itemId: plumJam,
    units: 3,
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
});

const counted = (...counts: ShelfCount['counts']): ShelfCount => ({ countedOn: null, counts });
const jam = (units: number, explainedAs: ShelfCount['counts'][number]['explainedAs'] = null) => ({
  itemId: plumJam,
  units,
  explainedAs,
});
const left = async () =>
  Object.fromEntries(
    (await lotsOf(cast.db, quinceYard, { itemId: plumJam, empty: true })).map((lot) => [
      lot.id,
      lot.unitsLeft,
    ]),
  );
const differences = () =>
  cast.db
    .selectFrom('jar_event')
    .select(['lot_id', 'units', 'trains_use', 'reason'])
    .where('kind', '=', 'counted')
    .orderBy('seq')
    .execute();

describe('fewer jars than the book', () => {
  test('were taken without a word: written off first-expired first, and the forecast learns from them', async () => {
    const answer = worked(await countShelf(cast.writer(), counted(jam(4))));

    expect(answer.items).toEqual([
      expect.objectContaining({ bookUnits: 8, countedUnits: 4, explainedAs: 'taken-unrecorded' }),
    ]);
    expect(await differences()).toEqual([
      { lot_id: 'january', units: -3, trains_use: 1, reason: 'taken-unrecorded' },
      { lot_id: 'march', units: -1, trains_use: 1, reason: 'taken-unrecorded' },
    ]);
    expect(await left()).toEqual({ january: 0, march: 4 });
  });

  test.each(['miscount', 'breakage', 'gift'] as const)('called %s teach nothing', async (explanation) => {
    worked(await countShelf(cast.writer(), counted(jam(7, explanation))));

    expect(await differences()).toEqual([
      { lot_id: 'january', units: -1, trains_use: 0, reason: explanation },
    ]);
  });

  test('cannot be called found', async () => {
    expect(refusalOf(await countShelf(cast.writer(), counted(jam(7, 'found'))))).toMatchObject({
      code: 'explanation-contradicts',
      field: 'counts.0.explainedAs',
    });
  });
});

describe('more jars than the book', () => {
  test('were found, and join the batch that is eaten first', async () => {
    worked(await countShelf(cast.writer(), counted(jam(10))));

    expect(await differences()).toEqual([{ lot_id: 'january', units: 2, trains_use: 0, reason: 'found' }]);
  });

  test('join the last batch when everything was thought eaten', async () => {
    worked(await countShelf(cast.writer(), counted(jam(0))));

    worked(await countShelf(cast.writer(), counted(jam(2))));

    expect(await left()).toEqual({ january: 0, march: 2 });
  });

  test('of something never put up are refused with what to do', async () => {
    const refusal = refusalOf(
      await countShelf(cast.writer(), counted({ itemId: greenBeans, units: 2, explainedAs: null })),
    );

    expect(refusal.code).toBe('no-lot-to-join');
    expect(refusal.message).toContain('Write them down as put up, bought or received first');
  });
});

describe('the count itself', () => {
  test('is kept even when book and shelf agree', async () => {
    const answer = worked(await countShelf(cast.writer(), counted(jam(8))));

    expect(answer.items[0]?.entryId).toBeNull();
    expect(await differences()).toEqual([]);
    expect(await cast.db.selectFrom('shelf_count').select(['book_units', 'counted_units']).execute()).toEqual(
      [{ book_units: 8, counted_units: 8 }],
    );
  });

  test('is all or nothing: one bad line and no line is written', async () => {
    const refusal = refusalOf(
      await countShelf(
        cast.writer(),
        counted(jam(4), { itemId: 'moon-jam' as typeof oats, units: 1, explainedAs: null }),
      ),
    );

    expect(refusal).toMatchObject({ code: 'item-unknown', field: 'counts.1.itemId' });
    expect(await left()).toEqual({ january: 3, march: 5 });
    expect(await cast.db.selectFrom('shelf_count').selectAll().execute()).toEqual([]);
  });

  test('of an earlier day is held against the book of that day', async () => {
    worked(await take(cast.writer(), { ...oneOf(plumJam), units: 2 }));

    const answer = worked(
      await countShelf(cast.writer(), { countedOn: day('2026-08-10'), counts: [jam(7)] }),
    );

    expect(answer.items[0]).toMatchObject({ bookUnits: 8, countedUnits: 7 });
    expect(await left()).toEqual({ january: 0, march: 5 });
  });

  test('of an earlier day cannot write off what was taken since', async () => {
    worked(await take(cast.writer(), { ...oneOf(plumJam), units: 6 }));

    expect(
      refusalOf(await countShelf(cast.writer(), { countedOn: day('2026-08-10'), counts: [jam(3)] })).code,
    ).toBe('count-too-old');
  });

  test('can be undone', async () => {
    const answer = worked(await countShelf(cast.writer(), counted(jam(4))));

    worked(await undo(cast.writer(), answer.items[0]?.entryId ?? ''));

    expect(await left()).toEqual({ january: 3, march: 5 });
  });
});
