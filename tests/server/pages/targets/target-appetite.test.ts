import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { standingNotices } from '../../../../server/queries/notices/notices.ts';
import { declaredUsesOf } from '../../../../server/queries/year/targets.ts';
import { nextSeq } from '../../../../server/records/next-seq.ts';
import { addDays } from '../../../../shared/week.ts';
import { plumJam, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const lastMonday = addDays(today, -7);

/** Jam taken on the Tuesday of each week, the last of them the week before today's. */
async function taken(byWeek: readonly number[]): Promise<void> {
  const first = addDays(lastMonday, -7 * (byWeek.length - 1));
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 300,
    madeOn: addDays(first, -1),
    bestQualityUntil: '2027-06-01',
  });
  await pages.db
    .insertInto('jar_event')
    .values(
      byWeek.map((units, week) => ({
        household_id: quinceYard,
        seq: nextSeq('jar_event', quinceYard, week),
        entry_id: `week ${week}`,
        lot_id: 'jam',
        kind: 'taken' as const,
        units: -units,
        trains_use: 1,
        occurred_on: addDays(first, 7 * week + 1),
        recorded_at: week,
      })),
    )
    .execute();
}

const saidOneAWeek = () =>
  pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: plumJam,
      since_on: '2025-01-01',
      amount: 1,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
const repeated = (units: readonly number[], times: number) =>
  Array.from({ length: times }, () => units).flat();
const pageWords = async (url: string) => wordsOf((await pages.visitor.open(url)).body);
const asked = async () => {
  await pages.visitor.open('/notices');
  return (await standingNotices(pages.db, quinceYard)).filter(({ kind }) => kind === 'appetite changed');
};

describe('a habit that nobody said had changed', () => {
  it('is asked about, and one touch starts the forecast anew from it', async () => {
    await saidOneAWeek();
    await taken([...repeated([1, 2, 1], 16), ...repeated([4, 3, 4], 4)]);

    const [notice] = await asked();
    expect(notice?.reason).toMatch(
      /^Plum jam: you ate about (\d+ half-pints every \d weeks|\d half-pints a week) over the last \d+ weeks that counted, against about (\d+ half-pints? every \d weeks|\d half-pints? a week) before\./,
    );
    const page = await pages.visitor.open('/targets/plum-jam');
    expect(wordsOf(page.body)).toMatch(
      /weeks that counted you ate about 3\.\d a week, against about 1\.\d+ before/,
    );
    const shown = /From now on about (3\.\d) a week/.exec(wordsOf(page.body))?.[1];

    const answer = await pages.visitor.submit(page, { form: '/targets/plum-jam/declared-use' });

    expect(answer.status).toBe(303);
    expect((await declaredUsesOf(pages.db, quinceYard, today)).get(plumJam)).toMatchObject({
      amount: Number(shown),
      per: 'week',
      countedIn: 'units',
      restartsFilter: true,
      sinceOn: today,
    });
    const after = await pageWords('/targets/plum-jam');
    // One day has passed since, on which none was taken.
    expect(after).toMatch(/We expect from now on 3\.\d a week/);
    expect(after).toContain('0 half-pints in 0 weeks that counted.');
    expect(after).not.toContain('From now on about');
    expect(await asked()).toEqual([]);
  });

  it('is not asked about while the weeks look as before', async () => {
    await saidOneAWeek();
    await taken(repeated([1, 2, 1], 16));
    expect(await asked()).toEqual([]);
    expect(await pageWords('/targets/plum-jam')).not.toContain('From now on about');
  });

  it('is a question the household can do without', async () => {
    await saidOneAWeek();
    await taken([...repeated([1, 2, 1], 16), ...repeated([4, 3, 4], 4)]);
    const page = await pages.visitor.open('/notices/settings');
    await pages.visitor.post(page, '/notices/settings', { runsOut: '56', targetNotMet: 'yes' });

    expect(await asked()).toEqual([]);
  });
});

describe('what nobody said they eat', () => {
  it('is forecast from what was seen, and the pages say so', async () => {
    await taken(repeated([2], 12));

    const words = await pageWords('/targets/plum-jam');
    expect(words).toContain('going by what you took alone: nobody has said how much you eat');
    expect(words).toContain('You said nothing');
    expect(words).toContain('24 half-pints in 12 weeks that counted.');
    expect(words).toMatch(/We expect from now on (1\.9|2) a week/);
    expect(await pageWords('/targets')).toMatch(
      /Plum jam not said 8\.\d a month 24 half-pints in 12 weeks that counted\. 8\.\d a month/,
    );
    expect(await pageWords('/year/plum-jam')).toContain(
      'You have not said how much you eat, so the forecast goes by what you took.',
    );
  });

  it('is not guessed at from three weeks', async () => {
    await taken(repeated([2], 3));

    expect(await pageWords('/targets/plum-jam')).toContain('Nothing is planned, because nobody has said');
  });

  it('is not guessed at from a shelf of which nothing is taken', async () => {
    await shelve(pages.db, {
      id: 'old-jam',
      itemId: plumJam,
      units: 9,
      madeOn: '2026-01-05',
      bestQualityUntil: '2027-01-05',
    });

    expect(await pageWords('/targets/plum-jam')).toContain('Nothing is planned, because nobody has said');
  });
});
