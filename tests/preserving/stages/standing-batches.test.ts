import { describe, expect, test } from 'vitest';
import { asDate } from '../../../shared/week.ts';
import type { Preparations, PreparedBatches, RecipeBatches } from '../../../src/household/begun.ts';
import { daysFromFilling } from '../../../src/preserving/stages/days-from-filling.ts';
import {
  batchRuling,
  type Preparation,
  stillStanding,
} from '../../../src/preserving/stages/prepared-batches.ts';
import { stagesHere } from '../../../src/preserving/stages/stages-here.ts';
import { stagesOfRecipe } from '../../../src/preserving/stages/stages-of-recipe.ts';
import { preparationFor, standingBatches } from '../../../src/preserving/stages/standing-batches.ts';
import { copyOf, ofBook } from '../own-kitchen.ts';
import { codesOf, tables } from '../tables.ts';

const group = (id: string, batches: number, begunAt: string): PreparedBatches => ({
  id,
  batches,
  begun: [{ position: 1, way: null, begunAt }],
});
const left = (prepared: readonly PreparedBatches[], ...filled: readonly (readonly [string, number])[]) =>
  stillStanding(
    prepared,
    filled.map(([on, batches]) => ({ on, batches })),
  ).map(({ id, batches }) => [id, batches]);

describe('what still stands of the batches begun', () => {
  const early = group('early', 2, '2026-08-20T21:00');
  const late = group('late', 3, '2026-08-21T08:00');

  test('the oldest were filled first, and what is left stands oldest first', () => {
    expect(left([late, early])).toEqual([
      ['early', 2],
      ['late', 3],
    ]);
    expect(left([late, early], ['2026-08-22', 1])).toEqual([
      ['early', 1],
      ['late', 3],
    ]);
    expect(left([late, early], ['2026-08-22', 2])).toEqual([['late', 3]]);
    expect(left([late, early], ['2026-08-22', 4])).toEqual([['late', 1]]);
    expect(left([late, early], ['2026-08-22', 9])).toEqual([]);
  });

  test('what was filled on a day was begun by that day, the day itself among them', () => {
    expect(left([early, late], ['2026-08-20', 4])).toEqual([['late', 3]]);
    expect(left([early, late], ['2026-08-19', 4])).toEqual([
      ['early', 2],
      ['late', 3],
    ]);
  });

  test('the order in which fillings were written down does not matter', () => {
    const once = left([early, late], ['2026-08-20', 1], ['2026-08-21', 2]);
    expect(once).toEqual([['late', 2]]);
    expect(left([late, early], ['2026-08-21', 2], ['2026-08-20', 1])).toEqual(once);
  });

  test('of two begun in the same minute the one named first goes first', () => {
    const [a, b] = [group('a', 1, '2026-08-20T21:00'), group('b', 1, '2026-08-20T21:00')];
    expect(left([b, a], ['2026-08-21', 1])).toEqual([['b', 1]]);
    expect(left([a, b], ['2026-08-21', 1])).toEqual([['b', 1]]);
  });
});

describe('whether the n-th batch of a day may go into the canner', () => {
  // USDA Complete Guide 6, p6-10: quick dill pickles stand 12 hours in salt water.
  const dill = (...prepared: readonly PreparedBatches[]): Preparation => ({
    stages: ofBook('quick-dill-pickles').stages,
    prepared,
    timeZone: 'America/Denver',
  });
  const at = '2026-08-22T09:00';
  const ready = (id: string, batches: number) => group(id, batches, '2026-08-21T21:00');
  const tooNew = (id: string, batches: number) => group(id, batches, '2026-08-22T06:00');
  const tooOld = (id: string, batches: number) => group(id, batches, '2026-08-19T21:00');

  test('what is made in one go always may', () => {
    expect(batchRuling({ stages: [], prepared: [], timeZone: 'UTC' }, 5, at)).toEqual({
      ok: true,
      value: { since: null },
    });
  });

  test('as many as were begun long enough before', () => {
    const begun = dill(ready('a', 1), ready('b', 2));
    for (const nth of [1, 2, 3]) expect(batchRuling(begun, nth, at)).toMatchObject({ ok: true });
    expect(batchRuling(begun, 1, at)).toMatchObject({ value: { since: '2026-08-22T09:00' } });
    const refused = batchRuling(begun, 4, at);
    expect(codesOf(refused)).toEqual(['stage-not-begun']);
    expect(refused).toMatchObject({
      problems: [
        {
          path: ['stages'],
          message:
            '3 batches were begun long enough before, and this is number 4 (USDA-G6, p6-10). Begin another and write down when, or make fewer today.',
        },
      ],
    });
    expect(batchRuling(dill(ready('a', 1)), 2, at)).toMatchObject({
      problems: [
        { message: expect.stringMatching(/^1 batch was begun long enough before, and this is number 2/) },
      ],
    });
  });

  test('those that wait too short or stood too long are none of them', () => {
    const begun = dill(tooNew('new', 4), ready('a', 1), tooOld('old', 4));
    expect(batchRuling(begun, 1, at).ok).toBe(true);
    // The refusal is of the batch that comes nearest: one that only has to wait.
    expect(codesOf(batchRuling(begun, 2, at))).toEqual(['stage-too-short']);
    expect(codesOf(batchRuling(dill(tooOld('old', 1), tooNew('new', 1)), 1, at))).toEqual([
      'stage-too-short',
    ]);
    expect(codesOf(batchRuling(dill(tooOld('old', 1)), 1, at))).toEqual(['stage-too-long']);
  });

  test('one without a first work written down comes nearer than one that stood too long', () => {
    const beans = { ...dill(), stages: ofBook('beans-dried-pints').stages };
    const unnamed = group('unnamed', 1, '2026-08-21T21:00');
    const soaked = (begunAt: string) => ({
      id: 'soaked',
      batches: 1,
      begun: [{ position: 1, way: 'soaked overnight', begunAt }],
    });
    expect(
      codesOf(batchRuling({ ...beans, prepared: [soaked('2026-08-20T09:00'), unnamed] }, 1, at)),
    ).toEqual(['stage-not-begun']);
    expect(
      codesOf(batchRuling({ ...beans, prepared: [unnamed, soaked('2026-08-22T08:00')] }, 1, at)),
    ).toEqual(['stage-too-short']);
  });

  test('nothing begun is said as nothing begun', () => {
    expect(codesOf(batchRuling(dill(), 1, at))).toEqual(['stage-not-begun']);
    expect(batchRuling(dill(), 1, at)).toMatchObject({
      problems: [
        { message: expect.stringContaining('You have not written down “Cover the washed cucumbers') },
      ],
    });
  });
});

describe('batches of one recipe that stand', () => {
  const own = (id: string, change: Partial<RecipeBatches> = {}): RecipeBatches =>
    ({
      ...group(id, 2, '2026-08-21T21:00'),
      recipeId: 'dill',
      isThrownAway: false,
      ...change,
    }) as RecipeBatches;
  const filledOn = (recipeId: string, day: string, batches: number) =>
    ({ recipeId, on: asDate(day), batches }) as Preparations['filled'][number];

  test('are its own, neither thrown away nor filled', () => {
    const known: Preparations = {
      batches: [own('a'), own('b', { isThrownAway: true }), own('c', { recipeId: 'kraut' as never })],
      filled: [filledOn('kraut', '2026-08-22', 2), filledOn('dill', '2026-08-22', 1)],
    };
    expect(standingBatches(known, 'dill')).toEqual([own('a', { batches: 1 })]);
    expect(standingBatches(known, 'kraut')).toEqual([]);
    expect(standingBatches({ ...known, filled: [] }, 'kraut')).toMatchObject([{ id: 'c', batches: 2 }]);
  });

  test('what was filled on the day asked about is not taken off', () => {
    const known: Preparations = {
      batches: [own('a')],
      filled: [filledOn('dill', '2026-08-22', 1), filledOn('dill', '2026-08-23', 1)],
    };
    expect(standingBatches(known, 'dill', asDate('2026-08-22'))).toMatchObject([{ batches: 1 }]);
    expect(standingBatches(known, 'dill')).toEqual([]);
  });

  test('go before the canner with the stages of the recipe', () => {
    const dill = copyOf('quick-dill-pickles');
    const known: Preparations = {
      batches: [own('a', { recipeId: dill.id })],
      filled: [filledOn(dill.id, '2026-08-22', 2)],
    };
    const on = asDate('2026-08-22');
    expect(preparationFor(dill, on, known, tables, 'America/Denver')).toEqual({
      stages: ofBook('quick-dill-pickles').stages,
      prepared: [own('a', { recipeId: dill.id })],
      timeZone: 'America/Denver',
    });
    expect(preparationFor(dill, asDate('2026-08-23'), known, tables, 'America/Denver').prepared).toEqual([]);
  });
});

describe('the stages of a household’s recipe', () => {
  const dill = copyOf('quick-dill-pickles');

  test('are those of the recipe of the book it follows, in whatever letters it is named', () => {
    expect(stagesHere(dill, tables)).toEqual(ofBook('quick-dill-pickles').stages);
    expect(stagesOfRecipe(tables, 'Quick-Dill-Pickles', null)).toEqual(ofBook('quick-dill-pickles').stages);
  });

  test('are those its process was tested with, where it follows a food of the processing table', () => {
    const beans = copyOf('beans-dried-pints');
    expect(stagesHere({ basedOn: 'beans-dried', process: beans.process }, tables)).toEqual(
      ofBook('beans-dried-pints').stages,
    );
  });

  test('are none of what the book makes in one go, or what is based on nothing', () => {
    expect(stagesHere(copyOf('apple-butter'), tables)).toEqual([]);
    expect(stagesHere({ basedOn: 'own', process: null }, tables)).toEqual([]);
  });
});

describe('days from filling to the first good jar', () => {
  const days = (key: string, readyAfterDays: number) => daysFromFilling(ofBook(key), readyAfterDays);

  // USDA Complete Guide 6, p6-10: 12 hours in salt water, counted as a day; then 4 weeks (from memory).
  test('leave out the days of the stages, and are never fewer than what the source lets it cure', () => {
    expect(ofBook('quick-dill-pickles').curing?.daysLow).toBe(28);
    expect(days('quick-dill-pickles', 40)).toBe(39);
    expect(days('quick-dill-pickles', 29)).toBe(28);
    expect(days('quick-dill-pickles', 28)).toBe(28);
  });

  test('are never more than were said', () => {
    expect(days('quick-dill-pickles', 10)).toBe(10);
    expect(days('quick-dill-pickles', 0)).toBe(0);
  });

  test('stay as they were said where nothing stands or cures before', () => {
    expect(days('apple-butter', 14)).toBe(14);
  });
});
