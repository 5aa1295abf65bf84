import type { FastifyRequest } from 'fastify';
import type { PlanNow } from '../../words/plan-status.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';

/** The newest plan and what the planner is doing about a newer one. */
export async function planNow(request: FastifyRequest): Promise<PlanNow> {
  const { planJob, now } = request.server;
  const { id, timeZone } = request.household;
  return {
    plan: (await yearOfRequest(request)).plan,
    job: (await planJob?.state(id)) ?? { state: 'idle' },
    now: now(),
    timeZone,
    reading: request.reading,
  };
}
