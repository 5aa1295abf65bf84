import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { householdById } from '../../../../server/queries/household/household.ts';
import { plumJam, quinceYard, shelve } from '../../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../../builders/quince-yard-pages.ts';
import { formOf, wordsOf } from '../../../builders/visitor.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const part = async () => {
  const { body } = await pages.visitor.open('/targets');
  return wordsOf(/<section[^>]*id="emergency".*?<\/section>/s.exec(body)?.[0] ?? '');
};
const say = (fill: Record<string, string>) =>
  pages.visitor.submitOn('/targets', { form: '/targets/emergency', fill });

describe('for an emergency', () => {
  it('says what a guide advises, with its source, before anything is said', async () => {
    const words = await part();

    expect(words).toContain('You have written down none. Say for how many days');
    expect(words).toContain('Nothing is kept for an emergency yet.');
    expect(words).toContain('1 gallon of water for each person and day, for 3 days at least');
    expect(words).toContain('Centers for Disease Control and Prevention');
  });

  it('counts water for all people and days, beside what is kept and when it is replaced', async () => {
    await pages.db.updateTable('household').set({ people: 3 }).where('id', '=', quinceYard).execute();
    const answer = await say({ days: '10', water: '12', filledOn: '2026-01-15' });

    expect([answer.status, answer.location]).toEqual([303, '/targets?said=emergency#emergency']);
    expect(await householdById(pages.db, quinceYard)).toMatchObject({
      emergencyDays: 10,
      waterGallons: 12,
      waterFilledOn: '2026-01-15',
    });
    const words = await part();
    expect(words).toContain(
      '3 people, 10 days: 30 gallons. You keep 12 gallons; 18 gallons are still missing.',
    );
    expect(words).toContain('Water you filled yourself is replaced every 6 months: yours');
  });

  it('is in liters where the household counts so', async () => {
    await pages.db
      .updateTable('household')
      .set({ units: 'metric', people: 1 })
      .where('id', '=', quinceYard)
      .execute();
    await say({ days: '10', water: '20', filledOn: '' });

    expect((await householdById(pages.db, quinceYard))?.waterGallons).toBeCloseTo(20 / 3.785411784, 9);
    expect(await part()).toContain(
      '1 person, 10 days: 38 liters. You keep 20 liters; 18 liters are still missing.',
    );
    const { body } = await pages.visitor.open('/targets');
    expect(formOf(body, '/targets/emergency').values.water).toBe('20');
  });

  it('lists what always stays with how much of it is there', async () => {
    await shelve(pages.db, {
      id: 'may',
      itemId: plumJam,
      units: 5,
      madeOn: '2026-05-01',
      bestQualityUntil: '2027-05-01',
    });
    await pages.visitor.submitOn('/items/plum-jam', {
      form: '/items/plum-jam',
      fill: { emergencyUnits: '7' },
    });
    await say({ days: '5' });
    const words = await part();

    expect(words).toMatch(/Plum jam 7 half-pints 5 half-pints/);
    expect(words).toMatch(/Not counted: Plum jam|servings are there: /);
  });

  it.each([
    [{ days: '0' }, 'For how many days cannot be “0”'],
    [{ days: '2.5' }, 'For how many days cannot be “2.5”'],
    [{ days: '91' }, 'For how many days cannot be “91”'],
    [{ water: '-1' }, 'Water you keep cannot be “-1”'],
    [{ water: '2001' }, 'Water you keep cannot be “2001”'],
    [{ filledOn: '2026-01-15' }, 'Write how much water was filled that day, or clear the day.'],
    [{ water: '3', filledOn: '2199-01-01' }, '2199'],
  ])('refuses %o, and keeps what was typed', async (fill, says) => {
    const answer = await say(fill);

    expect(answer.status).toBe(422);
    expect(wordsOf(answer.body)).toContain(says);
    expect(formOf(answer.body, '/targets/emergency').values).toMatchObject(fill);
    expect((await householdById(pages.db, quinceYard))?.emergencyDays).toBeNull();
  });
});
