import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { upkeepDoneForm, upkeepTaskForm } from '../../../shared/schemas/upkeep.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { UpkeepPage, type UpkeepPageProps } from '../../../views/pages/upkeep/upkeep-page.tsx';
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
import { answerForm, fieldsFrom, type SentBack } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { upkeepNow } from '../shared/upkeep-words.ts';
import { presentUpkeep, upkeepFormId } from './present-upkeep.ts';

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
    send(request, reply, said[pageQuery.parse(request.query).said] ?? null),
  );

  app.post('/upkeep/done', async (request, reply) => {
    const asked = await readByRules(request, upkeepDoneForm, request.body, upkeepDoneRules);
    const outcome = asked.ok ? await writeUpkeep(recordingOf(request), asked.value) : asked;
    const line = `${sentText(request, 'kind')}.${sentText(request, 'of')}`;
    return answerForm(request, reply, outcome, written(request, reply, 'done', upkeepFormId(line)));
  });

  app.post('/upkeep/undone', async (request, reply) => {
    const outcome = await undoUpkeep(recordingOf(request), sentText(request, 'event'));
    return answerForm(request, reply, outcome, written(request, reply, 'undone'));
  });

  app.post('/upkeep/tasks', async (request, reply) => {
    const asked = await readByRules(request, upkeepTaskForm, request.body, upkeepTaskRules);
    const outcome = asked.ok ? await addUpkeepTask(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, written(request, reply, 'added', 'upkeep'));
  });

  app.post<{ Params: { task: string } }>('/upkeep/tasks/:task/removal', async (request, reply) => {
    const outcome = await endUpkeepTask(recordingOf(request), request.params.task);
    return answerForm(request, reply, outcome, written(request, reply, 'removed'));
  });
};

export default upkeep;

/** The page with what was done; or with what was typed, and what is wrong with it at its head or beside its fields. */
const written = (request: FastifyRequest, reply: FastifyReply, what: keyof typeof said, formId = 'undo') => ({
  formId,
  done: `/upkeep?said=${what}`,
  again: (sentBack: SentBack) => send(request, reply, null, sentBack),
});

/** What is said of a form that was sent back as a whole; all of it where the page has no such form. */
function wholeProblem(
  { adding, devices }: Pick<UpkeepPageProps, 'adding' | 'devices'>,
  sentBack: SentBack,
): string | undefined {
  const writings = devices.flatMap(({ tasks }) => tasks.map(({ writing }) => writing));
  const shown = [adding, ...writings].find((one) => one?.form.formId === sentBack.formId)?.form;
  return (shown ?? fieldsFrom(sentBack)(sentBack.formId, {})).problems[''];
}

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  sentBack: SentBack | null = null,
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
  const whole = sentBack === null ? undefined : wholeProblem(props, sentBack);
  const told: Message | null = whole === undefined ? message : { tone: 'problem', text: whole };
  return reply.page(UpkeepPage, { frame: await reply.frame(told), ...props }, sentBack?.status);
}
