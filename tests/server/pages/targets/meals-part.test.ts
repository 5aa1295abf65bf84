import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdById } from '../../../../server/queries/household/household.ts';
import { greenBeans, quinceYard } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
  await pages.db.updateTable('household').set({ people: 2 }).where('id', '=', quinceYard).execute();
  await pages.db
    .insertInto('declared_use')
    .values({
      household_id: quinceYard,
      item_id: greenBeans,
      since_on: '2026-01-01',
      amount: 2,
      per: 'week',
      meals_per_week: null,
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
});
afterEach(() => pages.close());

const part = async () => {
  const { body } = await pages.visitor.open('/targets');
  return wordsOf(/<section[^>]*id="meals".*?<\/section>/s.exec(body)?.[0] ?? '');
};
const say = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/targets', { form: '/targets/servings', fill });
const ofBeans = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/items/green-beans', {
    form: '/items/green-beans',
    fill: { keepColdDays: '3', ...fill },
  });

describe('meals', () => {
  it('count nothing of what nobody said the servings of, and say so', async () => {
    await ofBeans({ servingsPerUnit: '' });

    expect(await part()).toContain('Not counted: Green beans.');
  });

  it('stand beside what is wanted, for each person and week', async () => {
    await ofBeans({ servingsPerUnit: '3' });
    const answer = await say({ fruit: '', vegetable: '7', protein: '0', sweet: '' });

    expect([answer.status, answer.location]).toEqual([303, '/targets?said=servings#meals']);
    expect((await householdById(pages.db, quinceYard))?.servingsWanted).toEqual({
      fruit: null,
      vegetable: 7,
      protein: 0,
      sweet: null,
    });
    // Two pints a week of three servings for two people: three for each, and four too few.
    expect(await part()).toMatch(/Vegetables 7 3 4 too few Green beans 3/);
    expect(await part()).toMatch(/Protein 0 0 enough/);
  });

  it('go by what the household says an item counts as', async () => {
    await ofBeans({ servingsPerUnit: '3', countsAs: 'protein' });
    await say({ vegetable: '7', protein: '3' });

    expect(await part()).toMatch(/Vegetables 7 0 7 too few .*Protein 3 3 enough Green beans 3/);
  });

  it('keep the servings by which somebody said how much is eaten', async () => {
    await ofBeans({ servingsPerUnit: '3' });
    await pages.db.updateTable('declared_use').set({ counted_in: 'servings' }).execute();
    const answer = await ofBeans({ servingsPerUnit: '' });

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain('You said in servings how much you eat of');
  });

  it.each([
    [{ fruit: '-1' }, 'Fruit cannot be “-1”'],
    [{ vegetable: '201' }, 'Vegetables cannot be “201”'],
    [{ sweet: 'lots' }, 'Sweet cannot be “lots”'],
  ])('refuse %o, and keep what was typed', async (fill, says) => {
    const answer = await say(fill);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(says);
    expect(formOf(answer.body, '/targets/servings').values).toMatchObject(fill);
  });
});
