import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { moveLots } from '../../../../server/records/shelf/move-lots.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import type { LotId, PlaceId } from '../../../../shared/ids.ts';
import { refusalOf, worked } from '../../../builders/outcomes.ts';
import { greenBeans, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
const cellar = 'cellar' as PlaceId;
const kitchen = 'kitchen-shelf' as PlaceId;

beforeEach(async () => {
  pages = await quinceYardPages();
  await pages.db
    .insertInto('place')
    .values([
      { household_id: quinceYard, id: kitchen, name: 'Kitchen shelf', kind: 'shelf' },
      { household_id: quinceYard, id: 'chest', name: 'Chest freezer', kind: 'freezer' },
    ])
    .execute();
  const jar = { units: 4, madeOn: '2026-07-01', bestQualityUntil: '2027-07-01' };
  await shelve(pages.db, { ...jar, id: 'jam', itemId: plumJam });
  await shelve(pages.db, { ...jar, id: 'beans', itemId: greenBeans, jarKind: 'pint/regular' });
  await pages.db.updateTable('lot').set({ place_id: cellar }).execute();
});
afterEach(() => pages.close());

const placeOf = async (lotId: string) =>
  (await lotsOf(pages.db, quinceYard, { lotId }))[0]?.place?.id ?? null;
const move = (lotIds: readonly string[], placeId: PlaceId) =>
  moveLots(pages.writer(), { lotIds: lotIds as LotId[], placeId });

describe('carrying batches to another place', () => {
  it('moves what was ticked, takes nothing off the shelf, and says so', async () => {
    const page = await pages.visitor.open('/shelf/places');
    const answer = await pages.visitor.submit(page, {
      form: '/shelf/moves',
      fill: { lotIds: 'jam', placeId: kitchen },
    });

    expect([answer.status, answer.location]).toEqual([303, '/shelf/places?moved=1#place-kitchen-shelf']);
    expect([await placeOf('jam'), await placeOf('beans')]).toEqual([kitchen, cellar]);
    expect((await lotsOf(pages.db, quinceYard)).map(({ unitsLeft }) => unitsLeft)).toEqual([4, 4]);
    expect(wordsOf((await pages.visitor.open(answer.location)).body)).toContain(
      '1 batch is in another place now.',
    );
  });

  it('is read in the history of the item, with the places as they were called', async () => {
    worked(await move(['jam'], kitchen));
    await pages.db.updateTable('place').set({ name: 'Pantry' }).where('id', '=', kitchen).execute();

    expect(wordsOf((await pages.visitor.open('/shelf/plum-jam')).body)).toMatch(
      /moved jam from Cellar to Kitchen shelf/,
    );
  });

  it('comes back by an undo from the shelf, and the history keeps both', async () => {
    await pages.visitor.submitOn('/batches/beans', {
      form: '/batches/beans/moves',
      fill: { placeId: kitchen },
    });
    const shelf = await pages.visitor.open('/shelf');
    expect(wordsOf(shelf.body)).toContain('Moved batch beans of Green beans from Cellar to Kitchen shelf');

    await pages.visitor.submit(shelf, { form: '/shelf/reversals' });

    expect(await placeOf('beans')).toBe(cellar);
    expect((await ledgerOf(pages.db, quinceYard, { lotId: 'beans' })).map(({ kind }) => kind)).toEqual([
      'put up',
      'moved',
      'reversed',
    ]);
  });

  it('is not undone over a later move of the same batch', async () => {
    worked(await move(['jam'], kitchen));
    const [, first] = await ledgerOf(pages.db, quinceYard, { lotId: 'jam' });
    worked(await move(['jam'], 'chest' as PlaceId));

    const answer = await undo(pages.writer(), first?.entryId ?? '');

    expect(refusalOf(answer).message).toContain(
      'The batch has left Kitchen shelf; it is in Chest freezer now.',
    );
    expect(await placeOf('jam')).toBe('chest');
  });

  it('leaves a batch nowhere when the place it came from is gone', async () => {
    worked(await move(['jam', 'beans'], kitchen));
    await pages.db.deleteFrom('place').where('id', '=', cellar).execute();
    const [, moved] = await ledgerOf(pages.db, quinceYard, { lotId: 'jam' });

    worked(await undo(pages.writer(), moved?.entryId ?? ''));

    expect(await placeOf('jam')).toBeNull();
  });

  it('carries all that was ticked or nothing', async () => {
    const answer = await move(['jam', 'no-such-batch'], kitchen);

    expect(refusalOf(answer).message).toContain('That batch has nothing left.');
    expect(await placeOf('jam')).toBe(cellar);
  });

  it('keeps what is frozen in a freezer', async () => {
    await pages.db
      .updateTable('item')
      .set({ keeping: 'frozen', unit: 'bag', usual_jar: null })
      .where('id', '=', greenBeans)
      .execute();

    const answer = await pages.visitor.submitOn('/batches/beans', {
      form: '/batches/beans/moves',
      fill: { placeId: kitchen },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Green beans is kept frozen, and');
    expect(await placeOf('beans')).toBe(cellar);
  });

  it.each([
    ['where it stands already', { placeId: 'cellar' }, 'Choose another place.'],
    ['to a place of nobody', { placeId: 'attic' }, 'Choose a place (Cellar, Chest freezer, Kitchen shelf)'],
    ['to no place', { placeId: '' }, 'Choose a place.'],
  ])('refuses a batch carried %s', async (_, fill, words) => {
    const answer = await pages.visitor.submitOn('/batches/jam', { form: '/batches/jam/moves', fill });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(words);
  });

  it('says on the places page that nothing was ticked', async () => {
    const answer = await pages.visitor.submitOn('/shelf/places', {
      form: '/shelf/moves',
      fill: { placeId: kitchen },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Tick what is carried.');
  });
});
