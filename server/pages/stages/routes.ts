import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome } from '../../../shared/problems.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { firstStageForm, nextStageForm, wayForm } from '../../../shared/schemas/stage.ts';
import { stagesHere } from '../../../src/preserving/stages/stages-here.ts';
import { StagesPage } from '../../../views/pages/stages/stages-page.tsx';
import { StagesPaperPage } from '../../../views/pages/stages/stages-paper-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import {
  beginBatches,
  beginStage,
  chooseWay,
  takeStageBack,
  throwBatchAway,
} from '../../records/canning/stages.ts';
import { presentStages } from '../../words/stages.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import { answerForm, whatIsWrong } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { presentPaperBatch } from './present-paper.ts';

type OfBatch = { Params: { batch: string } };

const stages: FastifyPluginAsync = async (app) => {
  app.get('/stages', (request, reply) => sendStages(request, reply, null, 200));

  app.post('/stages', async (request, reply) => {
    const asked = readForm(firstStageForm, request.body);
    const outcome = asked.ok ? await beginBatches(recordingOf(request), app.reference, asked.value) : asked;
    return answer(request, reply, outcome);
  });

  app.post('/stages/ways', async (request, reply) => {
    const asked = readForm(wayForm, request.body);
    const outcome = asked.ok ? await chooseWay(recordingOf(request), app.reference, asked.value) : asked;
    return answer(request, reply, outcome);
  });

  app.get('/stages/paper', (request, reply) => sendPaper(request, reply));

  app.post<OfBatch>('/stages/:batch', async (request, reply) => {
    const asked = readForm(nextStageForm, request.body);
    const outcome = asked.ok
      ? await beginStage(recordingOf(request), app.reference, {
          ...asked.value,
          batchId: request.params.batch,
        })
      : asked;
    return answer(request, reply, outcome);
  });

  app.post<OfBatch>('/stages/:batch/take-back', async (request, reply) =>
    answer(request, reply, await takeStageBack(recordingOf(request), request.params.batch)),
  );

  app.post<OfBatch>('/stages/:batch/thrown-away', async (request, reply) =>
    answer(request, reply, await throwBatchAway(recordingOf(request), request.params.batch)),
  );
};

export default stages;

/** Back to the page it came from, or the page of all stages with what stands in the way. */
const answer = (request: FastifyRequest, reply: FastifyReply, outcome: Outcome<unknown>) =>
  answerForm(request, reply, outcome, {
    done: `${pageOf(sentText(request, 'from'))}#stages`,
    again: (sentBack) => sendStages(request, reply, whatIsWrong(sentBack).text, sentBack.status),
  });

const pages = /^\/(canning-day(\/\d{4}-W\d{2})?(\?day=\d{4}-\d{2}-\d{2})?|year|harvest)?$/;
const pageOf = (from: string): string => (pages.test(from) ? from : '/stages');

async function sendStages(
  request: FastifyRequest,
  reply: FastifyReply,
  problem: string | null,
  status: number,
): Promise<FastifyReply> {
  const { reference, now } = request.server;
  const { household, reading } = request;
  const { loaded, batches } = await yearOfRequest(request);
  const { recipes, preparations } = loaded.facts;
  const staged = recipes.filter(
    (recipe) => recipe.process !== null && stagesHere(recipe, reference).length > 0,
  );
  return reply.page(
    StagesPage,
    {
      frame: await reply.frame(),
      stages: presentStages(
        {
          recipes,
          preparations,
          batches,
          reference,
          timeZone: household.timeZone,
          now: now(),
          reading,
          keys: () => reply.formKeys(),
        },
        staged.map(({ id }) => ({ recipeId: id, batches: null, on: null })),
        '/stages',
        problem,
      ),
    },
    status,
  );
}

/** What is done before each load, batch by batch, to be printed and ticked by hand. */
async function sendPaper(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const { reference } = request.server;
  const { household, reading, today } = request;
  const { batches } = await yearOfRequest(request);
  return reply.page(StagesPaperPage, {
    frame: await reply.frame(),
    heading: `${household.name}, from ${formatDate(today, reading)}`,
    batches: batches.flatMap((batch) => presentPaperBatch(batch, { reference, reading })),
  });
}
