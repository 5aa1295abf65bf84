import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { gardenYieldsOf } from '../../../../server/queries/year/harvest.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { saveSource } from '../../../../server/records/year/harvest.ts';
import type { CropKey } from '../../../../shared/ids.ts';
import { asCents } from '../../../../shared/money.ts';
import { oneOf } from '../../../../shared/schemas/shelf/take.ts';
import { worked } from '../../../builders/outcomes.ts';
import { day, plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

// Monday, 17 August 2026. What the shelf held year by year, and what the garden gave.

let pages: QuinceYardPages;
let bed: string;
beforeEach(async () => {
  pages = await quinceYardPages();
  bed = await garden('Cucumber frame', 'cucumber', 3);
});
afterEach(() => pages.close());

const garden = async (name: string, crop: string, lbPerPlant: number | null): Promise<string> =>
  worked(
    await saveSource(pages.writer(), {
      sourceId: null,
      name,
      crop: crop as CropKey,
      kind: 'garden',
      pricePerLb: asCents(0),
      plants: 12,
      lbPerPlant,
      useByDays: 3,
      poorYearChance: 0,
      poorYearShare: 0.3,
      fallBack: 'buy',
    }),
  ).sourceId;
const write = (fill: Readonly<Record<string, string>>) =>
  pages.visitor.submitOn('/look-back/years', {
    form: '/look-back/years/garden',
    fill: { sourceId: bed, year: '2026', lb: '', amountUnit: 'lb', plants: '', ...fill },
  });
const yields = () => gardenYieldsOf(pages.db, quinceYard);
const page = async (path = '/look-back/years') => wordsOf((await pages.visitor.open(path)).body);

describe('what the garden gave', () => {
  test('is written down, stands there by year and moves what a plant is counted on for', async () => {
    await write({ year: '2025', lb: '24', plants: '12' });
    await write({ lb: '60', plants: '12' });

    expect(await page()).toMatch(
      /Cucumber frame 3\.3 lb a plant; you said 3 lb .*2025: 24 lb from 12 plants, 2 lb a plant 2026: 60 lb from 12 plants, 5 lb a plant/,
    );
  });

  test('may be typed in a measure of which a weight is published; another is refused with what to do, and nothing is lost', async () => {
    await write({ lb: '1,5', amountUnit: 'bushel', plants: '12' });
    // A bushel of cucumbers weighs 48 lb (USDA Agriculture Handbook 697).
    expect((await yields())[0]?.lb).toBeCloseTo(72, 3);

    const refused = await write({ year: '2025', lb: '2', amountUnit: 'lug', plants: '7' });
    expect(refused.status).toBe(422);
    expect(wordsOf(refused.body)).toMatch(/lug/);
    expect(refused.body).toMatch(/name="plants"[^>]*value="7"|value="7"[^>]*name="plants"/);
    expect(await yields()).toHaveLength(1);
  });

  test('of a year is written anew in its place, and no amount takes it back', async () => {
    await write({ lb: '10', plants: '4' });
    await write({ lb: '12', plants: '' });
    expect(await yields()).toMatchObject([{ year: 2026, lb: 12, plants: null }]);

    await write({ lb: '' });
    expect(await yields()).toEqual([]);
  });

  test('is refused for a year to come', async () => {
    const refused = await write({ year: '2027', lb: '10' });

    expect(refused.status).toBe(422);
    expect(wordsOf(refused.body)).toContain('2027 is still to come; it is 2026.');
  });

  test('of a source that is no longer used is asked about no more', async () => {
    await write({ lb: '10' });
    await pages.db.updateTable('source').set({ retired_on: '2026-08-01' }).where('id', '=', bed).execute();

    expect(await yields()).toEqual([]);
  });
});

test('the list of plants for next year counts on what the garden gave, also where nobody said what a plant gives', async () => {
  await shelve(pages.db, {
    id: 'jam',
    itemId: plumJam,
    units: 6,
    madeOn: '2026-08-01',
    bestQualityUntil: '2027-08-01',
  });
  await pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: plumJam,
      amount: 1,
      since_on: '2026-08-01',
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
  bed = await garden('Plum hedge', 'plum', null);
  expect(await page('/look-back')).not.toContain('Plum hedge');

  await write({ lb: '48', plants: '12' });

  expect(await page('/look-back')).toMatch(/Plum hedge \d+ 12 [\d.]+ lb wanted, 4 lb a plant/);
});

test('a food is drawn and told year by year', async () => {
  await shelve(pages.db, {
    id: 'old',
    itemId: plumJam,
    units: 12,
    madeOn: '2024-09-01',
    bestQualityUntil: '2026-09-01',
  });
  for (const on of ['2024-12-01', '2025-03-01', '2025-10-01'])
    worked(await take(pages.writer({ on }), { ...oneOf(plumJam, day(on)), units: 4 }));

  const { body } = await pages.visitor.open('/look-back/years');
  const words = wordsOf(body);

  expect(words).toMatch(
    /Plum jam: 2024 from 12 to 8 half-pints; 2025 from 8 to 0 half-pints, none on 91 days/,
  );
  expect(words).toMatch(/lasted in 0 of 1 year/);
  expect(body.match(/<polyline/g)).toHaveLength(3);
});
