import { describe, expect, it } from 'vitest';
import type { RecipeInSets } from '../../../src/planning/model/sets.ts';
import type { PlannedSession } from '../../../src/planning/plan.ts';
import {
  jarsAsidePerBatch,
  loadsPerBatch,
  minutesAtStove,
  minutesInCanner,
  minutesInWeek,
} from '../../../src/planning/year/recipe-time.ts';
import { begunInWeek, byBeginning, isSessionOf, stageWeeks } from '../../../src/planning/year/stage-weeks.ts';
import { pint, processing, recipe, staged, wideQuart } from '../model/hand-made-year.ts';

const once = recipe('boil', 'jam');
const pickled = recipe('pickle', 'jam', { stages: staged(2, [10, 20, 30]) });

describe('weeks from beginning a batch to its load', () => {
  it('are those of its stages; none of what is made in one go', () => {
    expect(stageWeeks(once)).toBe(0);
    expect(stageWeeks(pickled)).toBe(2);
  });

  it('move a list by its load to the week of its beginning', () => {
    expect(begunInWeek([1, 2, 3, 4], pickled, 1)).toBe(4);
    expect(begunInWeek([1, 2, 3, 4], pickled, 2)).toBeUndefined();
    expect(begunInWeek([1, 2, 3, 4], once, 2)).toBe(3);
    expect(begunInWeek(undefined, once, 2)).toBeUndefined();
    expect(byBeginning([1, 2, 3, 4], pickled)).toEqual([3, 4, 0, 0]);
    expect(byBeginning([1, 2], once)).toEqual([1, 2]);
  });
});

describe('a session that is printed', () => {
  const session = (parts: object) => ({ recipe: 'boil', jars: [], ...parts }) as unknown as PlannedSession;
  const inPints = recipe('boil', 'jam', { jarKind: pint });
  const begun = { ...inPints, begun: { id: 'one' } } as unknown as RecipeInSets;

  it('is of the recipe in its own jar', () => {
    const ofPints = session({ jars: [{ kind: pint, count: 6 }] });
    expect(isSessionOf(inPints, ofPints)).toBe(true);
    expect(isSessionOf(recipe('boil', 'jam', { jarKind: wideQuart }), ofPints)).toBe(false);
    expect(isSessionOf(once, ofPints)).toBe(false);
    expect(isSessionOf(once, session({}))).toBe(true);
    expect(isSessionOf(recipe('dry', 'jam'), session({}))).toBe(false);
  });

  it('is of the batches that it says were begun', () => {
    const ofBegun = session({ jars: [{ kind: pint, count: 6 }], begun: { id: 'one' } });
    expect(isSessionOf(begun, ofBegun)).toBe(true);
    expect(isSessionOf(inPints, ofBegun)).toBe(false);
    expect(isSessionOf({ ...begun, begun: { id: 'two' } } as unknown as RecipeInSets, ofBegun)).toBe(false);
  });
});

describe('the time of one batch', () => {
  const canned = recipe('can', 'jam', { yieldHighJars: 9, processing: processing() });
  const pickledAndCanned = { ...canned, stages: staged(2, [10, 20, 30]) };

  it('is hands-on work and what its loads ask for at the stove', () => {
    expect(loadsPerBatch(canned)).toBe(2);
    expect(minutesAtStove(canned)).toBe(80);
    expect(minutesInCanner(canned)).toBe(100);
    expect(loadsPerBatch(once)).toBe(0);
    expect(minutesAtStove(once)).toBe(60);
    expect(minutesInCanner(once)).toBe(0);
  });

  it('has no load for one jar alone', () => {
    const eight = { ...canned, yieldHighJars: 8 };
    expect([loadsPerBatch(eight), jarsAsidePerBatch(eight)]).toEqual([1, 1]);
    expect([loadsPerBatch(canned), jarsAsidePerBatch(canned)]).toEqual([2, 0]);
    expect(jarsAsidePerBatch(once)).toBe(0);
  });

  it('is spread over the weeks of its stages, the attended loads in the last', () => {
    expect([0, 1, 2, 3].map((before) => minutesInWeek(pickledAndCanned, before))).toEqual([50, 20, 10, 0]);
    expect([0, 1].map((before) => minutesInWeek(canned, before))).toEqual([80, 0]);
  });
});
