import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { handTargetsOf } from '../../../../server/queries/year/targets.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { oneOf } from '../../../../shared/schemas/shelf/take.ts';
import { worked } from '../../../builders/outcomes.ts';
import { day, greenBeans, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 20,
    madeOn: '2025-09-01',
    bestQualityUntil: '2026-09-01',
  });
  await shelve(pages.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 10,
    madeOn: '2026-08-01',
    bestQualityUntil: '2027-08-01',
    jarKind: 'pint/regular',
  });
  for (const [at, month] of ['10', '11', '12', '01', '02'].entries()) {
    const on = `${at < 3 ? '2025' : '2026'}-${month}-15`;
    worked(await take(pages.writer({ on }), { ...oneOf(plumJam, day(on)), units: 4 }));
  }
});
afterEach(() => pages.close());

const needOnTargets = async (): Promise<number> =>
  Number(
    /A year needs (\d+) half-pints/.exec(wordsOf((await pages.visitor.open('/targets/plum-jam')).body))?.[1],
  );

const target = async (item: typeof plumJam) =>
  (await handTargetsOf(pages.db, quinceYard)).get(item)?.units ?? null;

describe('looking back', () => {
  // 20 came, and lasted 168 of 365 days: a year uses up more. How much it needs is what Targets says.
  it('says what came, what was eaten, when it ran out and to make more', async () => {
    const words = wordsOf((await pages.visitor.open('/look-back')).body);

    expect(words).toContain('Aug 18, 2025 to Aug 17, 2026');
    expect(words).toMatch(/Plum jam make more 20 came, 20 eaten/);
    expect(words).toMatch(/Plum jam \d+ days .*Feb 16 to Aug 17/);
    expect(words).toContain(`Accept ${await needOnTargets()} half-pints`);
  });

  it('cannot say much of what has stood there for two weeks', async () => {
    const words = wordsOf((await pages.visitor.open('/look-back')).body);

    expect(words).toMatch(
      /Green beans 10 10 cannot say What happens to it has been written down for only 17 days; 56 are needed/,
    );
  });

  it('makes the figure the target with one touch, and says so', async () => {
    const need = await needOnTargets();
    const part = await pages.visitor.submitOn('/look-back', {
      form: '/look-back/targets/plum-jam',
      asPart: true,
    });

    expect(await target(plumJam)).toBe(need);
    expect(wordsOf(part.body)).toContain(`${need} half-pints a year.`);
    expect(wordsOf((await pages.visitor.open('/look-back')).body)).toContain(`${need} half-pints a year.`);
  });

  it('works by a plain form too', async () => {
    const need = await needOnTargets();
    const answer = await pages.visitor.submitOn('/look-back', { form: '/look-back/targets/plum-jam' });

    expect([answer.status, answer.location]).toEqual([303, '/look-back?said=accepted#advice']);
    expect(await target(plumJam)).toBe(need);
  });

  it('holds what was put up against what a store asks, once that is written down on the page of the food', async () => {
    expect(wordsOf((await pages.visitor.open('/look-back')).body)).toContain(
      'Beside the store: no store price known',
    );

    const page = await pages.visitor.submitOn('/items/plum-jam', {
      form: '/items/plum-jam/packs',
      fill: { units: '1', price: '3.19' },
    });
    expect(page.location).toBe('/items/plum-jam?said=saved#packs');
    expect(wordsOf((await pages.visitor.open('/items/plum-jam')).body)).toMatch(
      /Made here, 1 half-pint costs about \$\d.* A store asks \$3\.19 for as much\./,
    );

    // 20 half-pints at $3.19.
    const words = wordsOf((await pages.visitor.open('/look-back')).body);
    expect(words).toMatch(/Plum jam \$\d+ saved 20 half-pints: \$\d+ here, \$64 in a store\./);
    expect(words).toContain('What you put up of 1 food would have cost $64 in a store.');
    expect(words).toContain('No store price yet: 1');
  });

  it('refuses a figure that is none and changes nothing', async () => {
    const answer = await pages.visitor.submitOn('/look-back', {
      form: '/look-back/targets/plum-jam',
      fill: { units: 'many' },
    });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('cannot be “many”');
    expect(await target(plumJam)).toBe(null);
  });

  it('says honestly that there is no plan and too little to judge the forecast', async () => {
    const words = wordsOf((await pages.visitor.open('/look-back')).body);

    expect(words).toContain('Only 0 four-week spans of this year can be compared with a forecast');
    expect(words).toContain('No plan here is four weeks old yet');
  });

  it('shows money and hours by month, says that no store price is known, and compares once one is', async () => {
    const unknown = wordsOf((await pages.visitor.open('/look-back')).body);
    expect(unknown).toContain('Sep 2025');
    expect(unknown).toContain('What a store would have asked is not known');

    await pages.db
      .insertInto('shop_pack')
      .values({
        household_id: quinceYard,
        item_id: plumJam,
        id: 'jar',
        units: 1,
        price_cents: 450,
      })
      .execute();
    await pages.db
      .updateTable('household')
      .set((row) => ({ facts_version: row('facts_version', '+', 1) }))
      .execute();
    const known = wordsOf((await pages.visitor.open('/look-back')).body);

    // 20 half-pints at $4.50.
    expect(known).toMatch(/Sep 2025 .*instead of \$90/);
    expect(known).toContain('is known for 1 of the 2 foods you put up');
  });
});
