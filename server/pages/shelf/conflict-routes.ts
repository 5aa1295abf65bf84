import type { FastifyPluginAsync } from 'fastify';
import { z } from 'zod';
import { choiceField, readForm } from '../../../shared/schemas/form-fields.ts';
import { conflictSettlements, settleConflict } from '../../records/shelf/settle-conflict.ts';
import { answerForm, plainAnswer } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';

const settlementForm = z.object({ settledAs: choiceField('reason', conflictSettlements) });

const conflicts: FastifyPluginAsync = async (app) => {
  app.post<{ Params: { conflict: string } }>(
    '/shelf/conflicts/:conflict/settlement',
    async (request, reply) => {
      const asked = readForm(settlementForm, request.body);
      const outcome = asked.ok
        ? await settleConflict(recordingOf(request), request.params.conflict, asked.value.settledAs)
        : asked;
      return answerForm(request, reply, outcome, {
        done: '/shelf#conflicts',
        again: (sentBack) =>
          plainAnswer(reply, sentBack, {
            title: 'Nothing was settled',
            action: { words: 'Back to the shelf', href: '/shelf' },
          }),
      });
    },
  );
};

export default conflicts;
