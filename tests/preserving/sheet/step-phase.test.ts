import { describe, expect, test } from 'vitest';
import { schedulesFor } from '../../../src/preserving/lookup/process-lookup.ts';
import { foodStepsFor } from '../../../src/preserving/sheet/food-steps.ts';
import type { SessionStep, StepKind } from '../../../src/preserving/sheet/session-step.ts';
import { sessionSteps } from '../../../src/preserving/sheet/session-steps.ts';
import { phaseOf } from '../../../src/preserving/sheet/step-phase.ts';
import { answerOf, queryForRow, tables } from '../tables.ts';

const stepsOf = (...kinds: readonly StepKind[]) =>
  kinds.map((kind, at) => ({ kind, key: `${kind}-${at}` }) as SessionStep);
const phases = (steps: readonly SessionStep[]) => steps.map((_, at) => phaseOf(steps, at));

describe('when a step of a load is done', () => {
  test('before the clock, while it runs, and once its time is up', () => {
    expect(
      phases(stepsOf('jars', 'fill', 'load', 'process', 'keep-boiling', 'restart', 'heat-off', 'wait')),
    ).toEqual(['before', 'before', 'before', 'during', 'during', 'during', 'after', 'after']);
  });

  test.each(['process', 'keep-boiling', 'keep-steaming', 'keep-pressure', 'restart'] as const)(
    '%s belongs to the clock',
    (kind) => {
      expect(phases(stepsOf('vent', kind, 'heat-off'))).toEqual(['before', 'during', 'after']);
    },
  );

  test('what stands between two steps of the clock is done while it runs, whatever it is', () => {
    expect(phases(stepsOf('load', 'process', 'label', 'restart', 'cool'))).toEqual([
      'before',
      'during',
      'during',
      'during',
      'after',
    ]);
  });

  test('a list without a clock is all done before', () => {
    expect(phases(stepsOf('jars', 'fill', 'cool'))).toEqual(['before', 'before', 'before']);
  });

  test.each(['boiling-water', 'pressure-dial'])(
    'in the checklist of a whole load in %s the three follow each other and none is missing',
    (method) => {
      const row = tables.processTimes.find((one) => one.basis === 'read' && one.method === method);
      if (row === undefined) throw new Error(`no row for ${method}`);
      const [schedule] = answerOf(schedulesFor(tables, queryForRow(row, row.altitudeFromFt + 1)));
      const steps = sessionSteps(schedule, foodStepsFor(tables, schedule));
      const seen = phases(steps);
      expect([...new Set(seen)]).toEqual(['before', 'during', 'after']);
      expect(seen).toEqual(
        ['before', 'during', 'after'].flatMap((phase) => seen.filter((one) => one === phase)),
      );
      expect(seen[steps.findIndex(({ kind }) => kind === 'load')]).toBe('before');
      expect(seen[steps.findIndex(({ kind }) => kind === 'heat-off')]).toBe('after');
    },
  );
});
