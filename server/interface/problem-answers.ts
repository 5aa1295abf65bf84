import type { FastifyReply } from 'fastify';
import type { z } from 'zod';
import type { problemShape } from './shapes.ts';

/** Why nothing was done, in the form of RFC 9457. */
export type ProblemAnswer = Omit<z.output<typeof problemShape>, 'type' | 'title'>;

/** What a status means, as the registry of HTTP calls it. */
const titles: Readonly<Record<number, string>> = {
  400: 'Bad Request',
  401: 'Unauthorized',
  403: 'Forbidden',
  404: 'Not Found',
  409: 'Conflict',
  413: 'Content Too Large',
  415: 'Unsupported Media Type',
  421: 'Misdirected Request',
  422: 'Unprocessable Content',
  429: 'Too Many Requests',
  500: 'Internal Server Error',
  503: 'Service Unavailable',
  507: 'Insufficient Storage',
};

export const sendProblem = (reply: FastifyReply, problem: ProblemAnswer): FastifyReply =>
  reply
    .code(problem.status)
    .type('application/problem+json; charset=utf-8')
    .header('cache-control', 'no-store')
    // Sent as text: it is JSON whose kind has another name, which no serializer of routes is to shape.
    .send(
      JSON.stringify({
        type: 'about:blank',
        title: titles[problem.status] ?? 'Not done',
        ...problem,
      }),
    );

export const tooMany: ProblemAnswer = {
  status: 429,
  code: 'too-many',
  detail:
    'More was asked than a household’s things ask. Wait as many seconds as Retry-After says, then ask again.',
};
export const notJson: ProblemAnswer = {
  status: 415,
  code: 'not-json',
  detail:
    'We need JSON, and what was sent is said to be something else. Send “Content-Type: application/json”.',
};
