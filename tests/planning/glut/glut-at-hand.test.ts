import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import { glutAtHand } from '../../../src/planning/glut/glut-at-hand.ts';
import { noVesselGuesses } from '../../../src/planning/year/vessels.ts';
import { tables } from '../../preserving/tables.ts';
import { asOf, factsOf, fetchedOf, orchard, patch, yearOf } from '../year/orchard-street.ts';

describe('a glut that lies at hand', () => {
  // Seen on Wednesday, August 5; canning on Saturday, August 8.
  const atHand = (change: object = {}, crop = 'peach', on = asOf) =>
    glutAtHand(yearOf(change, on), { crop: crop as never, lb: 40 }, tables, noVesselGuesses);
  const keeping = (...days: readonly number[]) => ({
    sources: days.map((useByDays, at) => ({ ...orchard, id: `orchard-${at}`, useByDays })),
  });

  test('keeps as long as produce of its sources, the shortest of them', () => {
    expect(atHand(keeping(5, 3))).toMatchObject({ useBy: '2026-08-08', usuallyKeepsUntil: null, weeks: 1 });
    expect(atHand(keeping(10))).toMatchObject({ useBy: '2026-08-15', usuallyKeepsUntil: null, weeks: 2 });
  });

  test('waits for the canning day of its own week in any case, and says until when it usually keeps', () => {
    expect(atHand(keeping(1))).toMatchObject({
      useBy: '2026-08-08',
      usuallyKeepsUntil: '2026-08-06',
      weeks: 1,
    });
    // Three days where no source of the crop says so.
    expect(atHand({ sources: [patch] })).toMatchObject({ useBy: '2026-08-08', usuallyKeepsUntil: null });
    expect(atHand({ sources: [patch] }, 'peach', asDate('2026-08-04'))).toMatchObject({
      useBy: '2026-08-08',
      usuallyKeepsUntil: '2026-08-07',
    });
  });

  test('lies in the first week of the year, beside what was fetched before', () => {
    const { year } = atHand(keeping(3)).loaded;
    const [hand] = year.sources.filter(({ isAtHand }) => isAtHand);
    expect(hand).toMatchObject({ crop: 'peach', isAtHand: true });
    expect(hand?.lbByWeek.slice(0, 2)).toEqual([40, 0]);
  });

  test('after the last canning day of its week keeps into the next as long as it keeps', () => {
    expect(atHand(keeping(3), 'peach', asDate('2026-08-09'))).toMatchObject({
      useBy: '2026-08-12',
      usuallyKeepsUntil: null,
    });
    expect(atHand(keeping(6), 'peach', asDate('2026-08-09')).weeks).toBe(2);
  });

  test('keeps no longer for what was fetched before, or of another crop, that does', () => {
    const fetched = (...of: readonly Parameters<typeof fetchedOf>[0][]) => ({
      ...keeping(3),
      fetched: of.map((change) => fetchedOf(change)),
    });
    expect(atHand(fetched({ useBy: asDate('2026-08-31') }))).toMatchObject({ useBy: '2026-08-08', weeks: 1 });
    expect(atHand(fetched({ useBy: asDate('2026-08-31'), crop: 'strawberry' as never })).weeks).toBe(1);
    // Peaches of the orchard itself come for weeks.
    expect(
      atHand({
        sources: [
          { ...orchard, useByDays: 3 },
          { ...orchard, id: 'far', useByDays: 30 },
        ],
      }).weeks,
    ).toBe(1);
    // What keeps as long as it lies beside it.
    const { loaded } = atHand(fetched({ useBy: asDate('2026-08-08') }));
    expect(loaded.year.sources.find(({ isAtHand }) => isAtHand)?.lbByWeek[0]).toBe(70);
    expect(loaded.facts.fetched).toHaveLength(2);
  });

  test('waits for no canning day while the household is away', () => {
    const away = {
      daysOff: {
        away: [{ fromOn: asDate('2026-08-08'), untilOn: asDate('2026-08-09') }],
        schoolHolidays: [],
      },
    };
    expect(atHand({ ...keeping(1), ...away })).toMatchObject({
      useBy: '2026-08-06',
      usuallyKeepsUntil: null,
    });
    const twoDays = { hours: { ...factsOf().hours, sessionsPerWeek: 2 } };
    // Saturday comes before Sunday.
    expect(atHand({ ...keeping(1), ...twoDays }).useBy).toBe('2026-08-08');
  });

  test('is all of it still there, from today on', () => {
    const [own] = atHand(keeping(3)).loaded.facts.fetched;
    expect(own).toMatchObject({ crop: 'peach', on: asOf, useBy: '2026-08-08', lb: 40, lbLeft: 40 });
  });
});
