import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { labelGrid } from '../../../../server/queries/shelf/label-grid.ts';
import { usualLabelGrid } from '../../../../shared/schemas/shelf/label-grid.ts';
import { plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 9,
    madeOn: '2026-08-15',
    bestQualityUntil: '2027-08-15',
  });
});
afterEach(() => pages.close());

describe('labels', () => {
  it('offer one for each new jar', async () => {
    const { body } = await pages.visitor.open('/labels');

    expect(body).toMatch(/name="lot-jam"[^>]* value="9"/);
  });

  it('refuse a grid that does not fit the paper, say by how much, and keep what was typed', async () => {
    const answer = await pages.visitor.submitOn('/labels', {
      form: '/labels/grid',
      fill: { columns: '4', widthMm: '63.5' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(
      'The labels must fit on A4, which is 210 mm across; these need 268.7 mm.',
    );
    expect(answer.body).toMatch(/name="columns"[^>]* value="4"/);
    expect(await labelGrid(pages.db, quinceYard)).toEqual(usualLabelGrid);
  });

  it.each([
    ['lot-jam=0', 'All counts are empty or 0.'],
    ['lot-jam=2&start=22', 'Begin at label cannot be “22”. Write a whole number from 1 to 21'],
    ['lot-jam=many', 'cannot be “many”'],
    ['lot-jam=999&lot-beans=999', '1000 labels at once is the most.'],
  ])('ask again for %s', async (query, message) => {
    const answer = await pages.visitor.open(`/labels/sheet?${query}`);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
  });

  it('lay nothing out for a batch that is not there', async () => {
    const answer = await pages.visitor.open('/labels/sheet?lot-nothing=3');

    expect(answer.status).toBe(200);
    expect(answer.body).not.toContain('class="label"');
  });
});
