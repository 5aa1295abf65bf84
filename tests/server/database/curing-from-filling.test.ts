import { describe, expect, it } from 'vitest';
import { up as countFromFilling } from '../../../migrations/2026-12-13-count-curing-from-filling.ts';
import { recipesOf } from '../../../server/queries/household/recipes.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { daysFor, mostHoursBefore } from '../../../src/preserving/stages/recipe-stages.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

describe('days until the first good jar in a database from before', () => {
  it('are those of curing for every recipe of several days, and no others are touched', async () => {
    const { db } = await quinceYardHousehold();
    const daysAfter = async (days: number, basedOn: string) => {
      await db.updateTable('recipe').set({ based_on: basedOn, ready_after_days: days }).execute();
      await countFromFilling(db as never);
      return (await recipesOf(db, quinceYard)).find(({ id }) => id === 'plum-jam-batch')?.readyAfterDays;
    };
    const staged = recipeBook(loadReferenceTables()).filter(({ stages }) => stages.length > 0);
    expect(staged.length).toBeGreaterThan(2);
    for (const { key, stages, curing } of staged) {
      const cures = curing?.daysLow ?? 0;
      for (const days of [daysFor(mostHoursBefore(stages)) + cures, cures])
        expect([key, await daysAfter(days, key)]).toEqual([key, cures]);
    }

    expect(await daysAfter(28, 'pickled-beets')).toBe(28);
    await db.updateTable('recipe').set({ process_food: null, canner_id: null }).execute();
    expect(await daysAfter(42, 'sauerkraut')).toBe(42);
  });
});
