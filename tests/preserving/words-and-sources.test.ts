import { describe, expect, test } from 'vitest';
import { suspectJarHandling } from '../../src/preserving/afterwards/found-unsealed.ts';
import { chilledFoods, powerCutAdvice } from '../../src/preserving/afterwards/power-cut.ts';
import { failedSealAdvice, sealTests } from '../../src/preserving/afterwards/seal-check.ts';
import type { Citation } from '../../src/preserving/citation.ts';
import { untestedFoodRefusal, untestedFoodRules } from '../../src/preserving/foods/untested-foods.ts';
import { conditionRefusal, foodConditions } from '../../src/preserving/lookup/food-conditions.ts';
import { scheduleFor } from '../../src/preserving/lookup/process-lookup.ts';
import type { Schedule } from '../../src/preserving/lookup/schedule.ts';
import { methodRefusal, unsafeMethods } from '../../src/preserving/lookup/unsafe-methods.ts';
import { changesRuling, recipeChanges } from '../../src/preserving/recipes/recipe-changes.ts';
import { cautionsFor, everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { foodStepsFor } from '../../src/preserving/sheet/food-steps.ts';
import { stepsBlockingLoad } from '../../src/preserving/sheet/session-step.ts';
import { sessionSteps } from '../../src/preserving/sheet/session-steps.ts';
import { book } from './own-kitchen.ts';
import { answerOf, queryForRow, tables } from './tables.ts';

// Whatever is printed for the stove, or refused, is said in a whole sentence and with a source the tables know.

const sources = new Set(tables.sources.map(({ sourceId }) => sourceId));
const isSentence = (text: string): boolean =>
  /^[A-Z0-9½¼“‘][^\n]{4,}[.!?)]$/.test(text) && !/undefined|NaN|\bnull\b| {2}|\.\./.test(text);
/** What is wrong with a text and its source; empty when nothing is. */
const faults = (name: string, text: string, { sourceId, locator, basis }: Citation): readonly string[] => [
  ...(isSentence(text) ? [] : [`${name}: no sentence: ${JSON.stringify(text)}`]),
  ...(sources.has(sourceId) ? [] : [`${name}: unknown source ${JSON.stringify(sourceId)}`]),
  ...(locator.trim().length >= 3 ? [] : [`${name}: says not where`]),
  ...(basis === (sourceId === 'MEMORY' ? 'memory' : 'read') ? [] : [`${name}: ${basis} of ${sourceId}`]),
];

const read = tables.processTimes.filter(({ basis }) => basis === 'read');
const schedules: readonly Schedule[] = read.flatMap((row) => {
  const altitudeFt = row.altitudeFromFt + 1;
  const query = queryForRow(row, altitudeFt);
  const steam = scheduleFor(tables, { ...query, method: 'atmospheric-steam' });
  return [
    answerOf(scheduleFor(tables, query)),
    ...(row.method === 'boiling-water' && steam.ok ? [steam.value] : []),
  ];
});
const stepsOf = (schedule: Schedule) => sessionSteps(schedule, foodStepsFor(tables, schedule));
const nameOf = ({ rowKey, method }: Schedule) => `${rowKey} in ${method}`;

describe('every sheet that can be printed', () => {
  test('is one for every row that was read, and for steam where it may be', () => {
    expect(schedules.length).toBeGreaterThan(read.length);
    expect(new Set(schedules.map(({ method }) => method)).size).toBe(3);
  });

  test('says each step in a sentence, with its page, under a key of its own', () => {
    const found = new Set<string>();
    for (const schedule of schedules) {
      const steps = stepsOf(schedule);
      if (new Set(steps.map(({ key }) => key)).size !== steps.length) found.add(`${nameOf(schedule)}: keys`);
      for (const { key, kind, text, source } of steps) {
        if (key !== kind && !new RegExp(`^${kind}-[2-9]\\d*$`).test(key))
          found.add(`${nameOf(schedule)}: ${key}`);
        for (const fault of faults(`${nameOf(schedule)} ${key}`, text, source)) found.add(fault);
      }
    }
    expect([...found].slice(0, 5)).toEqual([]);
  });

  test('says each caution in a sentence, with its source, once', () => {
    const found = new Set<string>();
    for (const schedule of schedules) {
      const cautions = cautionsFor(schedule);
      if (new Set(cautions.map(({ code }) => code)).size !== cautions.length)
        found.add(`${nameOf(schedule)}: codes`);
      for (const { code, text, source } of cautions) {
        if (!/^[a-z]+(-[a-z]+)*$/.test(code)) found.add(`${nameOf(schedule)}: ${code}`);
        for (const fault of faults(`${nameOf(schedule)} ${code}`, text, source)) found.add(fault);
      }
    }
    for (const { code, text, source } of everyCaution)
      for (const fault of faults(code, text, source)) found.add(fault);
    expect([...found].slice(0, 5)).toEqual([]);
  });

  test('prints the minutes and the pressure of its own row, and no lower pressure', () => {
    for (const schedule of schedules) {
      const text = stepsOf(schedule).find(({ kind }) => kind === 'process')?.text ?? '';
      const [, minutes, psi] =
        /^Process (\d+) minutes?(?: at (\d+) psi)?\. The clock starts when /.exec(text) ?? [];
      expect(Number(minutes), text).toBe(schedule.minutes);
      if (schedule.psi === null) expect(psi, text).toBeUndefined();
      else expect(Number(psi), text).toBe(Math.ceil(schedule.psi));
    }
  });

  test('lets no load begin before jars are boiled where they must be, acid is in each, and the canner is vented', () => {
    for (const schedule of schedules) {
      const steps = stepsOf(schedule);
      const blocking = stepsBlockingLoad(steps, new Set()).map(({ kind }) => kind);
      const kinds = new Set(steps.map(({ kind }) => kind));
      const wanted = (['sterilize', 'acid-per-jar', 'vent'] as const).filter((kind) => kinds.has(kind));
      expect(blocking.toSorted(), nameOf(schedule)).toEqual(wanted.toSorted());
      expect(kinds.has('vent')).toBe(schedule.method === 'pressure');
      expect(kinds.has('acid-per-jar')).toBe(schedule.acid !== null);
      expect(stepsBlockingLoad(steps, new Set(steps.map(({ key }) => key)))).toEqual([]);
    }
  });

  // USDA Complete Guide 5, p5-12 and p5-13: fish in quarts, and smoked fish, have their own water and venting.
  test('fish has its own water', () => {
    const water = (foodKey: string, jar: string) =>
      schedules
        .filter((one) => one.foodKey === foodKey && one.printedJar === jar)
        .map((one) => stepsOf(one).find(({ kind }) => kind === 'water-ready')?.text ?? '');
    for (const text of water('fish', 'quart')) expect(text).toContain('3 quarts of water');
    for (const text of water('fish', 'pint')) expect(text).toContain('2 to 3 inches of hot water');
    for (const text of water('smoked-fish', 'pint')) expect(text).toContain('4 quarts of cool tap water');
    expect([water('fish', 'quart'), water('smoked-fish', 'pint')].every(({ length }) => length > 0)).toBe(
      true,
    );
    const steam = (foodKey: string, jar: string) =>
      stepsOf(schedules.find((one) => one.foodKey === foodKey && one.printedJar === jar) as Schedule).find(
        ({ kind }) => kind === 'steam',
      )?.text;
    expect(steam('fish', 'quart')).toContain('take at least 30 minutes');
    expect(steam('fish', 'pint')).not.toContain('30 minutes');
  });
});

describe('every refusal', () => {
  const of = (
    refusals: readonly {
      readonly code: string;
      readonly message: string;
      readonly rule: string;
      readonly instead: string;
      readonly source: Citation;
    }[],
  ) =>
    refusals.flatMap(({ code, message, rule, instead, source }) => [
      ...faults(code, message, source),
      ...(isSentence(instead) ? [] : [`${code}: ${JSON.stringify(instead)}`]),
      ...(isSentence(`${rule}.`) ? [] : [`${code}: ${JSON.stringify(rule)}`]),
    ]);

  test('of a way that is no process', () => {
    const refusals = unsafeMethods.map(methodRefusal);
    expect(of(refusals)).toEqual([]);
    expect(refusals.map(({ code, path }) => `${path.join()} ${code}`)).toEqual(
      unsafeMethods.map((method) => `method method-${method}`),
    );
    expect(new Set(refusals.map(({ rule }) => rule)).size).toBe(unsafeMethods.length);
  });

  test('of something true of the food', () => {
    const refusals = foodConditions.map(conditionRefusal);
    expect(of(refusals)).toEqual([]);
    expect(refusals.map(({ code, path }) => `${path.join()} ${code}`)).toEqual(
      foodConditions.map((condition) => `conditions condition-${condition}`),
    );
  });

  test('of a food nothing was tested for, each found by the name it is listed under', () => {
    const found = untestedFoodRules.flatMap(({ name, rule, source, instead }) => [
      ...faults(name, `${rule}.`, source),
      ...(isSentence(instead) ? [] : [`${name}: ${JSON.stringify(instead)}`]),
      ...(name.length > 3 ? [] : ['no name']),
    ]);
    expect(found).toEqual([]);
    expect(new Set(untestedFoodRules.map(({ name }) => name)).size).toBe(untestedFoodRules.length);
    expect(untestedFoodRefusal('Pumpkin butter')?.rule).toBe(
      untestedFoodRules.find(({ name }) => name === 'Pumpkin butter')?.rule,
    );
  });

  test('of a change under which a recipe is no longer tested', () => {
    const kinds = [...new Map(book.map((recipe) => [recipe.kind, recipe])).values()];
    const refusals = kinds.flatMap((recipe) =>
      recipeChanges.flatMap((change) => {
        const ruling = changesRuling(recipe, [change]);
        return ruling.ok ? [] : ruling.problems;
      }),
    );
    expect(refusals.length).toBeGreaterThan(20);
    expect(of(refusals)).toEqual([]);
  });
});

describe('what is said once jars stand on the shelf', () => {
  test('of seals', () => {
    for (const { text, source } of sealTests) expect(faults('seal test', text, source)).toEqual([]);
    for (const hoursSinceProcessed of [12, 30])
      for (const { choice, text, source } of failedSealAdvice({
        hoursSinceProcessed,
        hotPackPrinted: true,
        keepColdDays: 5,
      }))
        expect(faults(choice, text, source)).toEqual([]);
  });

  test('of a jar that lost its seal, or looks wrong', () => {
    for (const acidity of ['acid', 'acidified', 'low-acid', 'unknown'] as const)
      for (const tomato of [false, true])
        for (const stillSealed of [false, true])
          for (const { text, source } of suspectJarHandling({ acidity, tomato, stillSealed }))
            expect(faults(acidity, text, source)).toEqual([]);
  });

  test('of a power cut, for every food in every appliance', () => {
    const found = new Set<string>();
    for (const appliance of ['refrigerator', 'freezer-full', 'freezer-half-full'] as const)
      for (const food of chilledFoods)
        for (const hours of [1, 5, 30, 60])
          for (const warmestF of [null, 35, 45])
            for (const iceCrystals of [null, true, false]) {
              const cut = { appliance, startedAt: 0, endedAt: hours * 3_600_000, doorKeptShut: true };
              const { text, source } = powerCutAdvice(cut, { food, iceCrystals, warmestF });
              for (const fault of faults(`${appliance} ${food}`, text, source)) found.add(fault);
            }
    expect([...found]).toEqual([]);
  });
});
