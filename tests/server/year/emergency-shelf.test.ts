import { beforeEach, describe, expect, test } from 'vitest';
import { changeItem } from '../../../server/records/household/items.ts';
import { recordDeclaredUse } from '../../../server/records/year/targets.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { yearPicture } from '../../../server/year/year-picture.ts';
import { declaredUseForm } from '../../../shared/schemas/declared-use.ts';
import { asDate } from '../../../shared/week.ts';
import { keptForEmergency } from '../../../src/household/item.ts';
import { worked } from '../../builders/outcomes.ts';
import {
  type Cast,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
  today,
} from '../../builders/quince-yard.ts';

const reference = loadReferenceTables();

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
  worked(
    await recordDeclaredUse(
      cast.writer(),
      declaredUseForm.parse({ itemId: plumJam, amount: '1', per: 'week' }),
    ),
  );
  await shelve(cast.db, {
    id: 'older',
    itemId: plumJam,
    units: 4,
    madeOn: '2026-01-10',
    bestQualityUntil: '2027-01-10',
  });
});

const shelveNewer = () =>
  shelve(cast.db, {
    id: 'newer',
    itemId: plumJam,
    units: 6,
    madeOn: '2026-05-10',
    bestQualityUntil: '2027-05-10',
  });

const keep = async (emergencyUnits: number | null) =>
  worked(
    await changeItem(cast.writer(), {
      itemId: plumJam,
      name: 'Plum jam',
      family: 'stone-fruit',
      chanceWanted: 0.9,
      familyMinimumUnits: null,
      emergencyUnits,
      servingsPerUnit: null,
      countsAs: null,
      bestQualityDays: 365,
      keepColdDays: null,
      longest: { bestQualityDays: null, keepColdDays: null },
    }),
  );

const jam = async () => {
  const { items } = await yearPicture(cast.db, quinceYard, today, reference);
  const own = items.find(({ item }) => item.id === plumJam);
  if (own === undefined) throw new Error('expected jam in the year');
  return own;
};

describe('what is kept for an emergency', () => {
  test('is on the shelf and not to be eaten: what is left of it lasts as long as so many jars alone', async () => {
    await keep(null);
    const fourAlone = await jam();
    await shelveNewer();
    await keep(6);
    const kept = await jam();
    await keep(null);
    const free = await jam();

    expect([kept.unitsOnShelf, kept.unitsToEat]).toEqual([10, 4]);
    expect([free.unitsOnShelf, free.unitsToEat]).toEqual([10, 10]);
    expect(fourAlone.unitsOnShelf).toBe(4);
    expect(kept.runOut).toEqual(fourAlone.runOut);
    expect(kept.runOut?.p50 ?? '9999').not.toBe(free.runOut?.p50);
    expect(kept.walk?.need).toBe((free.walk?.need ?? 0) + 6);
    expect(kept.walk?.standing).toBe(10);
    const { need = 0, carryOver = 0 } = kept.walk ?? {};
    expect(need + carryOver).toBeGreaterThan(10);
    expect(kept.walk?.toCome).toBe(need + carryOver - 10);
  });

  test('of what is no longer kept all is there to be eaten', async () => {
    await keep(6);
    const { item } = await jam();

    expect(keptForEmergency(item)).toBe(6);
    expect(keptForEmergency({ ...item, retiredOn: asDate('2026-06-01') })).toBe(0);
  });
});
