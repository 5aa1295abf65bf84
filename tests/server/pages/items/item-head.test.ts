import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { curedPickles, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// One item, whichever of its parts is looked at: its stock, the jar to take and its year on top.

const parts = ['shelf', 'year', 'targets', 'items'];

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam-of-spring',
    itemId: plumJam,
    units: 6,
    madeOn: '2026-04-10',
    bestQualityUntil: '2027-04-10',
  });
});
afterEach(() => pages.close());

/** From the name of the item to its parts. */
const headOf = (body: string): string =>
  body.slice(body.indexOf('<h1'), body.indexOf('aria-label="', body.indexOf('</figure>')));

describe.each(parts)('the part at /%s of an item', (at) => {
  it('has its stock, the jar to take and its board on top', async () => {
    const head = headOf((await pages.visitor.open(`/${at}/plum-jam`)).body);

    expect(wordsOf(head).trim()).toMatch(/^Plum jam 6 half-pints /);
    expect(wordsOf(head)).toContain('Took one Take the half-pint marked jam-of-spring');
    expect(head).toContain('class="board-picture"');
  });

  it('takes one and comes again with the way back', async () => {
    const answer = await pages.visitor.submitOn(`/${at}/plum-jam`, {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one' },
    });
    const again = await pages.visitor.open(`/${at}/plum-jam`);
    const undone = await pages.visitor.submit(again, { form: '/shelf/reversals' });

    expect(answer).toMatchObject({ status: 303, location: `/${at}/plum-jam#undo` });
    expect(wordsOf(again.body)).toContain('Took 1 half-pint of Plum jam just now');
    expect(wordsOf(again.body)).toMatch(/Plum jam 5 half-pints/);
    expect(undone).toMatchObject({ status: 303, location: `/${at}/plum-jam#undo` });
    const shelf = await shelfByItem(pages.db, quinceYard);
    expect(shelf.find(({ item }) => item.id === plumJam)?.units).toBe(6);
  });

  it('has the board without the button where none is left', async () => {
    const { body } = await pages.visitor.open(`/${at}/${curedPickles}`);

    expect(headOf(body)).toContain('class="board-picture"');
    expect(body).not.toContain('Took one');
  });
});
