import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Outcome } from '../../../shared/problems.ts';
import { decisionForm, passedForm } from '../../../shared/schemas/decision.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { whoIsThere } from '../../../src/planning/days/session-dates.ts';
import { usualSetting } from '../../../src/preserving/day/session-here.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { canningSessionOn } from '../../queries/canning/canning-sessions.ts';
import { kitchenHoursOf } from '../../queries/household/kitchen.ts';
import { decisionsOf } from '../../queries/year/plans.ts';
import { openSession } from '../../records/canning/canning-session.ts';
import { answerPassed } from '../../records/year/answer-passed.ts';
import { keepDecision } from '../../records/year/keep-decision.ts';
import { answerForm, type SentBack, whatIsWrong } from '../shared/answer-form.ts';
import { answerLine, lineSent, undoneLine } from '../shared/line-answers.ts';
import { recordingOf, seeOther } from '../shared/posting.ts';
import { passedDays, sendWeek } from './send-week.ts';

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const started: Message = {
  tone: 'done',
  text: `Your household is set up, and its first year is being planned. Prices, amounts and minutes are our guesses until you put yours in. Whoever sits at this machine sees it, until you set a passphrase under ${pageNames.kitchen}, ${pageNames.people}.`,
  action: { words: 'See the guesses', href: '/items#guesses' },
};

const thisWeek: FastifyPluginAsync = async (app) => {
  app.get('/', (request, reply) => {
    const { said } = pageQuery.parse(request.query);
    return sendWeek(request, reply, { message: said === 'started' ? started : null });
  });

  // What was done is written down on the page of its own day, which is opened for it.
  app.post<{ Params: { day: string; recipe: string } }>(
    '/plan/passed/:day/:recipe/results',
    async (request, reply) => {
      const { day, recipe } = request.params;
      const { db } = app;
      const [kept, hours] = await Promise.all([
        decisionsOf(db, request.household.id),
        kitchenHoursOf(db, request.household.id),
      ]);
      const passed = (await passedDays(request, { kept, hours })).filter(({ on }) => on === day);
      const asked = passed.find(({ recipeId }) => recipeId === recipe);
      if (asked === undefined) return seeOther(reply, '/#kitchen-days');
      if ((await canningSessionOn(db, request.household.id, asked.on)) === null)
        await openSession(recordingOf(request), {
          on: asked.on,
          setting: usualSetting(request.household, hours, whoIsThere(hours, asked.on)),
          work: passed.map(({ recipeId, batches }) => ({ recipeId, batches })),
        });
      return seeOther(reply, `/canning-day/${asked.week}/${asked.on}/results/${asked.recipeId}`);
    },
  );

  app.post('/buying/week/lines', async (request, reply) => {
    return answerForm(request, reply, await answerLine(request), lineShown(request, reply));
  });

  app.post('/buying/week/undone', async (request, reply) => {
    return answerForm(request, reply, await undoneLine(request), lineShown(request, reply));
  });

  app.post('/plan/passed', async (request, reply) => {
    const asked = readForm(passedForm, request.body);
    const outcome = asked.ok ? await answerPassed(recordingOf(request), asked.value) : asked;

    return sendAnswer(request, reply, outcome);
  });

  app.post('/plan/decisions', async (request, reply) => {
    const asked = readForm(decisionForm, request.body);
    const outcome = asked.ok ? await keepDecision(recordingOf(request), asked.value) : asked;

    return sendAnswer(request, reply, outcome);
  });
};

export default thisWeek;

const lineShown = (request: FastifyRequest, reply: FastifyReply) => ({
  formId: lineSent(request),
  done: '/#pick-and-buy',
  again: (failed: SentBack) => sendWeek(request, reply, { failed }),
});

/** Back to the days in the kitchen, or the page again with what was wrong. */
const sendAnswer = (request: FastifyRequest, reply: FastifyReply, outcome: Outcome<unknown>) =>
  answerForm(request, reply, outcome, {
    done: '/#kitchen-days',
    again: (sentBack) =>
      sendWeek(request, reply, { message: whatIsWrong(sentBack), status: sentBack.status }),
  });
