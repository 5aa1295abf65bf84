import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sourcesOf } from '../../../../server/queries/year/harvest.ts';
import { quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const plumTree = async () => {
  const tree = (await sourcesOf(pages.db, quinceYard)).find(({ id }) => id === 'plum-tree');
  if (!tree) throw new Error('the plum tree is gone');
  return tree;
};

describe('the harvest page', () => {
  it('says what is open, this year and the next, and what it goes into', async () => {
    const words = wordsOf((await pages.visitor.open('/harvest')).body);

    expect(words).toContain('2 sources are open now; first to close: Plum tree, Sep 13.');
    expect(words).toContain('2026 Aug 10 to Sep 13');
    expect(words).toContain('2027 Aug 10 to Sep 13 (as in 2026)');
    expect(words).toContain('Plum jam, 5 lb a batch');
    expect(words).toContain('20 lb a week');
  });
});

describe('the seasons on one axis', () => {
  it('come in the order in which they close, then open, under thirteen months from the present one', async () => {
    const { body } = await pages.visitor.open('/harvest');

    const names = [...body.matchAll(/<summary><h3>([^<]+)</g)].map(([, name]) => name);
    expect(names[0]).toBe('Plum tree');
    expect(names).toHaveLength((await sourcesOf(pages.db, quinceYard)).length);
    const months = [...body.matchAll(/y="25">(\w+)</g)].map(([, month]) => month);
    expect(months).toEqual('Aug Sep Oct Nov Dec Jan Feb Mar Apr May Jun Jul Aug'.split(' '));
    expect(body).not.toMatch(/<details class="source-row[^>]* open/);
  });

  it('a row that was just answered stands open', async () => {
    const { body } = await pages.visitor.open('/harvest?open=plum-tree');

    expect(body.match(/<details class="source-row[^>]* open/g)).toHaveLength(1);
    expect(body).toMatch(/id="source-plum-tree" open/);
  });
});

describe('for who reads kilograms', () => {
  it('weights and prices are shown and typed in kilograms, and kept in pounds', async () => {
    await pages.db.updateTable('household').set({ units: 'metric' }).execute();
    await pages.db.updateTable('source').set({ price_cents_per_lb: 150 }).execute();

    const shown = wordsOf((await pages.visitor.open('/harvest')).body);
    const answer = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2026',
      fill: { lbPerWeek: '10' },
    });
    await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree',
      fill: { pricePerLb: '4.41', lbPerPlant: '5' },
    });

    // 20 lb are 9.07 kg; $1.50 a lb is $3.31 a kg; 10 kg are 22.046 lb; $4.41 a kg is $2.00 a lb.
    expect(shown).toContain('9.1 kg a week');
    expect(shown).toContain('$3.31 a kg');
    expect(answer.status).toBe(303);
    const tree = await plumTree();
    expect(tree.windows[0]?.lbPerWeek).toBeCloseTo(22.046, 3);
    expect(tree.pricePerLb).toBe(200);
    expect(tree.lbPerPlant).toBeCloseTo(11.023, 3);
  });

  it('what is no number comes back as it was typed', async () => {
    await pages.db.updateTable('household').set({ units: 'metric' }).execute();

    const answer = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2026',
      fill: { lbPerWeek: 'plenty' },
    });

    expect(answer.status).toBe(422);
    expect(answer.body).toContain('value="plenty"');
  });
});

describe('first picked today', () => {
  it('shifts this year’s window and answers with the card alone', async () => {
    const answer = await pages.visitor.submitOn('/harvest', {
      form: '/harvest/plum-tree/first-picking',
      fill: { day: 'today' },
      asPart: true,
    });

    expect(answer.status).toBe(200);
    expect(answer.body).toMatch(/^<details class="source-row[^"]*" id="source-plum-tree" open>/);
    expect(wordsOf(answer.body)).toContain('First picked Aug 17: this year runs 7 days late.');
    expect(wordsOf(answer.body)).toContain('2026 Aug 17 to Sep 20; 7 days late');
    expect(wordsOf(answer.body)).toContain('2027 Aug 10 to Sep 13');
    expect((await plumTree()).windows[0]?.firstPickedOn).toBe('2026-08-17');
  });

  it('is taken back, and works without script', async () => {
    await pages.visitor.submitOn('/harvest', {
      form: '/harvest/plum-tree/first-picking',
      fill: { day: 'today' },
    });
    const answer = await pages.visitor.submitOn('/harvest', {
      form: '/harvest/plum-tree/first-picking',
      fill: { day: 'none' },
    });

    expect([answer.status, answer.location]).toEqual([303, '/harvest?open=plum-tree#source-plum-tree']);
    expect((await plumTree()).windows[0]?.firstPickedOn).toBeNull();
  });

  it.each([
    ['2026-09-01', 'Sep 1, 2026 is still to come; today is Aug 17, 2026'],
    ['2026-02-30', '“2026-02-30”, which is no day of the calendar'],
    ['2026-05-01', 'May 1, 2026 is more than 60 days from the usual begin, Aug 10, 2026'],
    ['2025-08-12', 'The dates of Plum tree for 2025 are not written down yet.'],
  ])('refuses %s and keeps what was typed', async (date, message) => {
    const answer = await pages.visitor.submitOn('/harvest', {
      form: '/harvest/plum-tree/first-picking',
      fill: { day: 'other', date },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(answer.body).toContain(`value="${date}"`);
    expect((await plumTree()).windows[0]?.firstPickedOn).toBeNull();
  });
});

describe('a source and its dates', () => {
  it('adds a source with its poor years as a household says them', async () => {
    const answer = await pages.visitor.submitOn('/harvest/new', {
      form: '/harvest',
      fill: {
        name: 'Ridge orchard',
        crop: 'plum',
        kind: 'pick-your-own',
        pricePerLb: '1.25',
        poorYearsInTen: '2',
        poorYearPercent: '40',
      },
    });

    expect(answer.location).toBe('/harvest/ridge-orchard');
    expect((await sourcesOf(pages.db, quinceYard)).find(({ id }) => id === 'ridge-orchard')).toMatchObject({
      pricePerLb: 125,
      poorYearChance: 0.2,
      poorYearShare: 0.4,
    });
  });

  // A bushel of plums 56 lb: USDA Complete Guide 2 (2015), p2-21 (read).
  it('takes a price by the bushel and a week’s harvest in pecks, and keeps both by the pound', async () => {
    await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree',
      fill: { pricePerLb: '28', priceUnit: 'bushel' },
    });
    const answer = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2026',
      fill: { lbPerWeek: '3', amountUnit: 'peck' },
    });

    expect(answer.status).toBe(303);
    const tree = await plumTree();
    expect(tree.pricePerLb).toBe(50);
    expect(tree.windows[0]?.lbPerWeek).toBeCloseTo(42, 6);
    const lugs = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2026',
      fill: { lbPerWeek: '3', amountUnit: 'lug', lastOn: 'soon' },
    });
    expect(lugs.status).toBe(422);
    expect(wordsOf(lugs.body)).toContain(
      'We have no published weight for a lug of plums. Write pounds, or count in a bushel (56 lb)',
    );
    expect(wordsOf(lugs.body)).toContain('Last day cannot be “soon”');
  });

  it('writes down the dates of next year', async () => {
    const answer = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2027',
      fill: {
        beginsOn: '2027-08-05',
        lastOn: '2027-09-10',
        mostActiveFrom: '2027-08-10',
        mostActiveLastOn: '2027-08-25',
        lbPerWeek: '18',
      },
    });

    expect(answer.status).toBe(303);
    expect((await plumTree()).windows[1]).toMatchObject({
      year: 2027,
      beginsOn: '2027-08-05',
      endsOn: '2027-09-11',
      lbPerWeek: 18,
    });
  });

  it.each([
    [{ beginsOn: '2026-09-10', lastOn: '2026-09-01' }, 'is before the first, Sep 10, 2026'],
    [{ beginsOn: '2027-08-01' }, 'This is the harvest of 2026, and that day is in 2027.'],
    [{ lbPerWeek: 'lots' }, 'cannot be “lots”. Write a number from 0 to 20,000 lb, in digits like 30.'],
    [{ lbPerWeek: '-4' }, 'Gives a week cannot be “-4”. Write a number from 0 to 20,000 lb.'],
    [{ mostActiveFrom: '2026-08-12' }, 'The most active days have a first and a last one; one is empty.'],
  ])('refuses %j', async (fill, message) => {
    const answer = await pages.visitor.submitOn('/harvest/plum-tree', {
      form: '/harvest/plum-tree/windows/2026',
      fill,
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    for (const typed of Object.values(fill)) expect(answer.body).toContain(`value="${typed}"`);
    expect((await plumTree()).windows).toMatchObject([{ beginsOn: '2026-08-10', lbPerWeek: 20 }]);
  });

  it('keeps a source that was retired out of sight', async () => {
    await pages.visitor.submitOn('/harvest/bean-rows', { form: '/harvest/bean-rows/retirement' });

    expect(wordsOf((await pages.visitor.open('/harvest')).body)).not.toContain('Bean rows');
    expect((await pages.visitor.open('/harvest/bean-rows')).status).toBe(404);
  });
});
