import type { FastifyPluginAsync } from 'fastify';
import { BuyingPage } from '../../views/pages/buying/buying-page.tsx';
import { buyingSummary, presentBuyingWeeks } from '../presenters/buying.ts';
import { presentPlanStatus } from '../presenters/plan-status.ts';
import { presentMoney } from '../presenters/weeks-against-limit.ts';
import { planNow } from './plan-now.ts';
import { plannedNames } from './planned-names.ts';

const buying: FastifyPluginAsync = async (app) => {
  app.get('/buying', async (request, reply) => {
    const { today, reading } = request;
    const [planned, names] = await Promise.all([planNow(request), plannedNames(request)]);

    return reply.page(BuyingPage, {
      frame: await reply.frame(),
      summary: buyingSummary(planned.plan, today, reading),
      weeks: presentBuyingWeeks(planned.plan, names, today),
      money: presentMoney(planned.plan, today, reading),
      plan: presentPlanStatus(planned, reply.formKeys(), '/buying'),
    });
  });
};

export default buying;
