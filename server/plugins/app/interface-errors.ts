import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { pageNames } from '../../../views/words/page-names.ts';
import { notJson, type ProblemAnswer, sendProblem, tooMany } from '../../interface/problem-answers.ts';
import type { PlainAnswer } from '../../words/plain-answers.ts';
import { TokenRefused } from './household.ts';

/** A failure as a connected thing is told it: what we need, what was sent, what to do. */
export async function answerThing(
  request: FastifyRequest,
  reply: FastifyReply,
  error: FastifyError,
  plain: PlainAnswer,
): Promise<FastifyReply> {
  if (error instanceof TokenRefused) return refuseToken(request, reply, error);
  if (plain.status >= 500) request.log.error({ err: error }, 'request of a connected thing failed');
  return sendProblem(reply, problemOf(error, plain));
}

async function refuseToken(
  request: FastifyRequest,
  reply: FastifyReply,
  { shown }: TokenRefused,
): Promise<FastifyReply> {
  const { thing } = request;
  const household = thing === null ? {} : { householdId: thing.householdId };
  if (shown !== 'none')
    await request.noteSecurity(shown === 'unknown' ? 'token-refused' : 'thing-not-allowed', household);
  reply.header('www-authenticate', challenges[shown]);
  return sendProblem(reply, refused[shown]);
}

/** How to be let in, as RFC 6750 writes it. */
const challenges = {
  none: 'Bearer realm="shelfward"',
  unknown: 'Bearer realm="shelfward", error="invalid_token"',
  'reads only': 'Bearer realm="shelfward", error="insufficient_scope", scope="take"',
} as const;

const refused: Readonly<Record<TokenRefused['shown'], ProblemAnswer>> = {
  none: {
    status: 401,
    code: 'token-missing',
    detail: `We need an access token, and none was sent. Send it as “Authorization: Bearer …”; an owner makes one under ${pageNames.kitchen}, ${pageNames.people}, Connected things.`,
  },
  unknown: {
    status: 401,
    code: 'token-unknown',
    detail: `We need an access token of this program; the one that was sent opens nothing, or no longer. Ask an owner to connect this thing anew, under ${pageNames.kitchen}, ${pageNames.people}, Connected things.`,
  },
  'reads only': {
    status: 403,
    code: 'scope-missing',
    detail:
      'This needs a thing that may read and take; the one whose token was sent may only read. Ask an owner to connect it so that it may take too.',
  },
};

function problemOf(error: FastifyError, plain: PlainAnswer): ProblemAnswer {
  if (error.code === 'FST_ERR_CTP_INVALID_MEDIA_TYPE') return notJson;
  if (plain.status === 413)
    return {
      status: 413,
      code: 'too-large',
      detail: 'We take at most 1 MB at once; more was sent. Send less.',
    };
  if (plain.status === 429) return tooMany;
  if (plain.status === 404)
    return {
      status: 404,
      code: 'not-found',
      detail:
        'There is nothing at this address. Look at /api/v1/openapi.json for what there is, and read the ids from the shelf.',
    };
  if (plain.status === 422)
    return {
      status: 400,
      code: 'not-understood',
      detail: 'We need a JSON object; what was sent cannot be read as one. Mend it and send it again.',
    };
  return { status: plain.status, code: error.code ?? 'fault', detail: plain.text };
}
