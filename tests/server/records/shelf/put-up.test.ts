import { beforeEach, describe, expect, test } from 'vitest';
import { jarStockOf, lidStockOf } from '../../../../server/queries/household/kitchen.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { decisionsOf } from '../../../../server/queries/year/plans.ts';
import { buy } from '../../../../server/records/shelf/buy.ts';
import { putUp } from '../../../../server/records/shelf/put-up.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import { purchaseForm } from '../../../../shared/schemas/shelf/purchase.ts';
import { type PutUp, putUpForm } from '../../../../shared/schemas/shelf/put-up.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import {
  type Cast,
  day,
  oats,
  plumJam,
  quinceYard,
  quinceYardHousehold,
} from '../../../builders/quince-yard.ts';

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});

const jamBatch = (change: Partial<PutUp> = {}): PutUp => ({
  ...putUpForm.parse({
    itemId: plumJam,
    recipeId: 'plum-jam-batch',
    batches: 2,
    filled: [{ jarKind: 'half-pint/regular', units: 17 }],
  }),
  ...change,
});

describe('putting up', () => {
  test('makes one lot for each kind of jar, with a code to write on the lid and the published best quality', async () => {
    const answer = worked(
      await putUp(
        cast.writer(),
        jamBatch({
          filled: [
            { jarKind: 'half-pint/regular' as never, units: 14 },
            { jarKind: 'pint/regular' as never, units: 1 },
          ],
        }),
      ),
    );

    expect(
      answer.lots.map(({ lotId, batchCode, jarKind, units }) => [lotId, batchCode, jarKind, units]),
    ).toEqual([
      ['plum-jam-260817-a', '260817-A', 'half-pint/regular', 14],
      ['plum-jam-260817-b', '260817-B', 'pint/regular', 1],
    ]);
    expect(answer.lots[0]?.bestQualityUntil).toBe('2027-08-17');
  });

  test('fills jars, uses new lids, and makes the batch a fact of its week', async () => {
    worked(await putUp(cast.writer(), jamBatch()));

    expect((await lidStockOf(cast.db, quinceYard))[0]).toMatchObject({ mouth: 'regular', onHand: 23 });
    expect(await cast.db.selectFrom('empty_jar_event').select(['kind', 'jars']).execute()).toEqual([
      // Nobody had counted them; they are there all the same.
      { kind: 'counted', jars: 17 },
      { kind: 'filled', jars: -17 },
    ]);
    expect((await jarStockOf(cast.db, quinceYard))[0]?.empty).toBe(0);
    expect(await decisionsOf(cast.db, quinceYard)).toEqual([
      { recipeId: 'plum-jam-batch', week: '2026-W34', decision: 'done', batches: 2 },
    ]);
  });

  test('can be undone whole: no jars, the lids back, the week free again', async () => {
    const answer = worked(await putUp(cast.writer(), jamBatch()));

    worked(await undo(cast.writer(), answer.entryId));

    expect(await lotsOf(cast.db, quinceYard)).toEqual([]);
    expect((await lidStockOf(cast.db, quinceYard))[0]?.onHand).toBe(40);
    expect(await decisionsOf(cast.db, quinceYard)).toEqual([]);
  });

  test('keeps how it was processed', async () => {
    worked(
      await putUp(
        cast.writer(),
        jamBatch({
          evidence: {
            cannerId: 'kettle' as never,
            method: 'boiling-water',
            gauge: null,
            scheduleRow: 'jam|half-pint|1001-6000',
            altitudeFt: 1200,
            psi: null,
            minutesRun: 10,
            acidTicked: null,
            doneBy: 'Ines',
          },
        }),
      ),
    );

    expect(await cast.db.selectFrom('processing_evidence').selectAll().execute()).toEqual([
      expect.objectContaining({ lot_id: 'plum-jam-260817-a', minutes_run: 10, done_by: 'Ines' }),
    ]);
  });

  test.each([
    [
      'a later best quality than published',
      { bestQualityUntil: day('2028-01-01') },
      'best-quality-out-of-range',
    ],
    ['a day that has not come', { madeOn: day('2026-09-01') }, 'date-in-future'],
    ['a recipe of something else', { recipeId: 'green-beans-batch' as never }, 'recipe-unknown'],
    ['ready before it was made', { readyFrom: day('2026-08-01') }, 'ready-before-made'],
    ['a staple', { itemId: oats, recipeId: null }, 'staple-not-made'],
    ['a place nobody named', { placeId: 'attic' as never }, 'place-unknown'],
  ])('refuses %s and writes nothing', async (_, change, code) => {
    expect(refusalOf(await putUp(cast.writer(), jamBatch(change))).code).toBe(code);
    expect(await cast.db.selectFrom('lot').selectAll().execute()).toEqual([]);
  });
});

describe('buying', () => {
  test('adds a lot with what was paid', async () => {
    const answer = worked(
      await buy(
        cast.writer(),
        purchaseForm.parse({ itemId: oats, units: 25, boughtOn: '2026-08-10', paid: '31.50' }),
      ),
    );

    const [lot] = await lotsOf(cast.db, quinceYard, { itemId: oats });
    expect(lot).toMatchObject({
      id: answer.lotId,
      origin: 'bought',
      unitsLeft: 25,
      bestQualityUntil: '2028-02-01',
    });
    expect(await cast.db.selectFrom('lot').select('cost_cents').executeTakeFirstOrThrow()).toEqual({
      cost_cents: 3150,
    });
  });
});
