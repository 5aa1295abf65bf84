import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openConflicts } from '../../../server/queries/shelf/conflicts.ts';
import { ledgerOf } from '../../../server/queries/shelf/ledger.ts';
import { shelfByItem } from '../../../server/queries/shelf/shelf.ts';
import { promisedByItem } from '../../../server/queries/year/promises.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import { deliverTakes } from '../../../server/records/shelf/waiting-takes.ts';
import { oneOf, type Take } from '../../../shared/schemas/shelf/take.ts';
import { lastEntries } from '../../../src/household/last-entries.ts';
import { refusalOf, worked } from '../../builders/outcomes.ts';
import { day, plumJam, quinceYard, shelve, today } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';

let cast: QuinceYardPages;
beforeEach(async () => {
  cast = await quinceYardPages();
  await shelve(cast.db, {
    id: 'jam',
    itemId: plumJam,
    units: 10,
    madeOn: '2026-07-01',
    bestQualityUntil: '2027-07-01',
  });
  await promise(8, '2026-12-06');
});
afterEach(() => cast.close());

const promise = (units: number, on: string, yearly = 0) =>
  cast.db
    .insertInto('occasion')
    .values({
      household_id: quinceYard,
      id: `fair-${on}`,
      item_id: plumJam,
      kind: 'promised',
      on_date: on,
      units,
      yearly,
    })
    .execute();
const jam = (over: Partial<Take> = {}): Take => ({ ...oneOf(plumJam), ...over });
const takeJam = (over: Partial<Take> = {}) => take(cast.writer(), jam(over));
const left = async () =>
  (await shelfByItem(cast.db, quinceYard)).find(({ item }) => item.id === plumJam)?.units;
const kept = async (on = today) => (await promisedByItem(cast.db, quinceYard, on)).get(plumJam);

describe('what is promised', () => {
  it('is kept back by the record, whoever asks: ten stand, eight are promised, two are free', async () => {
    worked(await takeJam({ units: 2 }));

    expect(refusalOf(await takeJam())).toEqual({
      code: 'promised',
      field: 'units',
      message:
        '8 jars of Plum jam are promised for Dec 6, 2026, so 0 jars can be taken on Aug 17, 2026, not 1. Take fewer, or say that it is for the promise.',
    });
    expect(refusalOf(await takeJam({ kind: 'given away' })).code).toBe('promised');
    expect(refusalOf(await takeJam({ lotId: 'jam' as NonNullable<Take['lotId']> })).code).toBe('promised');
    expect(await left()).toBe(8);
  });

  it('may be thrown away all the same: what is spoilt cannot be given', async () => {
    worked(await takeJam({ units: 9, kind: 'discarded', reason: 'not-sealed' }));

    expect(await left()).toBe(1);
  });

  it('is taken for the promise when the person says so; that much is no longer kept back and trains no use', async () => {
    worked(await takeJam({ units: 5, kind: 'given away', forPromise: true }));

    expect(await kept()).toEqual({ units: 3, until: '2026-12-06' });
    const [entry] = await lastEntries(await ledgerOf(cast.db, quinceYard), 1);
    expect(entry?.events.map(({ trainsUse }) => trainsUse)).toEqual([false]);
    worked(await takeJam({ units: 2 }));
    expect(refusalOf(await takeJam()).code).toBe('promised');
  });

  it('is kept back again when that was undone', async () => {
    const { entryId } = worked(await takeJam({ units: 5, forPromise: true }));

    worked(await undo(cast.writer(), entryId ?? ''));

    expect(await kept()).toEqual({ units: 8, until: '2026-12-06' });
  });

  it('is refused as a promise where there is none', async () => {
    await cast.db.deleteFrom('occasion').execute();

    expect(refusalOf(await takeJam({ forPromise: true })).code).toBe('no-promise');
  });

  it('may be eaten where a batch that is ready by then takes its place', async () => {
    await shelve(cast.db, {
      id: 'curing',
      itemId: plumJam,
      units: 8,
      madeOn: '2026-08-10',
      readyFrom: '2026-10-01',
      bestQualityUntil: '2027-08-10',
    });

    worked(await takeJam({ units: 10 }));
  });

  it('returns every year where it is promised every year', async () => {
    await cast.db.deleteFrom('occasion').execute();
    await promise(4, '2024-10-20', 1);

    expect(await kept()).toEqual({ units: 4, until: '2026-10-20' });
    expect(await kept(day('2026-11-01'))).toBeUndefined();
    expect(await kept(day('2027-09-01'))).toEqual({ units: 4, until: '2027-10-20' });
  });
});

describe('a promised jar taken without signal', () => {
  it('is written down and said: it is gone, and the promise is short', async () => {
    const taken = (at: number) => ({
      key: `device-take-${at}`,
      household: quinceYard,
      person: '',
      itemId: plumJam,
      lotId: null,
      units: '1',
      outcome: 'took-one',
      occurredOn: today,
      deviceAt: at,
    });

    const answers = await deliverTakes(cast.writer(), [taken(1), taken(2), taken(3)], '');

    expect(answers.map(({ state, message }) => [state, message])).toEqual([
      ['counted', ''],
      ['counted', ''],
      ['counted', 'It was kept back for a promise, which is that much short now.'],
    ]);
    expect([await left(), await openConflicts(cast.db, quinceYard)]).toEqual([7, []]);
    expect(wordsOf((await cast.visitor.open('/shelf')).body)).toContain(
      '8 half-pints are promised for Dec 6, 2026: 1 half-pint short.',
    );
  });
});

describe('the shelf page', () => {
  const send = (fill: Record<string, string>) =>
    cast.visitor.submitOn('/shelf', { form: '/shelf/plum-jam/takes', fill });

  it('offers what is free, then only the tick for the promise', async () => {
    expect(wordsOf((await cast.visitor.open('/shelf')).body)).toContain(
      '8 half-pints are promised for Dec 6, 2026.',
    );
    await send({ outcome: 'taken', units: '2' });

    const body = (await cast.visitor.open('/shelf')).body;

    expect(body).not.toContain('aria-label="Took one: Plum jam"');
    expect(wordsOf(body)).toContain('All that is left is promised for Dec 6, 2026.');
    expect(wordsOf(body)).toContain('It is for the promise of Dec 6, 2026');
    expect((await send({ outcome: 'given-away', units: '8' })).status).toBe(303);
    expect(await left()).toBe(0);
    expect(wordsOf((await cast.visitor.open('/shelf')).body)).toContain('for the promise of 2026-12-06');
  });

  it('sends a take of more than is free back with the reason beside the number', async () => {
    const answer = await send({ outcome: 'taken', units: '3' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('so 2 jars can be taken on');
  });

  it('takes nothing from a page that shows the shelf of another household', async () => {
    const page = await cast.visitor.open('/shelf');
    const answer = await cast.visitor.submit(page, {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one', household: 'plum-court' },
    });

    expect([answer.status, answer.location]).toEqual([303, '/shelf?said=elsewhere']);
    expect(wordsOf((await cast.visitor.open(answer.location)).body)).toContain(
      'Nothing was taken: that page showed',
    );
    expect(await left()).toBe(10);
  });
});
