import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { found, type Outcome, type Problem } from '../../../shared/problems.ts';
import { dateField, readForm } from '../../../shared/schemas/form-fields.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { NoticesList, NoticesPage } from '../../../views/pages/notices/notices-page.tsx';
import { answerNotice, type NoticeAnswer } from '../../records/notices/notices.ts';
import { noticesOfRequest } from '../../records/notices/notices-of-request.ts';
import { noticesSummary, presentNotices } from '../../words/notices.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { wantsPart } from '../shared/wants-part.ts';

/** A notice put off comes back after a week. */
const laterDays = 7;
const answer = z.enum(['done', 'later', 'until', 'now']);
const untilForm = z.object({ until: dateField('Remind me on') });

const asAnswer = (
  said: z.output<typeof answer>,
  body: unknown,
  today: CalendarDate,
): Outcome<NoticeAnswer> => {
  switch (said) {
    case 'done':
      return found({ state: 'done' });
    case 'later':
      return found({ state: 'snoozed', until: addDays(today, laterDays) });
    case 'until': {
      const read = readForm(untilForm, body);
      return read.ok ? found({ state: 'snoozed', until: read.value.until }) : read;
    }
    case 'now':
      return found({ state: 'open' });
  }
};

const notices: FastifyPluginAsync = async (app) => {
  app.get('/notices', (request, reply) => showAll(request, reply));

  app.post<{ Params: { id: string } }>('/notices/:id', async (request, reply) => {
    const parsed = answer.safeParse(sentText(request, 'answer'));
    if (!parsed.success) return showAll(request, reply, [unknownAnswer]);

    const said = asAnswer(parsed.data, request.body, request.today);
    const outcome = said.ok ? await answerNotice(recordingOf(request), request.params.id, said.value) : said;

    if (!outcome.ok) return showAll(request, reply, outcome.problems);
    if (!wantsPart(request)) return seeOther(reply, '/notices');
    return reply.part(NoticesList, await listFor(request, reply));
  });

  const listFor = async (request: FastifyRequest, reply: FastifyReply) =>
    presentNotices(await noticesOfRequest(request), request.today, request.reading, () => reply.formKeys());

  const showAll = async (request: FastifyRequest, reply: FastifyReply, problems: readonly Problem[] = []) => {
    const [first] = problems;
    const message: Message | null = first === undefined ? null : { tone: 'problem', text: first.message };
    const list = await listFor(request, reply);
    return reply.page(
      NoticesPage,
      { frame: await reply.frame(message), summary: noticesSummary(list), ...list },
      first === undefined ? 200 : statusOf(problems),
    );
  };
};

export default notices;

const unknownAnswer: Problem = {
  code: 'answer-unknown',
  path: ['answer'],
  message: 'Press one of the buttons under a notice.',
};
