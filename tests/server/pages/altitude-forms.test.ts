import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { quinceYard } from '../../builders/quince-yard.ts';
import { type QuinceYardPages, quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { wordsOf } from '../../builders/visitor.ts';
import { altitudesTyped } from '../../preserving/lookup/altitude-ways.ts';

let pages: QuinceYardPages;
beforeEach(async () => {
  pages = await quinceYardPages();
});
afterEach(() => pages.close());

const kept = async (): Promise<number | null> =>
  (
    await pages.db
      .selectFrom('household')
      .select('altitude_ft')
      .where('id', '=', quinceYard)
      .executeTakeFirstOrThrow()
  ).altitude_ft;
const before = 1200;

describe('an altitude in the form of the kitchen', () => {
  it.each(['ft', 'm'] as const)(
    'is seen in both units before it is kept, whatever is typed beside %s',
    async (unit) => {
      const ways = altitudesTyped.filter((way) => way.locale === 'en-US' && way.unit === unit);
      expect(ways.length).toBeGreaterThan(25);
      for (const { typed, meant } of ways) {
        await pages.db.updateTable('household').set({ altitude_ft: before }).execute();
        const form = '/kitchen/altitude';
        const asked = await pages.visitor.submitOn('/kitchen', { form, fill: { altitude: typed, unit } });
        expect([typed, asked.status, await kept()]).toEqual([typed, 422, before]);
        const again = await pages.visitor.submit(asked, { form });

        if (typeof meant === 'number') {
          expect(wordsOf(asked.body), typed).toMatch(
            / is [\d,.−-]+ (ft|m): (the band|below)[^.]+\. Is that your kitchen\?/,
          );
          expect([typed, again.status]).toEqual([typed, 303]);
          expect(await kept(), typed).toBeCloseTo(meant, 5);
        } else {
          expect(wordsOf(asked.body), typed).not.toContain('Is that your kitchen?');
          expect([typed, again.status, await kept()]).toEqual([typed, 422, before]);
        }
      }
    },
  );

  it('a mark of another height confirms nothing', async () => {
    const answer = await pages.visitor.submitOn('/kitchen', {
      form: '/kitchen/altitude',
      fill: { altitude: '4068', unit: 'ft', altitudeSeen: '406.8' },
    });

    expect([answer.status, await kept()]).toEqual([422, before]);
  });
});
