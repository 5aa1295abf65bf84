import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf, shelfByItem } from '../../../../server/queries/shelf/shelf.ts';
import { lastEntries } from '../../../../src/household/last-entries.ts';
import { curedPickles, greenBeans, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam-of-2025',
    itemId: plumJam,
    units: 2,
    madeOn: '2025-08-20',
    bestQualityUntil: '2026-08-20',
  });
  await shelve(pages.db, {
    id: 'jam-of-spring',
    itemId: plumJam,
    units: 6,
    madeOn: '2026-04-10',
    bestQualityUntil: '2027-04-10',
  });
});
afterEach(() => pages.close());

const unitsOf = async (itemId: string) =>
  (await shelfByItem(pages.db, quinceYard)).find(({ item }) => item.id === itemId)?.units;
const leftIn = async (lotId: string) =>
  (await lotsOf(pages.db, quinceYard, { lotId, empty: true }))[0]?.unitsLeft;
const lastEntry = async () => (await lastEntries(await ledgerOf(pages.db, quinceYard), 1))[0];

describe('taking one', () => {
  it('names the jar whose turn it is, takes it, and answers with its row, the undo and the notices', async () => {
    const page = await pages.visitor.open('/shelf');
    expect(wordsOf(page.body)).toContain('Take the half-pint marked jam-of-2025');

    const answer = await pages.visitor.submit(page, {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one' },
      asPart: true,
    });

    expect(answer.status).toBe(200);
    expect(answer.body).toMatch(/^<li class="shelf-row" id="item-plum-jam">/);
    expect(answer.body).toContain('id="undo" class="undo-bar" aria-live="polite" hx-swap-oob="true"');
    expect(answer.body).toContain('id="notice-count" hx-swap-oob="true"');
    expect(wordsOf(answer.body)).toContain('7 half-pints');
    expect(wordsOf(answer.body)).toContain('Took 1 half-pint of Plum jam just now');
    expect([await leftIn('jam-of-2025'), await leftIn('jam-of-spring')]).toEqual([1, 6]);
  });

  it('works without script: a plain post leads back to the shelf with the undo bar', async () => {
    const answer = await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one' },
    });
    const shelf = await pages.visitor.open('/shelf');

    expect([answer.status, answer.location]).toEqual([303, '/shelf#undo']);
    expect(wordsOf(shelf.body)).toContain('Took 1 half-pint of Plum jam just now');
    expect(await unitsOf(plumJam)).toBe(7);
  });

  it('counts once when the same form arrives twice', async () => {
    const page = await pages.visitor.open('/shelf');
    const submission = { form: '/shelf/plum-jam/takes', fill: { outcome: 'took-one' } };

    const answers = [
      await pages.visitor.submit(page, submission),
      await pages.visitor.submit(page, submission),
    ];

    expect(answers.map(({ status }) => status)).toEqual([303, 303]);
    expect(await unitsOf(plumJam)).toBe(7);
  });

  it('refuses the same form with other contents, and the first one counts', async () => {
    const page = await pages.visitor.open('/shelf');
    const form = '/shelf/plum-jam/takes';
    await pages.visitor.submit(page, { form, fill: { outcome: 'took-one' } });
    const answer = await pages.visitor.submit(page, { form, fill: { outcome: 'given-away' } });

    expect(answer.status).toBe(409);
    expect(wordsOf(answer.body)).toContain('This form was already sent with other contents');
    expect(await unitsOf(plumJam)).toBe(7);
  });

  it('ignores what is half typed in the fields of the other outcomes', async () => {
    await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one', units: 'x', day: 'other', date: '' },
    });

    expect(await lastEntry()).toMatchObject({ kind: 'taken', units: -1, occurredOn: '2026-08-17' });
  });
});

describe('the other outcomes', () => {
  it.each([
    ['given-away', 'given away', null],
    ['not-to-taste', 'discarded', 'taste'],
    ['unsealed', 'discarded', 'not-sealed'],
  ])('%s is one more touch', async (outcome, kind, reason) => {
    const answer = await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome },
      asPart: true,
    });

    expect(answer.status).toBe(200);
    expect(await lastEntry()).toMatchObject({ kind, reason, units: -1 });
  });

  // Handling: USDA Complete Guide to Home Canning, Guide 1, identifying and handling spoiled canned food (read in a copy).
  it('tells how a suspect jar is handled, where the person looks, by how acid the food is', async () => {
    await shelve(pages.db, {
      id: 'beans-of-july',
      itemId: greenBeans,
      units: 4,
      madeOn: '2026-07-20',
      bestQualityUntil: '2027-07-20',
      jarKind: 'pint/regular',
    });
    const say = async (item: string) => {
      const answer = await pages.visitor.submitOn('/shelf', {
        form: `/shelf/${item}/takes`,
        fill: { outcome: 'unsealed' },
        asPart: true,
      });
      return wordsOf(answer.body.slice(0, answer.body.indexOf('</li><div id="undo"')));
    };

    const acid = await say('plum-jam');
    const lowAcid = await say('green-beans');

    expect(acid).toContain('Plum jam: do not taste it');
    expect(acid).not.toContain('boil');
    expect(lowAcid).toContain('Green beans: do not taste it');
    expect(lowAcid).toContain('boil 30 minutes');
    expect(lowAcid).toContain('Swollen, still sealed');
    expect(lowAcid).toContain('USDA-SPOILED');
  });

  it('takes several at once across batches, for yesterday or last Sunday', async () => {
    await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'taken', units: '3', day: 'yesterday' },
    });
    const entry = await lastEntry();

    expect(entry).toMatchObject({ kind: 'taken', units: -3, occurredOn: '2026-08-16' });
    expect(entry?.events.map(({ batchCode, units }) => [batchCode, units])).toEqual([
      ['jam-of-2025', -2],
      ['jam-of-spring', -1],
    ]);
  });

  it.each<[Record<string, string>, string]>([
    [{ units: '-2' }, 'How many cannot be “-2”. Write a number from 0.01 to 500.'],
    [{ units: 'two' }, 'cannot be “two”. Write a number from 0.01 to 500, in digits'],
    [{ units: '1.5' }, 'Plum jam is counted in whole jars, and 1.5 is not.'],
    [{ units: '90' }, 'The book has 8 jars of Plum jam, not 90.'],
    [{ day: 'other', date: '2026-02-30' }, '“2026-02-30”, which is no day of the calendar'],
    [{ day: 'other', date: '' }, 'is empty. Pick a day.'],
    [{ day: 'other', date: '2026-09-01' }, 'Sep 1, 2026 is still to come; today is Aug 17, 2026'],
    [{ day: 'someday' }, 'There is no day “someday”'],
  ])('refuses %j, keeps what was typed and takes nothing', async (fill, message) => {
    const submission = { form: '/shelf/plum-jam/takes', fill: { outcome: 'taken', ...fill } };

    const part = await pages.visitor.submitOn('/shelf', { ...submission, asPart: true });
    const whole = await pages.visitor.submitOn('/shelf', submission);

    for (const answer of [part, whole]) {
      expect(answer.status).toBe(422);
      expect(wordsOf(answer.body)).toContain(message);
      expect(answer.body).toContain('<details class="take-other" open');
      if (fill.units !== undefined) expect(answer.body).toContain(`value="${fill.units}"`);
    }
    expect(part.body).toMatch(/^<li class="shelf-row"/);
    expect(whole.body).toMatch(/^<!doctype html>/);
    expect(await unitsOf(plumJam)).toBe(8);
  });

  it('answers an unknown item with a page that says so', async () => {
    const page = await pages.visitor.open('/shelf');
    const { body } = page;
    const elsewhere = { ...page, body: body.replaceAll('/shelf/plum-jam/takes', '/shelf/dragon-jam/takes') };

    const answer = await pages.visitor.submit(elsewhere, {
      form: '/shelf/dragon-jam/takes',
      fill: { outcome: 'took-one' },
    });

    expect(answer.status).toBe(404);
  });
});

describe('what is not offered', () => {
  it('says from when a curing batch may be taken', async () => {
    await shelve(pages.db, {
      id: 'new-pickles',
      itemId: curedPickles,
      units: 7,
      madeOn: '2026-08-10',
      readyFrom: '2026-09-21',
      bestQualityUntil: '2027-08-10',
      jarKind: 'quart/wide',
    });

    expect(wordsOf((await pages.visitor.open('/shelf')).body)).toContain('Not ready before Sep 21, 2026.');
  });

  it('keeps promised jars back until their day', async () => {
    await pages.db
      .insertInto('occasion')
      .values({
        household_id: quinceYard,
        id: 'fair',
        item_id: plumJam,
        kind: 'promised',
        on_date: '2026-09-05',
        units: 8,
        yearly: 0,
      })
      .execute();

    const words = wordsOf((await pages.visitor.open('/shelf')).body);

    expect(words).toContain('All that is left is promised for Sep 5, 2026.');
    expect(words).not.toContain('Take the half-pint marked');
  });

  it('lets a set-aside batch only be thrown away', async () => {
    await shelve(pages.db, {
      id: 'beans-aside',
      itemId: greenBeans,
      units: 4,
      madeOn: '2026-08-01',
      bestQualityUntil: '2027-08-01',
      jarKind: 'pint/regular',
      setAside: 'gauge found wrong',
    });

    const page = await pages.visitor.open('/shelf/green-beans?lot=beans-aside');

    expect(wordsOf(page.body)).toContain('Set aside: gauge found wrong. Not to be eaten.');
    expect(page.body).not.toContain('value="took-one"');
    expect(page.body).toContain('value="unsealed"');
  });
});

describe('a jar the book no longer had', () => {
  it('is kept as a difference, shown, and settled by what somebody says', async () => {
    const page = await pages.visitor.open('/shelf');
    await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'taken', units: '2', day: 'today' },
    });
    const late = await pages.visitor.submit(page, {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one', key: 'another-phone' },
      asPart: true,
    });
    const shown = await pages.visitor.open('/shelf');
    const settled = await pages.visitor.submit(shown, {
      form: '/shelf/conflicts/',
      fill: { settledAs: 'was the same jar' },
    });

    expect(wordsOf(late.body)).toContain('The book had fewer than that.');
    expect(wordsOf(shown.body)).toContain('Plum jam: 1 taken on Aug 17, but the book had none left of it.');
    expect(settled.status).toBe(303);
    expect(wordsOf((await pages.visitor.open('/shelf')).body)).not.toContain('Shelf and book differ');
    expect(await unitsOf(plumJam)).toBe(6);
  });
});

describe('undo', () => {
  it('puts back what was taken, every batch of it, and says nothing more about it', async () => {
    await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'taken', units: '3', day: 'today' },
    });
    const answer = await pages.visitor.submitOn('/shelf', { form: '/shelf/reversals', asPart: true });

    expect(answer.status).toBe(200);
    expect(wordsOf(answer.body)).toContain('8 half-pints');
    expect(wordsOf(answer.body)).not.toContain('Took 3');
    expect([await leftIn('jam-of-2025'), await leftIn('jam-of-spring')]).toEqual([2, 6]);
  });

  it('works without script and refuses a second undo with a sentence', async () => {
    await pages.visitor.submitOn('/shelf', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one' },
    });
    const page = await pages.visitor.open('/shelf');
    const first = await pages.visitor.submit(page, { form: '/shelf/reversals' });
    const second = await pages.visitor.submit(page, {
      form: '/shelf/reversals',
      fill: { key: 'another-key-1' },
    });

    expect([first.status, first.location]).toEqual([303, '/shelf#undo']);
    expect(second.status).toBe(422);
    expect(wordsOf(second.body)).toContain('is already undone. Nothing is left to do');
    expect(await unitsOf(plumJam)).toBe(8);
  });
});

describe('one item', () => {
  it('shows its batches in order and its history with every line of it', async () => {
    await pages.visitor.submitOn('/shelf/plum-jam', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'took-one' },
    });
    await pages.visitor.submitOn('/shelf/plum-jam', { form: '/shelf/reversals' });

    const words = wordsOf((await pages.visitor.open('/shelf/plum-jam')).body);

    expect(words).toMatch(
      /jam-of-2025 2 half-pints Aug 20, 2025 Aug 20, 2026 say where : move batch jam-of-2025 next to take/,
    );
    expect(words).toContain('undone +1');
    expect(words).toContain('taken −1 jam-of-2025 undone later');
  });

  it('takes from a batch that somebody chose', async () => {
    await pages.visitor.submitOn('/shelf/plum-jam?lot=jam-of-spring', {
      form: '/shelf/plum-jam/takes',
      fill: { outcome: 'taken', units: '2', day: 'today' },
    });

    expect([await leftIn('jam-of-2025'), await leftIn('jam-of-spring')]).toEqual([2, 4]);
  });

  it('is found by the batch on its label', async () => {
    const answer = await pages.visitor.open('/shelf/lots/jam-of-spring');

    expect([answer.status, answer.location]).toEqual([302, '/shelf/plum-jam?lot=jam-of-spring']);
  });

  it('finds items by a part of their name', async () => {
    const words = wordsOf((await pages.visitor.open('/shelf?find=BEAN')).body);

    expect(words).toContain('Green beans');
    expect(words).not.toContain('Plum jam');
    expect(wordsOf((await pages.visitor.open('/shelf?find=yak')).body)).toContain(
      'Nothing on the shelf is called “yak”.',
    );
  });
});

describe('putting on the shelf', () => {
  const filled = { itemId: 'plum-jam', origin: 'put-up', units: '9', madeOn: '2026-08-15' };

  it('adds a batch, with its code to write on the jars', async () => {
    const answer = await pages.visitor.submitOn('/shelf/put-up?item=plum-jam', {
      form: '/shelf/lots',
      fill: filled,
    });

    expect(answer.location).toBe('/shelf/plum-jam?said=put-up');
    expect(wordsOf((await pages.visitor.open(answer.location)).body)).toContain('260815-A');
    expect(await unitsOf(plumJam)).toBe(17);
  });

  it('records a purchase with what was paid', async () => {
    await pages.visitor.submitOn('/shelf/put-up?item=oats', {
      form: '/shelf/lots',
      fill: { units: '10', paid: '8.90' },
    });

    expect(await unitsOf('oats')).toBe(10);
  });

  it.each([
    [{ units: '-1' }, 'How many cannot be “-1”. Write a number from 0.01 to 2,000.'],
    [{ madeOn: '2026-13-01' }, '“2026-13-01”, which is no day of the calendar'],
    [{ itemId: '' }, 'Choose an item.'],
    [{ readyFrom: '2026-08-01' }, 'It was put up on Aug 15, 2026, so it cannot be ready on Aug 1, 2026.'],
    [{ itemId: 'oats' }, 'You only buy Rolled oats.'],
    [{ placeId: 'attic' }, 'or leave it blank.'],
  ])('refuses %j and keeps the form', async (wrong, message) => {
    const fill = { ...filled, ...wrong };
    const answer = await pages.visitor.submitOn('/shelf/put-up', { form: '/shelf/lots', fill });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain(`value="${fill.units}"`);
    expect(await unitsOf(plumJam)).toBe(8);
  });
});
