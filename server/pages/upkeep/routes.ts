import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Problem } from '../../../shared/problems.ts';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import { upkeepDoneForm, upkeepTaskForm } from '../../../shared/schemas/upkeep.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { UpkeepPage } from '../../../views/pages/upkeep/upkeep-page.tsx';
import { may } from '../../access/roles.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import {
  addUpkeepTask,
  endUpkeepTask,
  undoUpkeep,
  upkeepDoneRules,
  upkeepTaskRules,
  writeUpkeep,
} from '../../records/household/upkeep.ts';
import { fieldProblems } from '../../words/field-problems.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { upkeepNow } from '../shared/upkeep-words.ts';
import { presentUpkeep, type UpkeepSentBack } from './present-upkeep.ts';

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const said: Readonly<Record<string, Message>> = {
  done: { tone: 'done', text: 'Written down.' },
  undone: { tone: 'done', text: 'Undone. What was written down before counts again.' },
  added: { tone: 'done', text: 'Added. Write it down when you do it.' },
  removed: { tone: 'done', text: 'Removed. What you wrote down of it stays in the household’s file.' },
};

/** What is done to canners and other devices, when, and when it is due. */
const upkeep: FastifyPluginAsync = async (app) => {
  app.get('/upkeep', (request, reply) =>
    send(request, reply, { message: said[pageQuery.parse(request.query).said] ?? null }),
  );

  app.post('/upkeep/done', async (request, reply) => {
    const asked = await readByRules(request, upkeepDoneForm, request.body, upkeepDoneRules);
    const outcome = asked.ok ? await writeUpkeep(recordingOf(request), asked.value) : asked;
    return outcome.ok
      ? seeOther(reply, '/upkeep?said=done')
      : sendBack(
          request,
          reply,
          outcome.problems,
          `${sentText(request, 'kind')}.${sentText(request, 'of')}`,
          ['doneOn', 'note'],
        );
  });

  app.post('/upkeep/undone', async (request, reply) => {
    const outcome = await undoUpkeep(recordingOf(request), sentText(request, 'event'));
    return outcome.ok
      ? seeOther(reply, '/upkeep?said=undone')
      : sendBack(request, reply, outcome.problems, '', []);
  });

  app.post('/upkeep/tasks', async (request, reply) => {
    const asked = await readByRules(request, upkeepTaskForm, request.body, upkeepTaskRules);
    const outcome = asked.ok ? await addUpkeepTask(recordingOf(request), asked.value) : asked;
    return outcome.ok
      ? seeOther(reply, '/upkeep?said=added')
      : sendBack(request, reply, outcome.problems, 'new', ['cannerId', 'device', 'name', 'everyMonths']);
  });

  app.post<{ Params: { task: string } }>('/upkeep/tasks/:task/removal', async (request, reply) => {
    const outcome = await endUpkeepTask(recordingOf(request), request.params.task);
    return outcome.ok
      ? seeOther(reply, '/upkeep?said=removed')
      : sendBack(request, reply, outcome.problems, '', []);
  });
};

export default upkeep;

const sendBack = (
  request: FastifyRequest,
  reply: FastifyReply,
  problems: readonly Problem[],
  form: string,
  fields: readonly string[],
): Promise<FastifyReply> => {
  const told = fieldProblems(problems, fields);
  const whole = told[''];
  return send(request, reply, {
    message: whole === undefined ? null : { tone: 'problem', text: whole },
    sentBack: { form, values: typedValues(request.body), problems: told },
    status: statusOf(problems),
  });
};

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  {
    message,
    sentBack = null,
    status = 200,
  }: {
    readonly message: Message | null;
    readonly sentBack?: UpkeepSentBack | null;
    readonly status?: number;
  },
): Promise<FastifyReply> {
  const { household, server } = request;
  const { db, reference } = server;
  const [lines, canners] = await Promise.all([upkeepNow(request), cannersOf(db, household.id)]);
  const props = presentUpkeep(lines, {
    today: request.today,
    reading: request.reading,
    facts: reference.cannerFacts,
    canners,
    plans: request.role !== null && may(request.role, 'plan'),
    keys: () => reply.formKeys(),
    sentBack,
  });
  return reply.page(UpkeepPage, { frame: await reply.frame(message), ...props }, status);
}
