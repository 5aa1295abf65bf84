import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome } from '../../shared/problems.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import { firstStageForm, nextStageForm } from '../../shared/schemas/stage.ts';
import { StagesPage } from '../../views/pages/stages/stages-page.tsx';
import { presentStages } from '../presenters/stages.ts';
import { recipes } from '../queries/recipes.ts';
import { beginBatches, beginStage, takeStageBack, throwBatchAway } from '../records/stages.ts';
import { preparations } from '../year/preparations.ts';
import { stagesHere } from '../year/recipe-stages.ts';
import { recordingOf, seeOther, sentText, statusOf } from './posting.ts';

type OfBatch = { Params: { batch: string } };

const stages: FastifyPluginAsync = async (app) => {
  app.get('/stages', (request, reply) => sendStages(request, reply, null, 200));

  app.post('/stages', async (request, reply) => {
    const asked = readForm(firstStageForm, request.body);
    const outcome = asked.ok ? await beginBatches(recordingOf(request), app.reference, asked.value) : asked;
    return answer(request, reply, outcome);
  });

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
  outcome.ok
    ? seeOther(reply, `${pageOf(sentText(request, 'from'))}#stages`)
    : sendStages(
        request,
        reply,
        outcome.problems.map(({ message }) => message).join(' '),
        statusOf(outcome.problems),
      );

const pages = /^\/(canning-day(\/\d{4}-W\d{2})?(\?day=\d{4}-\d{2}-\d{2})?)?$/;
const pageOf = (from: string): string => (pages.test(from) ? from : '/stages');

async function sendStages(
  request: FastifyRequest,
  reply: FastifyReply,
  problem: string | null,
  status: number,
): Promise<FastifyReply> {
  const { db, reference, now } = request.server;
  const { household, reading } = request;
  const [own, known] = await Promise.all([recipes(db, household.id), preparations(db, household.id)]);
  const staged = own.filter((recipe) => recipe.process !== null && stagesHere(recipe, reference).length > 0);
  return reply.page(
    StagesPage,
    {
      frame: await reply.frame(),
      stages: presentStages(
        {
          recipes: own,
          preparations: known,
          reference,
          timeZone: household.timeZone,
          now: now(),
          reading,
          keys: () => reply.formKeys(),
        },
        staged.map(({ id }) => ({ recipeId: id, batches: null, fillAt: null })),
        '/stages',
        problem,
      ),
    },
    status,
  );
}
