import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { choiceField, readForm } from '../../../shared/schemas/form-fields.ts';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import { conflictSettlements, settleConflict } from '../../records/shelf/settle-conflict.ts';
import { recordingOf, seeOther, statusOf } from '../shared/posting.ts';

const settlementForm = z.object({ settledAs: choiceField('reason', conflictSettlements) });

const conflicts: FastifyPluginAsync = async (app) => {
  app.post<{ Params: { conflict: string } }>(
    '/shelf/conflicts/:conflict/settlement',
    async (request, reply) => {
      const asked = readForm(settlementForm, request.body);
      const outcome = asked.ok
        ? await settleConflict(recordingOf(request), request.params.conflict, asked.value.settledAs)
        : asked;
      if (outcome.ok) return seeOther(reply, '/shelf#conflicts');

      return reply.page(
        PlainPage,
        {
          frame: await reply.frame(),
          title: 'Nothing was settled',
          text: outcome.problems.map((problem) => problem.message).join(' '),
          action: { words: 'Back to the shelf', href: '/shelf' },
        },
        statusOf(outcome.problems),
      );
    },
  );
};

export default conflicts;
