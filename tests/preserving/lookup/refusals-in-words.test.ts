import { describe, expect, test } from 'vitest';
import { scheduleFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { rowConditions } from '../../../src/preserving/lookup/row-conditions.ts';
import type { ProcessQuery } from '../../../src/preserving/lookup/schedule.ts';
import { answerOf, tables } from '../tables.ts';

const kettle = { method: 'boiling-water', altitudeFt: 2000, jar: 'pint', pack: 'hot' } as const;
const presser = { ...kettle, method: 'pressure', gauge: 'weighted' } as const;
const refused = (query: ProcessQuery) => {
  const ruling = scheduleFor(tables, query);
  return ruling.ok
    ? null
    : ruling.problems.map(({ code, path, message }) => `${path.join('.')} ${code}: ${message}`);
};

describe('what is not printed is refused in words that say what is', () => {
  test('a food nobody tested, with foods of a like name or whom to ask', () => {
    expect(refused({ ...kettle, foodKey: 'zyxgrass' })).toEqual([
      'foodKey food-unknown: No tested process for "zyxgrass" stands in the table (USDA-G1, p1-8). Ask the local extension service, or refrigerate or freeze the food.',
    ]);
    const [alike] = refused({ ...kettle, foodKey: 'mung beans' }) ?? [];
    const named = /Foods of a like name: (.*?)\. Ask the local/.exec(alike ?? '')?.[1]?.split(', ') ?? [];
    expect(named.length).toBeGreaterThan(1);
    expect(named.length).toBeLessThanOrEqual(6);
    expect(named.filter((key) => key.includes('bean')).length).toBeGreaterThan(2);
  });

  test('foods of a like name stand with those that share most words first', () => {
    const [message] = refused({ ...kettle, foodKey: 'crushed tomatoes in jars' }) ?? [];
    expect(message).toMatch(/Foods of a like name: tomatoes-crushed, /);
  });

  test('a style that is not printed, or not said, with those that are', () => {
    const of = (style?: string) =>
      refused({ ...kettle, foodKey: 'apple-butter', ...(style === undefined ? {} : { style }) })?.[0];
    expect(of('spiced')).toMatch(
      /^style style-unknown: The style "spiced" is not printed for this food \(USDA-G2, .*\)\. Choose one of: "butter[^"]*", "/,
    );
    expect(of()).toMatch(
      /^style style-unknown: This food is printed in several styles, each with its own times \(/,
    );
  });

  test('low-acid food outside a pressure canner, and a pressure canner without its gauge', () => {
    const low =
      'method low-acid-needs-pressure: Low-acid food is processed in a pressure canner only; boiling water and steam do not get hot enough to destroy botulism spores (USDA-G1, p1-8, p1-17). Use a pressure canner, or freeze the food.';
    expect(refused({ ...kettle, foodKey: 'beans-snap' })).toEqual([low]);
    expect(refused({ ...kettle, method: 'atmospheric-steam', foodKey: 'beans-snap' })).toEqual([low]);
    expect(refused({ ...kettle, method: 'pressure', foodKey: 'beans-snap' })).toEqual([
      'gauge gauge-not-stated: A pressure schedule depends on the gauge, which was not stated (USDA-G1, p1-20). Say whether the canner has a dial gauge or a weighted gauge.',
    ]);
  });

  test('a canner, a pack or a jar that is not printed, with what is', () => {
    expect(refused({ ...presser, foodKey: 'strawberry-jam' })?.[0]).toMatch(
      /^method method-not-printed: No pressure-weighted schedule is printed for this food and style \(.*\)\. Printed for it: boiling-water\.$/,
    );
    expect(refused({ ...kettle, pack: 'raw', foodKey: 'tomatoes-crushed' })?.[0]).toMatch(
      /^pack pack-not-printed: No raw pack is printed for this food, style and canner \(USDA-G3, .*\)\. Printed for it: hot\.$/,
    );
    expect(refused({ ...kettle, jar: 'half-gallon', foodKey: 'peaches' })?.[0]).toMatch(
      /^jar jar-larger-than-tested: .* Use quart jars or smaller\.$/,
    );
  });

  test('an altitude beyond the last band: a dial gauge has another way, boiling water asks', () => {
    expect(refused({ ...presser, gauge: 'dial', altitudeFt: 8001, foodKey: 'beans-snap' })?.[0]).toMatch(
      /^altitudeFt altitude-not-printed: No row is printed for this jar at 8001 ft; the table ends at 8,000 ft \(USDA-G4, .*\)\. Above 8,000 ft use a weighted gauge, or freeze the food\.$/,
    );
    const row = tables.processTimes.find(
      ({ method, altitudeFromFt, foodKey, style, jar, pack, basis }) =>
        method === 'boiling-water' &&
        basis === 'read' &&
        altitudeFromFt === 0 &&
        tables.processTimes
          .filter(
            (one) =>
              one.foodKey === foodKey &&
              one.style === style &&
              one.jar === jar &&
              one.pack === pack &&
              one.method === method,
          )
          .every(({ altitudeToFt }) => altitudeToFt !== null),
    );
    if (row !== undefined)
      expect(
        refused({
          ...kettle,
          foodKey: row.foodKey,
          style: row.style,
          jar: row.jar,
          pack: row.pack,
          altitudeFt: 29_999,
        })?.[0],
      ).toMatch(
        /Use another printed style or canner, or ask the local extension service, or refrigerate or freeze the food\.$/,
      );
    expect(refused({ ...kettle, foodKey: 'peaches', altitudeFt: 30_001 })?.[0]).toMatch(
      /^altitudeFt altitude-out-of-range: .* 0 to 30,000 ft, not 30001/,
    );
    expect(refused({ ...kettle, foodKey: 'peaches', altitudeFt: 30_000 })).toBeNull();
    expect(refused({ ...kettle, foodKey: 'peaches', altitudeFt: -1 })?.[0]).toContain('not -1');
    expect(refused({ ...kettle, foodKey: 'peaches', altitudeFt: Number.NaN })?.[0]).toContain('not NaN');
  });

  test('a choice that is not printed, or none where several are', () => {
    const crushed = { ...presser, jar: 'quart', foodKey: 'tomatoes-crushed' } as const;
    expect(refused({ ...crushed, choice: { minutes: 21 } })?.[0]).toMatch(
      /^choice choice-not-printed: The chosen schedule \(21 min, any psi\) is not printed for this jar and altitude \(.*\)\. Choose one of: 20 min at 10 psi, 15 min at 15 psi/,
    );
    expect(refused({ ...crushed, choice: { psi: 9 } })?.[0]).toContain('(any min, 9 psi)');
    expect(refused({ ...crushed, choice: { minutes: 20, psi: 15 } })?.[0]).toContain('(20 min, 15 psi)');
    expect(refused({ ...crushed, choice: { psi: 10 } })).toBeNull();
    expect(refused({ ...kettle, foodKey: 'peaches', choice: { minutes: 1 } })?.[0]).toMatch(
      /Choose one of: \d+ min\.$/,
    );
    expect(refused(crushed)?.[0]).toMatch(
      /^choice choose-schedule: The table prints several schedules for this jar and altitude, and a sheet carries one \(.*\)\. Choose one of: 20 min at 10 psi, 15 min at 15 psi/,
    );
  });

  test('a row that was only remembered', () => {
    const row = tables.processTimes.find(
      ({ basis, method }) => basis !== 'read' && method === 'boiling-water',
    );
    if (row === undefined) throw new Error('expected a remembered row');
    const { foodKey, style, pack, jar, altitudeFromFt, food } = row;
    expect(refused({ ...kettle, foodKey, style, pack, jar, altitudeFt: altitudeFromFt })?.[0]).toMatch(
      new RegExp(
        `^foodKey row-not-read: The row for ${food.replace(/[()]/g, '\\$&')}, ${jar}, at this altitude was not seen in the publication and is not served \\(from memory.*\\)\\. Look the time up in the current official guide`,
      ),
    );
  });
});

describe('what must be so for a row, word for word', () => {
  const conditions = (query: ProcessQuery) => rowConditions(tables, answerOf(scheduleFor(tables, query)));

  // USDA Complete Guide 2, p2-19 to p2-20; Guide 3, p3-5 and p3-8; Guide 4, p4-5 to p4-6 and p4-8.
  test('peaches in boiling water: as the row is printed, and where the kitchen is', () => {
    expect(conditions({ ...kettle, foodKey: 'peaches' }).slice(0, 2)).toEqual([
      'The food is prepared as this row is printed: halved or sliced.',
      'The kitchen is at 1,001 to 3,000 ft.',
    ]);
    expect(conditions({ ...kettle, foodKey: 'peaches', altitudeFt: 7000 })[1]).toBe(
      'The kitchen is at 6,001 ft or above.',
    );
  });

  test('tomatoes: the acid of each jar, with its page; a salsa: all the acid of its recipe', () => {
    const acid = (query: ProcessQuery) => conditions(query).find((line) => line.startsWith('Acidified'));
    expect(acid({ ...kettle, foodKey: 'tomatoes-crushed', jar: 'quart' })).toMatch(
      /^Acidified: each jar gets 2 tbsp bottled lemon juice, or ½ tsp citric acid, or 4 tbsp vinegar 5% \(USDA-G3, p3-5.*\)\.$/,
    );
    expect(acid({ ...kettle, foodKey: 'chile-salsa' })).toMatch(
      /^Acidified: all the acid of the printed recipe goes in, in its proportions \(USDA-G3, .*\)\.$/,
    );
    expect(acid({ ...kettle, foodKey: 'peaches' })).toBeUndefined();
  });

  test('under a dial gauge: where the table ends', () => {
    expect(conditions({ ...presser, gauge: 'dial', foodKey: 'beans-snap' })).toContain(
      'The kitchen is at 0 to 2,000 ft; above 8,000 ft nothing is printed.',
    );
    expect(conditions({ ...presser, foodKey: 'beans-snap' }).join(' ')).not.toContain('pack only');
  });

  test('the stages before it, in hours or days, with their page', () => {
    const stagesBefore = (query: ProcessQuery) => conditions(query).filter((line) => /before it/i.test(line));
    expect(stagesBefore({ ...presser, foodKey: 'beans-dried' })).toEqual([
      expect.stringMatching(
        /^Before it, soaked overnight: Cover the sorted beans with cold water and soak \(12 to 18 hours\)\. Source: USDA-G4, p4-5 to p4-6/,
      ),
      expect.stringMatching(/^Or before it, quick soak: .* \(1 hour\)\. Source: USDA-G4/),
    ]);
    const kraut = stagesBefore({ ...kettle, foodKey: 'sauerkraut' });
    expect(kraut).toHaveLength(2);
    expect(kraut[0]).toMatch(/\(21 to 28 days\)/);
    expect(stagesBefore({ ...kettle, pack: 'raw', foodKey: 'quick-dill-pickles' })[0]).toMatch(
      /^Before it: .* \(12 hours\)\. Source: USDA-G6, p6-10\.$/,
    );
  });

  test('steam: the whole time at most', () => {
    expect(conditions({ ...kettle, method: 'atmospheric-steam', foodKey: 'peaches' })).toContain(
      'The whole process takes at most 45 minutes, the altitude included.',
    );
    expect(conditions({ ...kettle, foodKey: 'peaches' }).join(' ')).not.toContain('The whole process takes');
  });
});
