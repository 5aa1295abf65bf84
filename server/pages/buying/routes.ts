import type { FastifyPluginAsync } from 'fastify';
import { BuyingPage } from '../../../views/pages/buying/buying-page.tsx';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { presentMoney } from '../../words/weeks-against-limit.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { buyingSummary, presentBuyingWeeks } from './present-buying.ts';

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
