import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { addDays, weekHolding } from '../../../shared/week.ts';
import { BuyingPage } from '../../../views/pages/buying/buying-page.tsx';
import { kitchenHoursOf } from '../../queries/household/kitchen.ts';
import { purchasesOf } from '../../queries/year/buying.ts';
import { presentMoney } from '../../words/buying/weeks-against-limit.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { type FailedLine, presentSettled } from '../shared/buying-lines.ts';
import { answerLine, failedLine, undoneLine } from '../shared/line-answers.ts';
import { sayWhetherKept } from '../shared/own-device.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { seeOther, statusOf } from '../shared/posting.ts';
import { buyingSummary, presentBuyingWeeks } from './present-buying.ts';

const buying: FastifyPluginAsync = async (app) => {
  app.get('/buying', (request, reply) => sendBuying(request, reply));

  app.post('/buying/lines', async (request, reply) => {
    const outcome = await answerLine(request);

    return outcome.ok
      ? seeOther(reply, '/buying#buying-lists')
      : sendBuying(request, reply, failedLine(request, outcome.problems));
  });

  app.post('/buying/undone', async (request, reply) => {
    const outcome = await undoneLine(request);

    return outcome.ok
      ? seeOther(reply, '/buying#buying-lists')
      : sendBuying(request, reply, failedLine(request, outcome.problems));
  });
};

export default buying;

const sendBuying = async (request: FastifyRequest, reply: FastifyReply, failed: FailedLine | null = null) => {
  const { today, reading, household } = request;
  const { db } = request.server;
  const [planned, names, hours, purchases] = await Promise.all([
    planNow(request),
    plannedNames(request),
    kitchenHoursOf(db, household.id),
    purchasesOf(db, household.id, weekHolding(addDays(today, -7), reading.weekStartsOn)),
  ]);
  const keys = () => reply.formKeys();
  const message = failed?.typed.problems[''];

  return sayWhetherKept(request, reply).page(
    BuyingPage,
    {
      frame: await reply.frame(message === undefined ? null : { tone: 'problem', text: message }),
      summary: buyingSummary(planned.plan, today, reading),
      weeks: presentBuyingWeeks(planned.plan, today, hours, { names, keys, back: '/buying', failed }),
      settled: presentSettled(purchases, names, keys),
      money: presentMoney(planned.plan, today, reading),
      plan: presentPlanStatus(planned, reply.formKeys(), '/buying'),
    },
    failed === null ? 200 : statusOf(failed.problems),
  );
};
