import { afterEach, beforeEach, expect, it } from 'vitest';
import { factsChanged } from '../../../builders/facts-changed.ts';
import { greenBeans, plumJam, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

it('says what stands in each place, first to be eaten first, and what has no place', async () => {
  const jam = { itemId: plumJam, units: 3, madeOn: '2026-04-10' };
  await shelve(pages.db, { ...jam, id: 'late-jam', bestQualityUntil: '2027-04-10' });
  await shelve(pages.db, { ...jam, id: 'early-jam', bestQualityUntil: '2027-01-10' });
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 5,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
    jarKind: 'pint/regular',
  });
  await pages.db.updateTable('lot').set({ place_id: 'cellar' }).where('item_id', '=', plumJam).execute();

  const words = wordsOf((await pages.visitor.open('/shelf/places')).body);

  expect(words).toMatch(
    /Cellar item .*Plum jam 3 half-pints early-jam Jan 10, 2027 Plum jam 3 half-pints late-jam Apr 10, 2027 Place not said .*Green beans 5 pints beans/,
  );
});

it('draws what stands there jar by jar and says how much room is left, or why nobody knows', async () => {
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 6,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
    jarKind: 'pint/regular',
  });
  await pages.db.updateTable('lot').set({ place_id: 'cellar' }).execute();
  await pages.db.updateTable('place').set({ capacity_quarts: 20 }).where('id', '=', 'cellar').execute();

  const measured = await pages.visitor.open('/shelf/places');
  expect(wordsOf(measured.body)).toContain('3 qt of 20 qt. Room for 17 qt more.');
  expect(jarsDrawn(measured.body, 'jars')).toBe(6);
  expect(jarsDrawn(measured.body, 'jar-room')).toBe(17);

  await pages.db.updateTable('place').set({ capacity_quarts: null }).where('id', '=', 'cellar').execute();
  await factsChanged(pages.db);
  const unmeasured = await pages.visitor.open('/shelf/places');
  expect(wordsOf(unmeasured.body)).toContain('How much fits here is not said');
  expect(jarsDrawn(unmeasured.body, 'jar-room')).toBe(0);
});

it('says of bags and bins of no known size that nobody knows how full their place is, and draws no room', async () => {
  await pages.db
    .updateTable('item')
    .set({ unit: 'bag', usual_jar: null })
    .where('id', '=', greenBeans)
    .execute();
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 6,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
    jarKind: null,
  });
  await pages.db.updateTable('lot').set({ place_id: 'cellar' }).execute();
  await pages.db.updateTable('place').set({ capacity_quarts: 20 }).where('id', '=', 'cellar').execute();

  const { body } = await pages.visitor.open('/shelf/places');

  expect(wordsOf(body)).toContain('Holds 20 qt. How full it is, is not known');
  expect(jarsDrawn(body, 'jars')).toBe(6);
  expect(jarsDrawn(body, 'jar-room')).toBe(0);
});

/** Each jar of a drawing begins with its own move to its foot. */
const jarsDrawn = (body: string, what: string): number =>
  [...body.matchAll(new RegExp(`class="${what}" d="([^"]*)"`, 'g'))].reduce(
    (sum, [, path = '']) => sum + [...path.matchAll(/M/g)].length,
    0,
  );
