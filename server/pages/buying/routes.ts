import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Outcome } from '../../../shared/problems.ts';
import { boughtForm, lineForm } from '../../../shared/schemas/buying.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { addDays, weekHolding } from '../../../shared/week.ts';
import type { PurchaseLine } from '../../../src/household/purchase.ts';
import { BuyingPage } from '../../../views/pages/buying/buying-page.tsx';
import { purchasesOf } from '../../queries/year/buying.ts';
import { markBought, skipLine, undoLine } from '../../records/year/bought.ts';
import { type FailedLine, presentSettled } from '../../words/buying-lines.ts';
import { fieldProblems } from '../../words/field-problems.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { presentMoney } from '../../words/weeks-against-limit.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { sendWeek } from '../week/send-week.ts';
import { buyingSummary, presentBuyingWeeks } from './present-buying.ts';

/** Pages on which lines can be ticked; a form may come back only to one of them. */
const backTo = z.enum(['/', '/buying']).catch('/buying');
const answered = z.enum(['bought', 'skipped']).catch('bought');
const part = { '/': '/#pick-and-buy', '/buying': '/buying#buying-lists' } as const;

const buying: FastifyPluginAsync = async (app) => {
  app.get('/buying', (request, reply) => sendBuying(request, reply));

  app.post('/buying/lines', async (request, reply) => {
    const back = backTo.parse(sentText(request, 'back'));
    const outcome = await answerLine(request);
    if (outcome.ok) return seeOther(reply, part[back]);

    const failed = failedLine(request, fieldProblems(outcome.problems, ['amount', 'paid', 'boughtOn']));
    return sendBack(request, reply, back, failed, statusOf(outcome.problems));
  });

  app.post('/buying/undone', async (request, reply) => {
    const back = backTo.parse(sentText(request, 'back'));
    const outcome = await undoLine(recordingOf(request), sentText(request, 'id'));
    if (outcome.ok) return seeOther(reply, part[back]);

    const failed = failedLine(request, fieldProblems(outcome.problems, []));
    return sendBack(request, reply, back, failed, statusOf(outcome.problems));
  });
};

export default buying;

const answerLine = async (request: FastifyRequest): Promise<Outcome<unknown>> => {
  if (answered.parse(sentText(request, 'answer')) === 'skipped') {
    const line = readForm(lineForm, request.body);
    return line.ok ? skipLine(recordingOf(request), line.value) : line;
  }
  const typed = typedValues(request.body);
  const asked = readForm(boughtForm, { ...typed, paid: typed.paid ? typed.paid : null });
  return asked.ok ? markBought(recordingOf(request), asked.value) : asked;
};

const failedLine = (request: FastifyRequest, problems: FailedLine['typed']['problems']): FailedLine => {
  const pack = sentText(request, 'pack');
  return {
    line: {
      week: sentText(request, 'week') as PurchaseLine['week'],
      kind: sentText(request, 'kind') as PurchaseLine['kind'],
      what: sentText(request, 'what'),
      pack: pack === '' ? null : pack,
    },
    typed: {
      amount: sentText(request, 'amount'),
      paid: sentText(request, 'paid'),
      boughtOn: sentText(request, 'boughtOn'),
      rest: sentText(request, 'rest') === 'asked',
      problems,
    },
  };
};

/** The page again on which the line stood, with what is wrong beside the line, and at its head where the line is gone. */
const sendBack = (
  request: FastifyRequest,
  reply: FastifyReply,
  back: '/' | '/buying',
  failed: FailedLine,
  status: number,
) =>
  back === '/'
    ? sendWeek(request, reply, { failed, status })
    : sendBuying(request, reply, { failed, status });

const sendBuying = async (
  request: FastifyRequest,
  reply: FastifyReply,
  { failed = null, status = 200 }: { readonly failed?: FailedLine | null; readonly status?: number } = {},
) => {
  const { today, reading, household } = request;
  const { db } = request.server;
  const [planned, names, purchases] = await Promise.all([
    planNow(request),
    plannedNames(request),
    purchasesOf(db, household.id, weekHolding(addDays(today, -7), reading.weekStartsOn)),
  ]);
  const keys = () => reply.formKeys();
  const message = failed?.typed.problems[''];

  return reply.page(
    BuyingPage,
    {
      frame: await reply.frame(message === undefined ? null : { tone: 'problem', text: message }),
      summary: buyingSummary(planned.plan, today, reading),
      weeks: presentBuyingWeeks(planned.plan, today, { names, keys, back: '/buying', failed }),
      settled: presentSettled(purchases, names, keys),
      money: presentMoney(planned.plan, today, reading),
      plan: presentPlanStatus(planned, reply.formKeys(), '/buying'),
    },
    status,
  );
};
