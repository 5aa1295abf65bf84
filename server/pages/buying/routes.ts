import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { addDays, weekHolding } from '../../../shared/week.ts';
import { BuyingPage } from '../../../views/pages/buying/buying-page.tsx';
import { presentMoney } from '../../words/buying/weeks-against-limit.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack } from '../shared/answer-form.ts';
import { lineProblem, presentSettled } from '../shared/buying-lines.ts';
import { answerLine, lineSent, undoneLine } from '../shared/line-answers.ts';
import { sayWhetherKept } from '../shared/own-device.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { buyingSummary, presentBuyingWeeks } from './present-buying.ts';

const buying: FastifyPluginAsync = async (app) => {
  app.get('/buying', (request, reply) => sendBuying(request, reply));

  app.post('/buying/lines', async (request, reply) => {
    return answerForm(request, reply, await answerLine(request), shown(request, reply));
  });

  app.post('/buying/undone', async (request, reply) => {
    return answerForm(request, reply, await undoneLine(request), shown(request, reply));
  });
};

export default buying;

const shown = (request: FastifyRequest, reply: FastifyReply) => ({
  formId: lineSent(request),
  done: '/buying#buying-lists',
  again: (sentBack: SentBack) => sendBuying(request, reply, sentBack),
});

const sendBuying = async (request: FastifyRequest, reply: FastifyReply, failed: SentBack | null = null) => {
  const { today, reading } = request;
  const [planned, names, { hours, purchases: all }] = await Promise.all([
    planNow(request),
    plannedNames(request),
    factsOfRequest(request),
  ]);
  const lastWeek = weekHolding(addDays(today, -7), reading.weekStartsOn);
  const purchases = all.filter(({ week }) => week >= lastWeek);
  const keys = () => reply.formKeys();
  const message = lineProblem(failed);

  return sayWhetherKept(request, reply).page(
    BuyingPage,
    {
      frame: await reply.frame(message === null ? null : { tone: 'problem', text: message }),
      summary: buyingSummary(planned.plan, today, reading),
      weeks: presentBuyingWeeks(planned.plan, today, hours, { names, keys, back: '/buying', failed }),
      settled: presentSettled(purchases, names, keys),
      money: presentMoney(planned.plan, today, reading),
      plan: presentPlanStatus(planned, reply.formKeys(), '/buying'),
    },
    failed?.status,
  );
};
