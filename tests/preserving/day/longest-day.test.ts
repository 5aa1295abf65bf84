import { describe, expect, it } from 'vitest';
import { bounds } from '../../../shared/bounds.ts';
import { canningDay, mostMinutesLookedAt } from '../../../src/preserving/day/canning-day.ts';
import type { DayBatch, DayKitchen } from '../../../src/preserving/day/day-kitchen.ts';

// A day whose every number stands at its bound is laid out or refused after a counted amount of looking, on any machine. Forty
// batches of five jars on 100 canners used to look on for minutes.

const canners = Array.from({ length: 100 }, (_, at) => `canner-${at}`);
const kitchen = (people: number, burners: number): DayKitchen => ({
  people,
  burners,
  canners,
  loadingMinutes: 5,
  unloadingMinutes: 5,
});
const batchesOf = (count: number, minutes: number, pots: number, loadsPerPot: number): readonly DayBatch[] =>
  Array.from({ length: count }, (_, at) => ({
    id: `batch-${at}`,
    name: `Batch ${at}`,
    canner: canners[at] ?? '',
    pots,
    loadsPerPot,
    prepMinutes: minutes,
    cookMinutes: minutes,
    fillMinutes: 10,
    stirred: true,
    acidPerJar: false,
    phases: [{ name: 'process', minutes: 5 }],
  })) as unknown as readonly DayBatch[];

describe('the longest canning day of the bounds', () => {
  for (const people of [1, bounds.peopleAtWork.to])
    for (const burners of [2, bounds.stoveBurners.to])
      for (const minutes of [10, bounds.handsOnMinutes.to])
        for (const [count, pots, loads] of [
          [5, bounds.batches.to, 1],
          [40, 5, 1],
          [2, 10, 10],
        ] as const)
          it(`is answered or refused: ${count} batches of ${pots} pots, ${loads} loads, ${minutes} minutes, ${people} at work, ${burners} burners`, () => {
            const patience = { left: mostMinutesLookedAt };
            const day = canningDay(
              kitchen(people, burners),
              batchesOf(count, minutes, pots, loads),
              patience,
            );

            // One look over a lane at most after the last.
            const oneLook = (people + burners + canners.length) * 24 * 60;
            expect(mostMinutesLookedAt - patience.left).toBeLessThan(mostMinutesLookedAt + oneLook);
            if (!day.ok)
              expect(day.problems.map(({ code }) => code)).toEqual(
                patience.left > 0 ? ['day-too-long'] : ['day-too-crowded'],
              );
          });

  it('leaves an ordinary day of four recipes far from its patience in its first order', () => {
    const patience = { left: mostMinutesLookedAt };
    const day = canningDay(kitchen(2, 4), batchesOf(1, 30, 3, 2), patience);

    expect(day.ok).toBe(true);
    expect(mostMinutesLookedAt - patience.left).toBeLessThan(mostMinutesLookedAt / 10);
  });
});
