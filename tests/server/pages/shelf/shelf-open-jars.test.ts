import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ledgerOf } from '../../../../server/queries/shelf/ledger.ts';
import { lotsOf } from '../../../../server/queries/shelf/shelf.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { oneOf } from '../../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../../shared/week.ts';
import { worked } from '../../../builders/outcomes.ts';
import { greenBeans, oats, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  const jar = { units: 4, madeOn: '2026-07-01', bestQualityUntil: '2027-07-01' };
  await shelve(pages.db, { ...jar, id: 'beans', itemId: greenBeans, jarKind: 'pint/regular' });
  await shelve(pages.db, { ...jar, id: 'jam', itemId: plumJam });
  // Opened home-canned green beans keep 3 days: the figure the demo household uses, set here by hand.
  await pages.db.updateTable('item').set({ keep_cold_days: 3 }).where('id', '=', greenBeans).execute();
});
afterEach(() => pages.close());

const openWords = async () => wordsOf((await pages.visitor.open('/shelf/open')).body);
const finish = (fill: Record<string, string> = { jars: '1' }) =>
  pages.visitor.submitOn('/shelf/open', { form: '/shelf/finished-jars', fill });

describe('a jar that was taken', () => {
  it('says at once how long it keeps open', async () => {
    const answer = await pages.visitor.submitOn('/shelf', {
      form: '/shelf/green-beans/takes',
      fill: { outcome: 'took-one' },
      asPart: true,
    });

    expect(wordsOf(answer.body)).toContain('Once open keep it cold, eat by Aug 20.');
  });

  it('stands among the open jars with its limit, here and on its own page', async () => {
    worked(await take(pages.writer(), oneOf(greenBeans)));

    expect(await openWords()).toMatch(
      /1 pint of Green beans, opened .*Aug 17\. Keep cold, eat by .*Aug 20\./,
    );
    expect(wordsOf((await pages.visitor.open('/shelf/green-beans')).body)).toContain('Open now');
  });

  it('takes a short limit where none is written down, and says so', async () => {
    worked(await take(pages.writer(), oneOf(plumJam)));

    expect(await openWords()).toContain('How long it keeps open is not written down; this is to be safe.');
  });

  it('is told to be thrown away once its limit is past', async () => {
    worked(await take(pages.writer(), oneOf(greenBeans, asDate('2026-08-12'))));

    expect(await openWords()).toMatch(/Past its fridge limit, .*Aug 15: throw out what’s left\./);
  });

  it('opens no jar when it was given away, thrown away, or is no jar', async () => {
    worked(await take(pages.writer(), { ...oneOf(greenBeans), kind: 'given away' }));
    worked(await take(pages.writer(), { ...oneOf(greenBeans), kind: 'discarded', reason: 'taste' }));
    await shelve(pages.db, {
      id: 'oats',
      itemId: oats,
      units: 5,
      madeOn: '2026-07-01',
      bestQualityUntil: '2027-07-01',
      jarKind: null,
    });
    worked(await take(pages.writer(), oneOf(oats)));

    expect(await openWords()).toContain('No open jar is written down.');
  });
});

describe('finishing an open jar', () => {
  beforeEach(async () => {
    worked(await take(pages.writer(), { ...oneOf(greenBeans), units: 2 }));
  });

  it('takes one or all from the list, and nothing from the shelf', async () => {
    const answer = await finish();

    expect([answer.status, answer.location]).toEqual([303, '/shelf/open#undo']);
    expect(await openWords()).toContain('1 pint of Green beans, opened');
    expect((await lotsOf(pages.db, quinceYard, { lotId: 'beans' }))[0]?.unitsLeft).toBe(2);
    await finish();
    expect(await openWords()).toContain('No open jar is written down.');
  });

  it('is read in the history and can be undone', async () => {
    await finish({ jars: '2' });
    const page = await pages.visitor.open('/shelf/green-beans');
    expect(wordsOf(page.body)).toMatch(/finished beans opened .*Aug 17/);
    expect(wordsOf(page.body)).toMatch(/Finished 2 pints of Green beans, opened .*Aug 17/);

    await pages.visitor.submit(page, { form: '/shelf/reversals' });

    expect(await openWords()).toContain('2 pints of Green beans, opened');
    expect((await ledgerOf(pages.db, quinceYard, { lotId: 'beans' })).map(({ units }) => units)).toEqual([
      4, -2, 0, 0, 0, 0,
    ]);
  });

  it('refuses to finish more than stand open', async () => {
    const page = await pages.visitor.open('/shelf/open');
    await finish({ jars: '2' });
    const answer = await pages.visitor.submit(page, { form: '/shelf/finished-jars', fill: { jars: '1' } });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('Of the batch');
  });

  it('leaves the plan as current as it was', async () => {
    const version = async () =>
      (await pages.db.selectFrom('household').select('facts_version').executeTakeFirstOrThrow())
        .facts_version;
    const before = await version();

    await finish();

    expect(await version()).toBe(before);
  });
});
