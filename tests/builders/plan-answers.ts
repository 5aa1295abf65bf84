import { asCents } from '../../shared/money.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { PlanningAnswer } from '../../src/planning/make-plan.ts';
import type { Plan } from '../../src/planning/plan.ts';
import { today } from './quince-yard.ts';

/** A plan of nothing that is told from others by what it costs. */
export const planCosting = (cents: number, asOf: CalendarDate = today): Plan => ({
  asOf,
  horizonWeeks: 52,
  objective: { total: cents },
  bound: cents,
  gap: 0,
  solveSeconds: 0,
  packRounding: { cost: asCents(0), gap: 0 },
  rungs: [],
  weeks: [],
  items: [],
  gaveWay: [],
});

/** The planner's answer with such a plan. */
export const planned = (cents: number): PlanningAnswer => ({
  outcome: 'planned',
  plan: planCosting(cents),
  paths: [],
  stoppedBy: 'gap',
  size: { rows: 0, columns: 0, integers: 0 },
  canningSeconds: 0,
});
