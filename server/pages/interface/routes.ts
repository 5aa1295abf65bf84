import { createHash } from 'node:crypto';
import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { interfaceAddress } from '../../access/connected-things.ts';
import { interfaceDescription } from '../../interface/description.ts';
import { type Operation, operations } from '../../interface/operations.ts';
import { notJson, sendProblem, tooMany } from '../../interface/problem-answers.ts';
import { answerEatFirst, answerItem, answerNotices, answerShelf, answerWeek } from './answers.ts';
import { sendWritten, takeHere, undoHere } from './takes.ts';

/** What one thing may ask in a minute: a display that looks every second, and as much again. */
export const requestsOfThingPerMinute = 120;

/** For other things the household has; whoever asks was let in by an access token before any of this runs. */
const ofThings: FastifyPluginAsync = async (app) => {
  const description = JSON.stringify(interfaceDescription());
  app.get(`${interfaceAddress}/openapi.json`, (request, reply) => sendText(request, reply, description));

  const asked = app.createRateLimit({
    max: requestsOfThingPerMinute,
    timeWindow: '1 minute',
    keyGenerator: ({ thing }) => `thing ${thing?.id ?? ''}`,
  });
  /** Ahead of everything that is read from the body or the file. */
  const heldBack = async (request: FastifyRequest, reply: FastifyReply) => {
    const limit = await asked(request);
    if (!limit.isAllowed && limit.isExceeded) {
      await request.noteSecurity('asked-too-often', { householdId: request.household.id });
      return sendProblem(reply.header('retry-after', String(limit.ttlInSeconds)), tooMany);
    }
    const sent = request.headers['content-type'];
    if (sent !== undefined && !/^application\/json *(?:;|$)/i.test(sent)) return sendProblem(reply, notJson);
  };
  const serve = (
    operation: Operation,
    handler: (request: FastifyRequest<{ Params: Record<string, string> }>, reply: FastifyReply) => unknown,
  ) =>
    app.route<{ Params: Record<string, string> }>({
      method: operation.method,
      url: `${interfaceAddress}${operation.path.replace(/\{(\w+)\}/, ':$1')}`,
      onRequest: heldBack,
      handler,
    });
  const read = (operation: Operation, answer: (request: FastifyRequest, named: string) => Promise<unknown>) =>
    serve(operation, async (request, reply) => {
      const named = request.params[operation.parameter?.name ?? ''] ?? '';
      return send(request, reply, operation, await answer(request, named));
    });

  read(operations.shelf, answerShelf);
  read(operations.item, answerItem);
  read(operations.eatFirst, answerEatFirst);
  read(operations.week, answerWeek);
  read(operations.notices, answerNotices);
  serve(operations.take, async (request, reply) =>
    sendWritten(reply, await takeHere(request), (answer) => send(request, reply, operations.take, answer)),
  );
  serve(operations.undo, async (request, reply) =>
    sendWritten(
      reply,
      await undoHere(request, request.params[operations.undo.parameter.name] ?? ''),
      (answer) => send(request, reply, operations.undo, answer),
    ),
  );
};

export default ofThings;

/** Cut to its shape: what is in no schema leaves by no door. */
const send = (request: FastifyRequest, reply: FastifyReply, { answer, status }: Operation, value: unknown) =>
  sendText(request, reply.code(status), JSON.stringify(answer.parse(value)));

/** With a mark of its content; who has it already is told so. */
function sendText(request: FastifyRequest, reply: FastifyReply, text: string): FastifyReply {
  // Weak: the same answer may travel compressed.
  const etag = `W/"${createHash('sha256').update(text).digest('base64url')}"`;
  if (request.method === 'POST') reply.header('cache-control', 'no-store');
  else {
    reply.header('cache-control', 'private, no-cache').header('etag', etag).header('vary', 'authorization');
    const known = (request.headers['if-none-match'] ?? '').split(',').map((one) => one.trim());
    if (known.includes(etag) || known.includes('*')) return reply.code(304).send();
  }
  return reply.type('application/json; charset=utf-8').send(text);
}
