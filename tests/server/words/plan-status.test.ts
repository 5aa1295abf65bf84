import { describe, expect, test } from 'vitest';
import { presentPlanStatus, provenWords } from '../../../server/words/plan-status.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { usReading } from '../../../views/words/reading.ts';
import { plumJam, plumYear } from '../../planning/plum-year.ts';

const year = plumYear({ items: [plumJam, { ...plumJam, id: 'relish' as ItemId, name: 'Relish' }] });
const plan: StoredPlan = {
  id: 'one',
  asOf: year.asOf,
  madeAt: Date.UTC(2026, 10, 30, 18),
  year,
  isOutOfDate: false,
  outcome: 'planned',
  stoppedBy: 'gap',
  paths: [],
  plan: {
    asOf: year.asOf,
    horizonWeeks: 52,
    objective: { total: 1000 },
    bound: 990,
    gap: 0.01,
    solveSeconds: 1,
    packRounding: { cost: asCents(0), gap: 0 },
    rungs: [],
    weeks: [],
    items: [],
    gaveWay: [],
  },
};

const shown = (kept: StoredPlan | null, job: Parameters<typeof presentPlanStatus>[0]['job']) =>
  presentPlanStatus(
    { plan: kept, job, now: plan.madeAt, timeZone: 'UTC', reading: usReading },
    { csrf: 'c', key: 'k' },
    '/year',
  );
const chance = (item: ItemId, lasts: number) => ({
  item,
  lasts,
  standardError: 0.01,
  aim: 0.9,
  isAllMade: false,
});

describe('how the plan stands', () => {
  test('says while a kept plan is checked that it is there', () => {
    expect(shown(plan, { state: 'checking' }).standing).toEqual({ state: 'checking' });
    expect(shown(plan, { state: 'checking' }).quality?.reached).toBeNull();
  });

  test('says that packs are rounded up where none were found in time', () => {
    const roundedUp = {
      ...plan.plan,
      packRounding: { cost: asCents(120), gap: 0.02, isRoundedUp: true as const },
    };

    const sentence = (kept: StoredPlan) => shown(kept, { state: 'idle' }).quality?.sentence ?? '';

    expect(sentence({ ...plan, plan: roundedUp })).toContain('packs are rounded up');
    expect(sentence(plan)).not.toContain('rounded up');
  });

  test.each([
    [-120, null],
    [0, null],
    [49, null],
    [50, '$1'],
    [2000, '$20'],
  ])('says what whole packs cost beyond it where %s cents are something', (cost, told) => {
    const packRounding = { cost: asCents(cost), gap: 0 };
    const { figures } =
      shown({ ...plan, plan: { ...plan.plan, packRounding } }, { state: 'idle' }).quality ?? {};

    expect(figures?.find(({ words }) => words === 'Extra for buying whole packs')?.value ?? null).toBe(told);
  });

  test('says what was reached, and what stays short by more than the sampling error', () => {
    const reached = { years: 1000, items: [chance(plumJam.id, 0.885), chance('relish' as ItemId, 0.61)] };

    const words = shown({ ...plan, reached }, { state: 'idle' }).quality?.reached ?? '';

    expect(words).toContain('Tested on 1,000 possible years: 1 of the 2 things');
    expect(words).toContain('Relish 61% instead of 90%');
    expect(words).not.toContain('Plum jam');
    expect(words).not.toContain('every batch its crop allows');
  });

  test('says where nothing more could be put up anyway', () => {
    const reached = { years: 1000, items: [{ ...chance('relish' as ItemId, 0.61), isAllMade: true }] };

    expect(shown({ ...plan, reached }, { state: 'idle' }).quality?.reached).toContain(
      'Relish 61% instead of 90% (every batch its crop allows is planned)',
    );
  });

  test('says where one more batch would mostly be left over', () => {
    const reached = { years: 1000, items: [chance(plumJam.id, 0.61)] };
    const lacking = (amount: number): string => {
      const items = plan.year.items.map((item) => ({ ...item, reserveNotWorthABatch: 2 }));
      const gaveWay = [{ rung: 'reserve' as const, what: plumJam.id, amount, unit: 'units' }];
      const kept = { ...plan, reached, year: { ...plan.year, items }, plan: { ...plan.plan, gaveWay } };
      return shown(kept, { state: 'idle' }).quality?.reached ?? '';
    };

    expect(lacking(2)).toContain('Plum jam 61% instead of 90% (one more batch would mostly be left over)');
    expect(lacking(2.5)).toContain('Plum jam 61% instead of 90%.');
  });

  test('names nothing short where every chance is reached', () => {
    const reached = { years: 1000, items: [chance(plumJam.id, 0.93)] };

    expect(shown({ ...plan, reached }, { state: 'idle' }).quality?.reached).not.toContain('Short of that');
  });
});

describe('how near a plan is to the best there is', () => {
  test.each([
    [0, 'No plan can be noticeably better than this one'],
    [0.000_04, 'No plan can be noticeably better than this one'],
    [0.001_2, 'No plan can be more than 0.12% better than this one'],
    [0.042, 'No plan can be more than 4.2% better than this one'],
    [0.1, 'there was no time to find out'],
    [0.996_1, 'there was no time to find out'],
    [1, 'there was no time to find out'],
  ])('of which %s could still be gained', (gap, told) => {
    expect(provenWords(gap, usReading)).toContain(told);
  });

  test('is never said as a share that shows nothing', () => {
    for (let percent = 0; percent <= 100; percent += 1)
      expect(provenWords(percent / 100, usReading)).not.toMatch(/more than [1-9]\d(?:\.\d+)?%/);
  });
});
