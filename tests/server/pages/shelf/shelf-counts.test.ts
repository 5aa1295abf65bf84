import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { shelfCountsOf } from '../../../../server/queries/shelf/shelf-counts.ts';
import { lastEntries } from '../../../../src/household/last-entries.ts';
import { greenBeans, plumJam, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-04-10',
    bestQualityUntil: '2027-04-10',
  });
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 12,
    madeOn: '2026-07-20',
    bestQualityUntil: '2027-07-20',
    jarKind: 'pint/regular',
  });
});
afterEach(() => pages.close());

const jamLeft = async () =>
  (await shelfByItem(pages.db, quinceYard)).find(({ item }) => item.id === plumJam)?.units;
const counts = () => shelfCountsOf(pages.db, quinceYard, today);
const count = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/shelf/count?item=plum-jam', { form: '/shelf/counts', fill });

describe('counting the shelf', () => {
  it('starts with the first item and hides what the book says', async () => {
    const overview = await pages.visitor.open('/shelf/count');
    const item = await pages.visitor.open('/shelf/count?item=plum-jam');

    expect(overview.body).toContain('href="/shelf/count?item=plum-jam"');
    expect(wordsOf(item.body)).toContain('1 of 4');
    expect(wordsOf(item.body)).not.toMatch(/\b9\b/);
  });

  it('goes straight on to the next item when shelf and book agree', async () => {
    const answer = await count({ units: '9' });

    expect([answer.status, answer.location]).toEqual([303, '/shelf/count?item=green-beans']);
    expect(await counts()).toMatchObject([{ itemId: plumJam, bookUnits: 9, countedUnits: 9 }]);
    expect(await jamLeft()).toBe(9);
  });

  it('shows the difference first, and takes it for eaten and not written down', async () => {
    const shown = await count({ units: '7' });
    expect(shown.status).toBe(200);
    expect(wordsOf(shown.body)).toContain('The book says 9; you counted 7: 2 fewer.');
    expect(shown.body).toMatch(/value="taken-unrecorded" checked/);
    expect(await counts()).toEqual([]);

    const saved = await pages.visitor.submit(shown, { form: '/shelf/counts' });

    expect(saved.status).toBe(303);
    expect(await jamLeft()).toBe(7);
    const [entry] = await lastEntries(await ledgerOf(pages.db, quinceYard), 1);
    expect(entry?.events[0]).toMatchObject({ kind: 'counted', units: -2, trainsUse: true });
  });

  it.each(['miscount', 'breakage', 'gift'])(
    'a said %s corrects the book and teaches nothing',
    async (said) => {
      const shown = await count({ units: '7' });
      await pages.visitor.submit(shown, { form: '/shelf/counts', fill: { explainedAs: said } });

      const [entry] = await lastEntries(await ledgerOf(pages.db, quinceYard), 1);
      expect(entry?.events[0]).toMatchObject({ reason: said, trainsUse: false });
      expect(await jamLeft()).toBe(7);
    },
  );

  it('takes more than the book for found again', async () => {
    const shown = await count({ units: '10' });
    await pages.visitor.submit(shown, { form: '/shelf/counts' });

    expect(wordsOf(shown.body)).toContain('The book says 9; you counted 10: 1 more.');
    expect(await jamLeft()).toBe(10);
  });

  it.each([
    ['-1', 'The number cannot be “-1”. Write a number from 0 to 5,000.'],
    ['some', 'The number cannot be “some”. Write a number from 0 to 5,000, in digits'],
    ['', 'The number is empty.'],
    ['6.5', 'Plum jam is counted in whole jars, and 6.5 is not.'],
  ])('refuses “%s” and keeps it', async (units, message) => {
    const first = await count({ units });
    const answer =
      first.status === 422 ? first : await pages.visitor.submit(first, { form: '/shelf/counts' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(await counts()).toEqual([]);
  });

  it('ends with what was counted today', async () => {
    await count({ units: '9' });
    for (const item of ['green-beans', 'cured-pickles', 'oats'])
      await pages.visitor.submitOn(`/shelf/count?item=${item}`, {
        form: '/shelf/counts',
        fill: { units: item === 'green-beans' ? '12' : '0' },
      });

    const words = wordsOf((await pages.visitor.open('/shelf/count')).body);

    expect(words).toContain('Everything was counted today.');
    expect(words).toContain('Plum jam 9 9 as the book says');
  });

  it('says what share is only seen at counts, once a count has shown any', async () => {
    const before = wordsOf((await pages.visitor.open('/shelf/count')).body);
    const shown = await count({ units: '3' });
    await pages.visitor.submit(shown, { form: '/shelf/counts' });
    const [onCount, onTargets] = [
      wordsOf((await pages.visitor.open('/shelf/count')).body),
      wordsOf((await pages.visitor.open('/targets')).body),
    ];

    expect(before).not.toContain('unrecorded until');
    // Six of eleven: six found missing beside the five that a household is trusted with at the start.
    expect(onCount).toContain('About half of your jars go unrecorded until you count the shelf.');
    expect(onTargets).toContain('About half of your jars go unrecorded until you count the shelf.');
  });
});
