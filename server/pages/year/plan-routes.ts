import { setTimeout } from 'node:timers/promises';
import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { PlanStatus } from '../../../views/parts/plan-status.tsx';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { planNow } from '../shared/plan-now.ts';
import { seeOther, sentText } from '../shared/posting.ts';
import { wantsPart } from '../shared/wants-part.ts';

/** Pages that show how the plan stands; a form may come back only to one of them. */
const back = z.enum(['/', '/year', '/buying', '/glut']).catch('/');
const shown = z.enum(['running', 'checking']).catch('running');
/** A planner that is still stopping by then is seen to be, by the page that asks again. */
const longestWaitMs = 2000;
const statusQuery = z.object({ back, shown });

/** The page of that path as it is shown, with what was chosen on it. */
function asShown(path: string, url: string | readonly string[] | undefined): string {
  if (typeof url !== 'string' || !URL.canParse(url)) return path;
  const { pathname, search } = new URL(url);
  return pathname === path ? `${path}${search}` : path;
}

const drawnAnew = (path: string): string =>
  JSON.stringify({
    path,
    target: '#main',
    select: '#main',
    selectOOB: '#notice-count',
    swap: 'outerMorph',
    push: 'false',
  });

const plans: FastifyPluginAsync = async (app) => {
  app.post('/plan', async (request, reply) => {
    const wanted = back.parse(sentText(request, 'back'));
    await app.planJob?.start(request.household.id);

    return wantsPart(request)
      ? reply.part(PlanStatus, presentPlanStatus(await planNow(request), reply.formKeys(), wanted))
      : seeOther(reply, wanted);
  });

  app.post('/plan/stop', async (request, reply) => {
    const wanted = back.parse(sentText(request, 'back'));
    await app.planJob?.cancel(request.household.id);
    await Promise.race([app.planJob?.settled(request.household.id), setTimeout(longestWaitMs)]);
    if (!wantsPart(request)) return seeOther(reply, wanted);

    return reply.part(PlanStatus, presentPlanStatus(await planNow(request), reply.formKeys(), wanted));
  });

  app.get('/plan/status', async (request, reply) => {
    const { back: wanted, shown: before } = statusQuery.parse(request.query);
    const props = presentPlanStatus(await planNow(request), reply.formKeys(), wanted);

    // Once a plan is made or replaced, everything on the page stems from an older one. It is drawn anew in its place and never
    // reloaded: what is being typed, and a page somebody is on the way to, are not cut off.
    if (props.standing.state !== before)
      reply.header('hx-location', drawnAnew(asShown(wanted, request.headers['hx-current-url'])));
    return reply.part(PlanStatus, props);
  });
};

export default plans;
