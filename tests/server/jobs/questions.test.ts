import { describe, expect, test } from 'vitest';
import { AskerLeft, PlannerBusy } from '../../../server/jobs/questions.ts';
import { questionsHere } from '../../../server/jobs/questions-here.ts';
import type { PlanningAnswer, PlanYear } from '../../../src/planning/make-plan.ts';
import type { Plan } from '../../../src/planning/plan.ts';

const quince = 'quince-yard';
const cancelled: PlanningAnswer = {
  outcome: 'cancelled',
  detail: '',
  fallback: { plan: {} as Plan, paths: [] },
};
const here = (planYear: PlanYear = async () => cancelled) =>
  questionsHere(() => ({
    planYear,
    solve: async () => ({ status: 'solver crashed', detail: 'no solver here' }),
  }));

test('questions to the planner are answered one after the other, the failed ones too', async () => {
  const job = here();
  const order: string[] = [];
  const ask = (name: string, fails = false) =>
    job.ask(quince, async () => {
      order.push(`${name} begins`);
      await new Promise((resolve) => setTimeout(resolve, 5));
      order.push(`${name} ends`);
      if (fails) throw new Error('no answer');
      return name;
    });

  const answers = await Promise.allSettled([ask('one', true), ask('two')]);

  expect(answers.map(({ status }) => status)).toEqual(['rejected', 'fulfilled']);
  expect(order).toEqual(['one begins', 'one ends', 'two begins', 'two ends']);
});

describe('questions', () => {
  test('beyond three that wait are refused, and taken again once there is room', async () => {
    const job = here();
    let answerFirst = () => {};
    const first = job.ask(
      quince,
      () =>
        new Promise<void>((resolve) => {
          answerFirst = resolve;
        }),
    );
    const waiting = [1, 2, 3].map(() => job.ask(quince, async () => 'answered'));

    await expect(job.ask(quince, async () => 'one too many')).rejects.toThrow(PlannerBusy);
    expect(await job.ask('another household', async () => 'its own')).toBe('its own');
    answerFirst();
    await Promise.all([first, ...waiting]);

    expect(await job.ask(quince, async () => 'again')).toBe('again');
  });

  test('end when their asker leaves: one that waits is never begun, one that runs is called off', async () => {
    const job = here((_, options) =>
      options?.signal === undefined
        ? Promise.resolve(cancelled)
        : new Promise((resolve) => options.signal?.addEventListener('abort', () => resolve(cancelled))),
    );
    const leaving = new AbortController();
    let begun = 0;
    const ask = () =>
      job.ask(
        quince,
        ({ planYear }) => {
          begun += 1;
          return planYear({} as never);
        },
        leaving.signal,
      );
    const asked = [ask(), ask(), ask()];
    while (begun === 0) await new Promise(setImmediate);

    leaving.abort();

    const answers = await Promise.allSettled(asked);
    expect(begun).toBe(1);
    for (const answer of answers)
      expect(answer).toMatchObject({ status: 'rejected', reason: expect.any(AskerLeft) });
  });
});
