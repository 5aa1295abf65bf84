import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openConflicts } from '../../../../server/queries/shelf/conflicts.ts';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { deliverTakes } from '../../../../server/records/shelf/waiting-takes.ts';
import { addDays } from '../../../../shared/week.ts';
import { worked } from '../../../builders/outcomes.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve, today } from '../../../builders/quince-yard.ts';

const lotIds = ['a', 'b', 'c', 'd'];
/** The last lot holds fewer than are taken from it. */
const unitsIn: Readonly<Record<string, number>> = { a: 40, b: 40, c: 40, d: 5 };

async function shelfWithLots() {
  const cast = await quinceYardHousehold();
  for (const id of lotIds)
    await shelve(cast.db, {
      id,
      itemId: plumJam,
      units: unitsIn[id] ?? 0,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });
  return cast;
}
type Cast = Awaited<ReturnType<typeof shelfWithLots>>;

const waiting = (at: number, lotId: string | null, over: Record<string, unknown> = {}) => ({
  key: `device-take-${String(at).padStart(3, '0')}`,
  household: quinceYard,
  person: '',
  itemId: plumJam,
  lotId,
  units: '1',
  outcome: 'took-one',
  occurredOn: addDays(today, -(at % 9)),
  deviceAt: 1_000_000 + at,
  ...over,
});

const outcomes = ['took-one', 'given-away', 'not-to-taste', 'unsealed'];
/** Fifty takes of named jars; eight of them of the lot that has five. */
const fifty = Array.from({ length: 50 }, (_, at) =>
  waiting(at, at % 6 === 5 ? 'd' : (lotIds[at % 3] ?? 'a'), { outcome: outcomes[at % 4] }),
);

const deliver = ({ writer }: Cast, takes: typeof fifty) => deliverTakes(writer(), takes, '');

/** What the ledger says, whatever order it was written in. */
async function said({ db }: Cast) {
  const events = await ledgerOf(db, quinceYard);
  const words = events
    .filter(({ kind }) => kind !== 'put up')
    .map(({ lotId, kind, units, occurredOn, reason }) => [lotId, kind, units, occurredOn, reason].join(' '));
  return {
    events: words.filter((text) => !text.startsWith('d ')).sort(),
    left: (await lotsOf(db, quinceYard, { empty: true })).map(({ id, unitsLeft }) => [id, unitsLeft]),
    inConflict: (await openConflicts(db, quinceYard)).reduce((sum, { units }) => sum + units, 0),
    ofScarceLot: words.filter((text) => text.startsWith('d ')).length,
  };
}

describe('takes that waited on a device', () => {
  it('a thousand repeated and reordered deliveries of fifty takes give the ledger of one delivery', async () => {
    const once = await shelfWithLots();
    await deliver(once, fifty);
    const expected = await said(once);
    expect(expected).toMatchObject({ ofScarceLot: 5, inConflict: 3 });

    const seed = 20260817;
    const parts = fc.sample(fc.shuffledSubarray(fifty, { minLength: 1, maxLength: 6 }), {
      numRuns: 999,
      seed,
    });
    const often = await shelfWithLots();
    for (const part of parts) await deliver(often, part);
    await deliver(often, fifty.toReversed());

    expect(await said(often), `seed ${seed}`).toEqual(expected);
    await once.db.destroy();
    await often.db.destroy();
  });

  it('are counted in the order in which they were done', async () => {
    const cast = await shelfWithLots();

    const delivered = await deliver(cast, [waiting(3, 'a'), waiting(1, 'a'), waiting(2, 'b')]);

    expect(delivered.map(({ key }) => key)).toEqual([
      'device-take-001',
      'device-take-002',
      'device-take-003',
    ]);
    await cast.db.destroy();
  });

  it('a take of the last jar that another device has taken is kept as a conflict', async () => {
    const cast = await shelfWithLots();
    worked(
      await take(cast.writer(), {
        itemId: plumJam,
        lotId: 'd' as never,
        jarKind: null,
        units: 5,
        kind: 'taken',
        reason: null,
        occurredOn: null,
        late: false,
        forPromise: false,
        takenBy: null,
      }),
    );

    const [delivered] = await deliver(cast, [waiting(1, 'd')]);

    expect(delivered?.state).toBe('conflict');
    expect(await openConflicts(cast.db, quinceYard)).toMatchObject([
      { itemId: plumJam, lotId: 'd', units: 1 },
    ]);
    await cast.db.destroy();
  });

  it('one whose form had arrived, though its answer was lost, counts once', async () => {
    const cast = await shelfWithLots();
    const lost = waiting(1, 'a', { occurredOn: today });
    worked(
      await take(cast.writer({ key: lost.key }), {
        itemId: plumJam,
        lotId: 'a' as never,
        jarKind: null,
        units: 1,
        kind: 'taken',
        reason: null,
        occurredOn: today,
        late: false,
        forPromise: false,
        takenBy: null,
      }),
    );

    const [delivered] = await deliver(cast, [lost]);

    expect(delivered?.state).toBe('counted');
    expect((await lotsOf(cast.db, quinceYard, { lotId: 'a' }))[0]?.unitsLeft).toBe(39);
    await cast.db.destroy();
  });

  it('a clock that runs ahead takes today, and the same again tomorrow counts once', async () => {
    const cast = await shelfWithLots();
    const ahead = waiting(1, 'a', { occurredOn: addDays(today, 2) });

    await deliver(cast, [ahead]);
    const again = await deliverTakes(cast.writer({ on: addDays(today, 1) }), [ahead], '');

    expect(again[0]?.state).toBe('counted');
    const taken = (await ledgerOf(cast.db, quinceYard)).filter(({ kind }) => kind === 'taken');
    expect(taken.map(({ occurredOn }) => occurredOn)).toEqual([today]);
    await cast.db.destroy();
  });

  it('a broken one is refused in words and holds up no other', async () => {
    const cast = await shelfWithLots();

    const delivered = await deliver(cast, [
      waiting(1, 'a', { units: 'many' }),
      waiting(2, 'a', { itemId: 'nothing-like-it', lotId: null }),
      waiting(3, 'a'),
    ]);

    expect(delivered.map(({ state }) => state)).toEqual(['refused', 'refused', 'counted']);
    expect(delivered[0]?.message).toContain('cannot be “many”');
    expect(delivered[1]?.message).toContain('Choose an item from the shelf');
    await cast.db.destroy();
  });

  it('of another household or another person stays on the device, and is written down when they are back', async () => {
    const cast = await shelfWithLots();
    const mine = waiting(1, 'a', { person: 'ida' });
    const others = [
      waiting(2, 'a', { household: 'plum-court' }),
      waiting(3, 'a', { household: 'plum-court', person: 'ida' }),
      waiting(4, 'a', { person: 'joan' }),
    ];

    const states = (await deliverTakes({ ...cast.writer(), by: 'Ida' }, [mine, ...others], 'ida')).map(
      ({ state }) => state,
    );
    const later = await deliverTakes({ ...cast.writer(), by: 'Joan' }, [...others], 'joan');

    expect(states).toEqual(['counted', 'elsewhere', 'elsewhere', 'elsewhere']);
    expect(later.map(({ state }) => state)).toEqual(['elsewhere', 'elsewhere', 'counted']);
    expect((await ledgerOf(cast.db, quinceYard)).slice(4).map(({ recordedBy }) => recordedBy)).toEqual([
      'Ida',
      'Joan',
    ]);
    await cast.db.destroy();
  });

  it('while nobody was signed in is written down by nobody, whoever opens the household', async () => {
    const cast = await shelfWithLots();

    const [delivered] = await deliverTakes({ ...cast.writer(), by: 'Ida' }, [waiting(1, 'a')], 'ida');

    expect(delivered?.state).toBe('counted');
    expect((await ledgerOf(cast.db, quinceYard)).at(-1)?.recordedBy).toBeNull();
    await cast.db.destroy();
  });
});
