import type { FastifyRequest } from 'fastify';
import { standingPlanOf } from '../../queries/year/plans.ts';
import type { PlanNow } from '../../words/plan-status.ts';

/** The newest plan and what the planner is doing about a newer one. */
export async function planNow(request: FastifyRequest): Promise<PlanNow> {
  const { db, planJob, now } = request.server;
  const { id, timeZone } = request.household;
  return {
    plan: await standingPlanOf(db, id),
    job: (await planJob?.state(id)) ?? { state: 'idle' },
    now: now(),
    timeZone,
    reading: request.reading,
  };
}
