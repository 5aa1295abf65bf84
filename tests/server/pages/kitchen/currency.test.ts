import { describe, expect, test } from 'vitest';
import { asDate } from '../../../../shared/week.ts';
import { HouseholdByPages } from '../../../builders/household-by-pages.ts';

describe('a household that keeps its money in euros', () => {
  test('reads and types euros on every page, and its list of buying says so', async () => {
    const home = await HouseholdByPages.beginning(asDate('2026-03-02'));
    await home.setUp({
      town: 'Ithaca, NY',
      altitude: '840',
      currency: 'EUR',
      fundNow: '€120.50',
      locale: 'en-GB',
    });

    expect((await home.year()).loaded.facts.household.currency).toBe('EUR');
    for (const page of ['/', '/year', '/kitchen', '/harvest', '/buying', '/items', '/shelf/put-up'])
      expect(await home.words(page), page).not.toContain('$');
    expect(await home.words('/kitchen')).toContain('€ a week');
    expect(await home.words('/items')).toContain('€3.99');
    expect((await home.visitor.open('/files/buying.csv')).body).toContain('cost,currency');

    await home.send('/kitchen', '/kitchen/household', { currency: 'CAD', locale: 'en-US' });
    expect(await home.words('/items')).toContain('CA$3.99');
    await home.close();
  });
});
