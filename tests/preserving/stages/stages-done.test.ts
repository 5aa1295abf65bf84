import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { BegunStage } from '../../../src/household/begun.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { batchRuling, stillStanding } from '../../../src/preserving/stages/prepared-batches.ts';
import { type RecipeStage, stagesOfFood } from '../../../src/preserving/stages/recipe-stages.ts';
import {
  beginRuling,
  hoursBetweenWords,
  nextStages,
  stagesRuling,
} from '../../../src/preserving/stages/stages-done.ts';

const tables = loadReferenceTables();
const book = recipeBook(tables);
const stagesOf = (key: string): readonly RecipeStage[] =>
  book.find((recipe) => recipe.key === key)?.stages ?? stagesOfFood(tables, key);
const begun = (...stages: readonly (readonly [number, string, (string | null)?])[]): BegunStage[] =>
  stages.map(([position, begunAt, way = null]) => ({ position, begunAt, way }));
const codes = (ruling: ReturnType<typeof stagesRuling>) =>
  ruling.ok ? 'ok' : ruling.problems.map(({ code }) => code).join();

describe('a batch before its canner load', () => {
  // MSU Extension, PFS 01600235: dried beans are soaked 12 to 18 hours in the cold, or boiled 2 minutes and soaked 1 hour.
  test('dried beans wait for their soak: not begun, too short, long enough, too long', () => {
    const beans = stagesOf('beans-dried');
    const soaked = begun([1, '2026-08-21T21:00', 'soaked overnight']);
    expect(codes(stagesRuling(beans, [], '2026-08-22T09:00'))).toBe('stage-not-begun');
    expect(codes(stagesRuling(beans, soaked, '2026-08-22T08:59'))).toBe('stage-too-short');
    expect(codes(stagesRuling(beans, soaked, '2026-08-22T09:00'))).toBe('ok');
    expect(codes(stagesRuling(beans, soaked, '2026-08-22T15:00'))).toBe('ok');
    expect(codes(stagesRuling(beans, soaked, '2026-08-22T15:01'))).toBe('stage-too-long');
    expect(codes(stagesRuling(beans, begun([1, '2026-08-22T08:00', 'quick soak']), '2026-08-22T09:00'))).toBe(
      'ok',
    );
  });

  test('a way the source does not print, or none where it prints two, is no stage', () => {
    const beans = stagesOf('beans-dried');
    expect(codes(stagesRuling(beans, begun([1, '2026-08-21T21:00', null]), '2026-08-22T09:00'))).toBe(
      'stage-not-begun',
    );
    expect(codes(stagesRuling(beans, begun([1, '2026-08-21T21:00', 'overnight']), '2026-08-22T09:00'))).toBe(
      'stage-not-begun',
    );
  });

  // USDA Complete Guide 6, p6-8: 3 to 4 weeks at 70 to 75 °F, 5 to 6 weeks at 60 to 65 °F; then tightly covered and cold.
  test('kraut ferments its weeks at its temperature, and then keeps cold as long as it likes', () => {
    const kraut = stagesOf('sauerkraut');
    const warm = begun([1, '2026-09-05T10:00', 'at 70 to 75 F']);
    const cool = begun([1, '2026-09-05T10:00', 'at 60 to 65 F']);
    expect(codes(stagesRuling(kraut, warm, '2026-09-26T10:00'))).toBe('ok');
    expect(codes(stagesRuling(kraut, cool, '2026-09-26T10:00'))).toBe('stage-too-short');
    expect(codes(stagesRuling(kraut, warm, '2026-10-04T10:00'))).toBe('stage-too-long');
    expect(codes(stagesRuling(kraut, [...warm, ...begun([2, '2026-10-01T10:00'])], '2027-01-01T10:00'))).toBe(
      'ok',
    );
    expect(codes(stagesRuling(kraut, [...warm, ...begun([2, '2026-09-20T10:00'])], '2027-01-01T10:00'))).toBe(
      'stage-too-short',
    );
  });

  // USDA Complete Guide 6, p6-11 to p6-12: days 1, 3, 5, 7 to 13, filled on day 14.
  test('14-day pickles are filled on the fourteenth day and on no other, whatever was left out', () => {
    const pickles = stagesOf('14-day-sweet-pickles');
    const days = [1, 3, 5, 7, 8, 9, 10, 11, 12, 13];
    const all = days.map((day, at) => ({
      position: at + 1,
      way: null,
      begunAt: `2026-08-${String(day).padStart(2, '0')}T18:00`,
    }));
    expect(codes(stagesRuling(pickles, all, '2026-08-13T23:00'))).toBe('stage-too-short');
    expect(codes(stagesRuling(pickles, all, '2026-08-14T08:00'))).toBe('ok');
    expect(codes(stagesRuling(pickles, all, '2026-08-15T08:00'))).toBe('stage-too-long');
    for (const left of all)
      expect(
        codes(
          stagesRuling(
            pickles,
            all.filter((one) => one !== left),
            '2026-08-14T08:00',
          ),
        ),
      ).not.toBe('ok');
  });

  test('hours are hours that pass when the clocks change in the night', () => {
    const beans = stagesOf('beans-dried');
    // In Denver the clocks go forward on 8 March 2026: from 9 PM to 9 AM eleven hours pass.
    const soaked = begun([1, '2026-03-07T21:00', 'soaked overnight']);
    expect(codes(stagesRuling(beans, soaked, '2026-03-08T09:00', 'America/Denver'))).toBe('stage-too-short');
    expect(codes(stagesRuling(beans, soaked, '2026-03-08T10:00', 'America/Denver'))).toBe('ok');
  });

  test('what may be begun next is named with its earliest and latest moment', () => {
    const dills = stagesOf('quick-dill-pickles');
    const [next] = nextStages(dills, begun([1, '2026-08-21T20:00']));
    expect(next).toMatchObject({ isLast: true, from: '2026-08-22T08:00', until: '2026-08-22T09:00' });
    expect(
      nextStages(stagesOf('beans-dried'), [])
        .filter(({ isLast }) => !isLast)
        .map(({ stage }) => stage.way),
    ).toEqual(['soaked overnight', 'quick soak']);
  });

  test('filled jars are taken from the oldest batches begun by then', () => {
    const one = { id: 'a', batches: 2, begun: begun([1, '2026-08-01T09:00']) };
    const two = { id: 'b', batches: 1, begun: begun([1, '2026-08-20T09:00']) };
    expect(
      stillStanding([two, one], [{ on: '2026-08-15', batches: 1 }]).map(({ id, batches }) => [id, batches]),
    ).toEqual([
      ['a', 1],
      ['b', 1],
    ]);
    expect(stillStanding([one], [{ on: '2026-07-15', batches: 2 }])).toHaveLength(1);
    expect(stillStanding([one, two], [{ on: '2026-08-21', batches: 3 }])).toEqual([]);
  });

  test('of three batches with two begun in time the third waits', () => {
    const preparation = {
      stages: stagesOf('quick-dill-pickles'),
      prepared: [{ id: 'a', batches: 2, begun: begun([1, '2026-08-21T21:00']) }],
      timeZone: 'America/Denver',
    };
    expect([1, 2, 3].map((nth) => batchRuling(preparation, nth, '2026-08-22T09:00').ok)).toEqual([
      true,
      true,
      false,
    ]);
  });
});

/** By hand, without the code under test: minutes since some Monday, UTC. */
const minuteOf = (time: string) => Date.parse(`${time}:00Z`) / 60_000;
const timeOf = (minute: number) => new Date(minute * 60_000).toISOString().slice(0, 16);
const dayOf = (minute: number) => Math.floor(minute / 1440);

describe('over the whole book', () => {
  const staged = book.filter(({ stages }) => stages.length > 0);
  const start = minuteOf('2026-09-01T08:00');

  test('no record, however made, lets a canner begin earlier than the printed waits, or without one of them', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...staged),
        fc.uniqueArray(
          fc.tuple(fc.integer({ min: 1, max: 14 }), fc.integer({ min: 0, max: 60 * 24 * 50 }), fc.nat(3)),
          { maxLength: 14, selector: ([position]) => position },
        ),
        fc.boolean(),
        fc.integer({ min: 0, max: 60 * 24 * 60 }),
        ({ stages }, random, isNearlyRight, later) => {
          const ways = [null, ...new Set(stages.map(({ way }) => way))];
          let at = start;
          // Half of the records follow the book and are off by some hours here and there; the rest are any.
          const records: BegunStage[] = isNearlyRight
            ? [...new Set(stages.map(({ position }) => position))].slice(0, -1).flatMap((position, index) => {
                const way = ways[(random[0]?.[2] ?? 0) % ways.length] ?? null;
                const stage = stages.find(
                  (one) => one.position === position && (one.way === way || one.way === null),
                );
                if (stage === undefined) return [];
                const record = { position, way: stage.way, begunAt: timeOf(at) };
                at += stage.leastHours * 60 + ((random[index]?.[1] ?? 0) % 240) - 60;
                return [record];
              })
            : random.map(([position, minute, way]) => ({
                position,
                way: ways[way % ways.length] ?? null,
                begunAt: timeOf(start + minute),
              }));
          const canAt = isNearlyRight ? at + (later % 600) - 120 : start + later;
          if (!stagesRuling(stages, records, timeOf(canAt)).ok) return;
          const named = new Set(records.flatMap(({ way }) => (way === null ? [] : [way])));
          const path = stages.filter(({ way }) => way === null || named.has(way));
          const waits = path.slice(0, -1).filter(({ leastHours }) => leastHours > 0);
          for (const wait of waits) {
            const record = records.find(({ position }) => position === wait.position);
            expect(record, wait.what).toBeDefined();
            const after = records
              .filter(
                ({ position }) =>
                  position > wait.position && path.some((stage) => stage.position === position),
              )
              .map(({ begunAt }) => minuteOf(begunAt));
            for (const next of [...after, canAt]) {
              const from = minuteOf(record?.begunAt ?? '');
              if (wait.counted === 'hours') expect(next - from).toBeGreaterThanOrEqual(wait.leastHours * 60);
              else expect(dayOf(next) - dayOf(from)).toBeGreaterThanOrEqual(wait.leastHours / 24);
            }
          }
        },
      ),
      { numRuns: 3000 },
    );
  });

  test('begun one after the other as soon as each may be, every recipe goes into the canner exactly then', () => {
    for (const { key, stages } of staged)
      for (const way of new Set(stages.map((stage) => stage.way))) {
        const records: BegunStage[] = [];
        let at = '2026-09-01T08:00';
        for (;;) {
          const next = nextStages(stages, records).filter(
            ({ stage }) => stage.way === null || stage.way === way || way === null,
          );
          const [step] = next.filter(({ isLast, stage }) => !isLast && stage.leastHours > 0);
          at = (next[0]?.from ?? '') > at ? (next[0]?.from ?? at) : at;
          if (step === undefined) break;
          const wanted = { position: step.stage.position, way: step.stage.way, begunAt: at };
          expect(beginRuling(stages, records, wanted).ok, `${key} ${step.stage.what}`).toBe(true);
          records.push(wanted);
        }
        expect(stagesRuling(stages, records, at).ok, `${key} at ${at}`).toBe(true);
      }
  });
});

describe('how long a stage waits, in words', () => {
  test('names the unit once where both ends have the same', () => {
    expect(hoursBetweenWords(12, 18, { counted: 'hours' })).toBe('12 to 18 hours');
    expect(hoursBetweenWords(21 * 24, 28 * 24, { counted: 'hours' })).toBe('21 to 28 days');
    expect(hoursBetweenWords(48, 72, { counted: 'hours' })).toBe('48 hours to 3 days');
    expect(hoursBetweenWords(1, 2, { counted: 'hours' })).toBe('1 to 2 hours');
  });
});
