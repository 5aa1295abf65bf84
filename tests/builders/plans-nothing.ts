import type { PlanningForPages } from '../../server/app-context.ts';

/** A planner that is there and never plans: what asks for a plan goes its way, and the plan stays as it is. */
export const plansNothing: PlanningForPages = {
  state: async () => ({ state: 'idle' }),
  cancel: async () => undefined,
  settled: async () => undefined,
  start: async () => undefined,
  ask: () => Promise.reject(new Error('nothing to ask')),
};
