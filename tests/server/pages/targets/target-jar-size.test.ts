import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { itemById } from '../../../../server/queries/household/items.ts';
import { jarWishesOf } from '../../../../server/queries/year/jar-wishes.ts';
import type { ItemId } from '../../../../shared/ids.ts';
import { greenBeans, oats, plumJam, quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const says = (itemId: ItemId, use: { amount: number; per: 'week' | 'meal'; meals?: number }) =>
  pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: itemId,
      since_on: '2026-01-01',
      amount: use.amount,
      per: use.per,
      meals_per_week: use.meals ?? null,
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
const keepsCold = (itemId: ItemId, days: number) =>
  pages.db.updateTable('item').set({ keep_cold_days: days }).where('id', '=', itemId).execute();
const part = async (item: string) => {
  const { body } = await pages.visitor.open(`/targets/${item}`);
  return wordsOf(/<section[^>]*id="jar-size".*?<\/section>/s.exec(body)?.[0] ?? '');
};
const wish = async (item: ItemId) => (await jarWishesOf(pages.db, quinceYard)).get(item);
const wishFor = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/targets/plum-jam', { form: '/targets/plum-jam/jar-size', fill });

describe('which jar', () => {
  it('is the one that is a meal, when use is counted by the meal', async () => {
    await says(greenBeans, { amount: 1, per: 'meal', meals: 2 });
    await keepsCold(greenBeans, 3);

    expect(await part('green-beans')).toContain(
      'Green beans: pints, because one of them is one meal for you.',
    );
  });

  it('is told among the sizes with a tested process here, and no others', async () => {
    await says(greenBeans, { amount: 1, per: 'meal', meals: 2 });
    await keepsCold(greenBeans, 3);
    const words = await part('green-beans');

    // USDA Complete Guide 4 prints snap beans for pints and quarts; half-gallons are printed for juice alone.
    expect(words).toMatch(/jar servings thrown away cost a serving .*pints .*quarts /);
    expect(words).not.toContain('half-gallons');
  });

  it('is the one of which least is thrown away, for what is eaten by the spoonful', async () => {
    await says(plumJam, { amount: 0.25, per: 'week' });
    await keepsCold(plumJam, 30);

    expect(await part('plum-jam')).toMatch(
      /Plum jam: (quarter|half)-pints, because an opened one keeps 30 days and (none|\d+%) of it is thrown away/,
    );
  });

  it('takes the fewest days where nobody wrote them down, and says so', async () => {
    await says(plumJam, { amount: 1, per: 'week' });

    expect(await part('plum-jam')).toContain(
      'how long an opened jar of it keeps, so we count on 3 days, to be safe.',
    );
  });

  it('waits for what must be said first, and is not asked of what is not canned', async () => {
    expect(await part('plum-jam')).toContain('Say how much you eat of it first');
    await pages.visitor.submitOn('/targets/green-beans', {
      form: '/targets/green-beans/declared-use',
      fill: { amount: '1', per: 'week' },
    });
    expect(await part('green-beans')).toContain('Tell us how many servings are in one jar');
    await pages.db.updateTable('item').set({ servings_per_unit: 4 }).where('id', '=', greenBeans).execute();
    await pages.visitor.submitOn('/targets/green-beans', {
      form: '/targets/green-beans/declared-use',
      fill: { amount: '2', per: 'week' },
    });
    expect(await part('green-beans')).toContain('Tell us how many servings one meal takes');
    expect(await part(oats)).toBe('');
    expect(await part('cured-pickles')).toBe('');
  });
});

describe('what the household wants of its jars', () => {
  beforeEach(async () => {
    await says(plumJam, { amount: 1, per: 'week' });
    await keepsCold(plumJam, 30);
  });

  it('is asked once, kept, and shown again', async () => {
    const answer = await wishFor({
      servingsPerUnit: '8',
      mealServings: '4',
      giftSize: 'quarter-pint',
      giftJars: '12',
    });

    expect([answer.status, answer.location]).toEqual([303, '/targets/plum-jam?said=saved#jar-size']);
    expect(await wish(plumJam)).toEqual({
      itemId: plumJam,
      mealServings: 4,
      gifts: { size: 'quarter-pint', jars: 12 },
      lunches: null,
    });
    expect((await itemById(pages.db, quinceYard, plumJam))?.servingsPerUnit).toBe(8);
    const words = await part('plum-jam');
    // Eight servings in a half-pint, four in a meal: a quarter-pint is one.
    expect(words).toContain('Plum jam: quarter-pints, because one of them is one meal for you.');
    expect(words).toContain('12 in quarter-pints for gifts.');
  });

  it.each<[Record<string, string>, string]>([
    [{ servingsPerUnit: '' }, 'The number is empty. Write a number from 0.25 to 500'],
    [{ mealServings: 'all' }, 'cannot be “all”'],
    [{ giftJars: '12' }, 'Choose a size for these jars'],
    [{ lunchSize: 'quarter-pint' }, 'Write how many jars of this size a year'],
    [{ lunchSize: 'bucket', lunchJars: '2' }, 'There is no jar size “bucket”'],
  ])('is refused when it cannot be: %j', async (fill, message) => {
    const answer = await wishFor({ servingsPerUnit: '8', ...fill });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(message);
    expect(await wish(plumJam)).toBeUndefined();
  });
});
