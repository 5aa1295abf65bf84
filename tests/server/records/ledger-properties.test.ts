import fc from 'fast-check';
import { sql } from 'kysely';
import { describe, expect, test } from 'vitest';
import { lotsOf } from '../../../server/queries/shelf/shelf.ts';
import { forgetHousehold } from '../../../server/records/household/household-deletion.ts';
import { countShelf } from '../../../server/records/shelf/count-shelf.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import {
  jamOfJanuary,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
} from '../../builders/quince-yard.ts';

type Act =
  | { readonly does: 'take'; readonly units: number; readonly late: boolean; readonly back: number }
  | { readonly does: 'count'; readonly units: number }
  | { readonly does: 'undo'; readonly which: number };

const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({
    does: fc.constant('take' as const),
    units: fc.integer({ min: 1, max: 6 }),
    late: fc.boolean(),
    back: fc.integer({ min: 0, max: 40 }),
  }),
  fc.record({ does: fc.constant('count' as const), units: fc.integer({ min: 0, max: 20 }) }),
  fc.record({ does: fc.constant('undo' as const), which: fc.nat({ max: 30 }) }),
);

async function shelfWithTwoBatches() {
  const cast = await quinceYardHousehold();
  await shelve(cast.db, jamOfJanuary);
  await shelve(cast.db, {
    id: 'july',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
  });
  return cast;
}

type Cast = Awaited<ReturnType<typeof shelfWithTwoBatches>>;

const onDay = (back: number) => new Date(Date.UTC(2026, 7, 17 - back)).toISOString().slice(0, 10);

async function doIt(cast: Cast, doing: Act, entries: string[], key?: string): Promise<void> {
  const writer = cast.writer(key === undefined ? {} : { key });
  if (doing.does === 'take') {
    const { units, late, back } = doing;
    const answer = await take(writer, {
      ...oneOf(plumJam),
      units,
      late,
      occurredOn: onDay(back) as never,
    });
    if (answer.ok && answer.value.entryId !== null) entries.push(answer.value.entryId);
  } else if (doing.does === 'count') {
    const answer = await countShelf(writer, {
      countedOn: null,
      counts: [{ itemId: plumJam, units: doing.units, explainedAs: null }],
    });
    if (answer.ok) entries.push(...answer.value.items.flatMap((item) => item.entryId ?? []));
  } else if (entries.length > 0) {
    await undo(writer, entries[doing.which % entries.length] ?? '');
  }
}

const standing = async (cast: Cast) =>
  (await lotsOf(cast.db, quinceYard, { itemId: plumJam, empty: true })).map(({ id, unitsLeft }) => [
    id,
    unitsLeft,
  ]);

describe('the ledger, whatever is recorded in whatever order', () => {
  test('never holds less than nothing, and opening plus in minus out is what is left', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(act, { maxLength: 14 }), async (acts) => {
        const cast = await shelfWithTwoBatches();
        const entries: string[] = [];
        for (const doing of acts) await doIt(cast, doing, entries);

        const sums = await sql<{ lot_id: string; came: number; went: number; at_worst: number }>`
          SELECT lot_id, SUM(CASE WHEN units > 0 THEN units ELSE 0 END) AS came,
            -SUM(CASE WHEN units < 0 THEN units ELSE 0 END) AS went, MIN(running) AS at_worst
          FROM (SELECT lot_id, units, SUM(units) OVER (PARTITION BY lot_id ORDER BY seq) AS running FROM jar_event) AS ledger
          GROUP BY lot_id`.execute(cast.db);
        const leftByLot = new Map(
          (await lotsOf(cast.db, quinceYard, { empty: true })).map((lot) => [lot.id, lot.unitsLeft]),
        );
        for (const { lot_id, came, went, at_worst } of sums.rows) {
          expect(at_worst).toBeGreaterThanOrEqual(0);
          expect(leftByLot.get(lot_id as never)).toBe(came - went);
        }
        await cast.db.destroy();
      }),
      { numRuns: 60 },
    );
  });

  test('is the same when every event is delivered again', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(act, { minLength: 1, maxLength: 8 }),
        fc.array(fc.nat({ max: 7 }), { maxLength: 12 }),
        async (acts, again) => {
          const once = await shelfWithTwoBatches();
          const often = await shelfWithTwoBatches();
          const entriesOnce: string[] = [];
          const entriesOften: string[] = [];
          const takes = acts.filter((doing) => doing.does !== 'undo');
          for (const [at, doing] of takes.entries()) {
            await doIt(once, doing, entriesOnce, `delivery-${at}`);
            await doIt(often, doing, entriesOften, `delivery-${at}`);
            for (const repeat of again.filter((place) => place <= at)) {
              const earlier = takes[repeat];
              // Only what was accepted is remembered; a refused form may be sent again and then be accepted.
              const known = await often.db
                .selectFrom('idempotency')
                .select('key')
                .where('key', '=', `delivery-${repeat}`)
                .executeTakeFirst();
              if (earlier && known) await doIt(often, earlier, [], `delivery-${repeat}`);
            }
          }

          expect(await standing(often)).toEqual(await standing(once));
          await Promise.all([once.db.destroy(), often.db.destroy()]);
        },
      ),
      { numRuns: 25 },
    );
  });
});

/** Whom a database holds apart may not even try to change an event; whoever owns its tables is told why it cannot be done. */
const noChange = process.env.ROW_RULES === '1' ? /permission denied/ : /append-only/;

describe('the schema defends the ledger by itself', () => {
  test.each([
    ['changing an event', sql`UPDATE jar_event SET units = 100`, noChange],
    ['deleting an event', sql`DELETE FROM jar_event`, /append-only/],
    [
      'taking more than there is',
      sql`INSERT INTO jar_event (household_id, seq, entry_id, lot_id, kind, units, occurred_on, recorded_at)
        VALUES ('quince-yard', 90, 'e', 'january', 'taken', -8, '2026-08-17', 0)`,
      /below zero/,
    ],
    [
      'a take that adds jars',
      sql`INSERT INTO jar_event (household_id, seq, entry_id, lot_id, kind, units, occurred_on, recorded_at)
        VALUES ('quince-yard', 90, 'e', 'january', 'taken', 1, '2026-08-17', 0)`,
      /check constraint/i,
    ],
    [
      'a day that does not exist',
      sql`INSERT INTO jar_event (household_id, seq, entry_id, lot_id, kind, units, occurred_on, recorded_at)
        VALUES ('quince-yard', 90, 'e', 'january', 'taken', -1, '2026-02-30', 0)`,
      /check constraint/i,
    ],
    [
      'undoing more than was done',
      sql`INSERT INTO jar_event (household_id, seq, entry_id, lot_id, kind, units, occurred_on, recorded_at, reverses_seq)
        VALUES ('quince-yard', 90, 'e', 'january', 'reversed', -6, '2026-08-17', 0, 1)`,
      /undo one event/,
    ],
    [
      "another household's lot",
      sql`INSERT INTO jar_event (household_id, seq, entry_id, lot_id, kind, units, occurred_on, recorded_at)
        VALUES ('elsewhere', 90, 'e', 'january', 'put up', 1, '2026-08-17', 0)`,
      /foreign key constraint/i,
    ],
  ])('refuses %s', async (_, statement, words) => {
    const cast = await shelfWithTwoBatches();

    await expect(statement.execute(cast.db)).rejects.toThrow(words);
    expect(await standing(cast)).toEqual([
      ['january', 7],
      ['july', 9],
    ]);
  });

  test('a whole household can be forgotten, with everything that belongs to it', async () => {
    const cast = await shelfWithTwoBatches();

    await cast.db.transaction().execute((trx) => forgetHousehold(trx, quinceYard));

    expect(await cast.db.selectFrom('jar_event').selectAll().execute()).toEqual([]);
    expect(await cast.db.selectFrom('lot').selectAll().execute()).toEqual([]);
  });
});
