import type { SessionStep, StepKind } from './session-step.ts';

/** Up to the start of the clock, while it runs, and once its time is up. */
export type StepPhase = 'before' | 'during' | 'after';

const duringKinds: ReadonlySet<StepKind> = new Set([
  'process',
  'keep-boiling',
  'keep-steaming',
  'keep-pressure',
  'restart',
]);

/** When a step of a load is done: what stands before the first of the clock's own steps is done before it starts, whatever it is. */
export const phaseOf = (steps: readonly SessionStep[], at: number): StepPhase => {
  const from = steps.findIndex(({ kind }) => duringKinds.has(kind));
  const to = steps.findLastIndex(({ kind }) => duringKinds.has(kind));
  if (from === -1 || at < from) return 'before';
  return at <= to ? 'during' : 'after';
};
