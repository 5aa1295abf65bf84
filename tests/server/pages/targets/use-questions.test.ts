import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { standingNotices } from '../../../../server/queries/notices/notices.ts';
import { occasionsOf, seasonMultipliersOf } from '../../../../server/queries/year/targets.ts';
import { nextSeq } from '../../../../server/records/next-seq.ts';
import { householdFacts } from '../../../../server/year/household-facts.ts';
import { addDays, monthOf, weekOf } from '../../../../shared/week.ts';
import { itemUses } from '../../../../src/consumption/items/item-use.ts';
import { greenBeans, plumJam, quinceYard, shelve, today } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const dayOf = (week: number, weeks: number) => addDays(today, -7 * (weeks - week) + 1);

/** Jam taken once a week, so many units, the last week the one before today's. */
async function taken(byWeek: readonly number[]): Promise<void> {
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 900,
    madeOn: addDays(dayOf(0, byWeek.length), -2),
    bestQualityUntil: '2028-06-01',
  });
  const takings = byWeek.map((units, week) => ({ units, week })).filter(({ units }) => units > 0);
  await pages.db
    .insertInto('jar_event')
    .values(
      takings.map(({ units, week }, before) => ({
        household_id: quinceYard,
        seq: nextSeq('jar_event', quinceYard, before),
        entry_id: `week ${week}`,
        lot_id: 'jam',
        kind: 'taken' as const,
        units: -units,
        trains_use: 1 as const,
        occurred_on: dayOf(week, byWeek.length),
        recorded_at: week,
      })),
    )
    .execute();
  await pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: plumJam,
      since_on: '2024-01-01',
      amount: 1,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
}
const ones = (weeks: number) => Array.from({ length: weeks }, () => 1);
const page = () => pages.visitor.open('/targets/plum-jam');
const asked = async () => {
  await pages.visitor.open('/notices');
  return (await standingNotices(pages.db, quinceYard)).filter(({ kind }) => kind === 'appetite changed');
};
const forecast = async () =>
  itemUses(await householdFacts(pages.db, quinceYard, today), today, 60).get(plumJam)?.forecast;
const answer = async (fill: Record<string, string>) =>
  pages.visitor.submit(await page(), { form: '/targets/plum-jam/full-week', fill });

describe('a week fuller than any before', () => {
  beforeEach(() => taken([...ones(40), 14, ...ones(5)]));
  const feastOn = dayOf(40, 46);

  it('is asked about on the page of the item and among the notices', async () => {
    expect(wordsOf((await page()).body)).toMatch(
      /In the week of .* you took 14 half-pints, about 13 half-pints more than usual\. Was this an occasion\?/,
    );
    const [notice] = await asked();
    expect(notice?.reason).toMatch(
      /^Plum jam: you took 14 half-pints in the week of .* Was it an occasion\?/,
    );
  });

  it('answered “just this once” is a dated occasion, and no longer a question', async () => {
    expect((await answer({ answer: 'once' })).status).toBe(303);

    expect(await occasionsOf(pages.db, quinceYard)).toMatchObject([
      { itemId: plumJam, kind: 'occasion', on: feastOn, units: 13, isYearly: false },
    ]);
    expect(wordsOf((await page()).body)).not.toContain('Was this an occasion?');
    expect(await asked()).toEqual([]);
    expect((await forecast())?.perWeek).toBeCloseTo(1, 1);
  });

  it('answered “every year” is expected again in a year', async () => {
    await answer({ answer: 'every-year' });

    const ahead = (await forecast())?.weeks.find(({ occasions }) => occasions > 0);
    expect(ahead?.week).toBe(weekOf(addDays(feastOn, 365)));
    expect(ahead?.occasions).toBe(13);
  });

  it('answered “we ate more” is believed, kept, and not asked about again', async () => {
    const before = (await forecast())?.perWeek ?? 0;

    await answer({ answer: 'ordinary' });

    expect((await forecast())?.perWeek).toBeGreaterThan(1.15 * before);
    expect(await asked()).toEqual([]);
    expect(await pages.db.selectFrom('ordinary_use').select(['kind']).execute()).toEqual([{ kind: 'week' }]);
  });

  it('is answered once, however often the page is sent', async () => {
    const open = await page();
    await pages.visitor.submit(open, { form: '/targets/plum-jam/full-week', fill: { answer: 'once' } });
    await pages.visitor.submit(open, { form: '/targets/plum-jam/full-week', fill: { answer: 'every-year' } });

    expect(await occasionsOf(pages.db, quinceYard)).toHaveLength(1);
  });

  it('is not changed by an answer that is none', async () => {
    expect((await answer({ answer: 'perhaps' })).status).toBe(303);
    expect(await occasionsOf(pages.db, quinceYard)).toEqual([]);
  });
});

describe('months in which most is eaten', () => {
  const isSpring = (week: number, weeks: number) => [3, 4, 5].includes(monthOf(weekOf(dayOf(week, weeks))));
  /** Beans every week, so that weeks without jam are not weeks in which nobody wrote anything down. */
  async function takenBesideBeans(byWeek: readonly number[]): Promise<void> {
    await taken(byWeek);
    await shelve(pages.db, {
      id: 'beans',
      itemId: greenBeans,
      units: 900,
      madeOn: addDays(dayOf(0, byWeek.length), -2),
      bestQualityUntil: '2028-06-01',
    });
    await pages.db
      .insertInto('jar_event')
      .values(
        byWeek.map((_, week) => ({
          household_id: quinceYard,
          seq: nextSeq('jar_event', quinceYard, week),
          entry_id: `beans ${week}`,
          lot_id: 'beans',
          kind: 'taken' as const,
          units: -1,
          trains_use: 1 as const,
          occurred_on: dayOf(week, byWeek.length),
          recorded_at: week,
        })),
      )
      .execute();
  }
  const springOnly = (weeks: number) =>
    Array.from({ length: weeks }, (_, week) => (isSpring(week, weeks) ? 2 : 0));

  it('are asked about once most of a year was seen, and declared with one press', async () => {
    await takenBesideBeans(springOnly(54));
    expect(wordsOf((await page()).body)).toMatch(
      /were eaten from March to May\. Do you eat it mostly then, every year\?/,
    );
    expect((await asked())[0]?.reason).toContain('you ate most of it from March to May');

    await pages.visitor.submit(await page(), { form: '/targets/plum-jam/season' });

    const months = (await seasonMultipliersOf(pages.db, quinceYard)).get(plumJam) ?? [];
    expect(months.map((multiplier) => multiplier > 0)).toEqual(
      Array.from({ length: 12 }, (_, at) => at >= 2 && at <= 4),
    );
    const ahead = await forecast();
    const inSpring = ahead?.weeks.filter(({ week }) => [3, 4, 5].includes(monthOf(week))) ?? [];
    expect(inSpring.reduce((sum, { mean }) => sum + mean, 0)).toBeGreaterThan(1.6 * inSpring.length);
    expect(await asked()).toEqual([]);
  });

  it('are not asked about again when it is eaten all year alike', async () => {
    await takenBesideBeans(springOnly(54));

    await pages.visitor.submit(await page(), { form: '/targets/plum-jam/season/all-year' });

    expect(await asked()).toEqual([]);
    expect((await seasonMultipliersOf(pages.db, quinceYard)).get(plumJam)).toBeUndefined();
  });

  it('may be said before anything was seen: mostly in winter', async () => {
    await pages.visitor.submit(await page(), {
      form: '/targets/plum-jam/season/mostly',
      fill: { mostly: 'winter', elsewhere: 'some' },
    });

    expect((await seasonMultipliersOf(pages.db, quinceYard)).get(plumJam)).toEqual([
      ...[1, 1, 0.25, 0.25, 0.25, 0.25],
      ...[0.25, 0.25, 0.25, 0.25, 0.25, 1],
    ]);
  });
});
