import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { labelGrid } from '../../../../server/queries/shelf/label-grid.ts';
import {
  commonSheets,
  labelGridForm,
  papers,
  usualLabelGrid,
  usualLabelGridInInches,
} from '../../../../shared/schemas/shelf/label-grid.ts';
import { plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

/** As a form sends it. */
const asTyped = (grid: object) =>
  Object.fromEntries(Object.entries(grid).map(([name, value]) => [name, String(value)]));

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
  it('offer one for each jar of the last canning day, however long ago, and none for what was bought or put up before', async () => {
    const older = { itemId: plumJam, units: 4, bestQualityUntil: '2027-06-01' } as const;
    await shelve(pages.db, { ...older, id: 'older', madeOn: '2026-06-01' });

    const { body } = await pages.visitor.open('/labels');

    expect(body).toMatch(/name="lot-jam"[^>]* value="9"/);
    expect(body).not.toMatch(/name="lot-older"[^>]* value="\d/);
    expect(body.indexOf('name="lot-jam"')).toBeLessThan(body.indexOf('name="lot-older"'));
  });

  it('begin on Letter in inches where amounts are in pounds, and say by how much a grid does not fit it', async () => {
    const before = await pages.visitor.open('/labels');
    expect(wordsOf(before.body)).toContain('From the label package, in inches.');
    expect(before.body).toMatch(/name="widthMm"[^>]* value="4"/);
    expect(before.body).toMatch(/name="heightMm"[^>]* value="2"/);

    const answer = await pages.visitor.submitOn('/labels', {
      form: '/labels/grid',
      fill: { columns: '4', widthMm: '2.5' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(
      'The labels must fit on Letter, which is 8.5 in across; these need 10.72 in.',
    );
    expect(answer.body).toMatch(/name="columns"[^>]* value="4"/);
    expect(await labelGrid(pages.db, quinceYard)).toEqual(usualLabelGridInInches);
  });

  it('keep in mm what was typed in inches, and show it in inches again', async () => {
    const answer = await pages.visitor.submitOn('/labels', {
      form: '/labels/grid',
      fill: { columns: '3', rows: '10', widthMm: '2.625', heightMm: '1', leftMm: '0.188', acrossMm: '0.125' },
    });

    expect(answer.status).toBe(303);
    const { body } = await pages.visitor.open('/labels');
    expect(body).toMatch(/name="widthMm"[^>]* value="2.625"/);
    expect((await labelGrid(pages.db, quinceYard)).widthMm).toBeCloseTo(66.675, 3);
  });

  it('begin on A4 in millimeters where amounts are in kilograms', async () => {
    await pages.db.updateTable('household').set({ units: 'metric' }).where('id', '=', quinceYard).execute();

    const { body } = await pages.visitor.open('/labels');
    expect(wordsOf(body)).toContain('From the label package, in millimeters.');
    expect(await labelGrid(pages.db, quinceYard)).toEqual(usualLabelGrid);

    const answer = await pages.visitor.submitOn('/labels', {
      form: '/labels/grid',
      fill: { columns: '4', widthMm: '63.5' },
    });
    expect(wordsOf(answer.body)).toContain(
      'The labels must fit on A4, which is 210 mm across; these need 268.7 mm.',
    );
  });

  it.each(papers.flatMap((paper) => commonSheets[paper].map((sheet) => [paper, sheet] as const)))(
    'offer sheets as they are sold that fit their paper: %s %o',
    (paper, sheet) => {
      expect(labelGridForm.safeParse(asTyped({ ...sheet, paper, address: '' })).success).toBe(true);
    },
  );

  it.each([
    ['lot-jam=0', 'All counts are empty or 0.'],
    ['lot-jam=2&start=11', 'Begin at label cannot be “11”. Write a whole number from 1 to 10'],
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
