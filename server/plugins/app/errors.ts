import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import { type PlainAnswer, plainAnswers } from '../../presenters/plain-answers.ts';

/** Every failure becomes a page that says what happened and what to do; nothing of the inside is shown. */
export default fp(
  async (app) => {
    const answer = async (reply: FastifyReply, plain: PlainAnswer) =>
      reply.page(PlainPage, { frame: await reply.frame(), ...plain }, plain.status);

    app.setNotFoundHandler((_request, reply) => answer(reply, plainAnswers.notFound));
    app.setErrorHandler(async (error: FastifyError, request: FastifyRequest, reply) => {
      const plain = answerFor(error);
      if (plain.status >= 500) request.log.error({ err: error }, 'request failed');
      return answer(reply, plain);
    });
  },
  { name: 'errors', dependencies: ['pages'] },
);

const answerFor = (error: FastifyError): PlainAnswer => {
  if (error instanceof ShelfwardError) {
    if (error.code === 'no-household') return plainAnswers.noHousehold;
    if (error.code === 'not-found') return plainAnswers.notFound;
    if (error.code === 'idempotency-conflict') return plainAnswers.sentTwice;
  }
  if (error.code?.startsWith('FST_CSRF')) return plainAnswers.formExpired;
  switch (error.statusCode) {
    case 400:
    case 415:
    case 422:
      return plainAnswers.notUnderstood;
    case 413:
      return plainAnswers.tooLarge;
    case 429:
      return plainAnswers.tooMany;
    default:
      return plainAnswers.ourFault;
  }
};
