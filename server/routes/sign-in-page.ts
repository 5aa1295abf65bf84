import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../shared/problems.ts';
import { SignInPage, type SignInPageProps } from '../../views/pages/people/sign-in-page.tsx';
import { PlainPage } from '../../views/pages/plain-page.tsx';
import { fieldProblems } from '../presenters/field-problems.ts';
import { plainAnswers } from '../presenters/plain-answers.ts';
import { sentText } from './posting.ts';

export type SignInWords = Pick<SignInPageProps, 'title' | 'line' | 'action' | 'button' | 'isNew'> & {
  /** Set where the name is known already and only a passphrase is asked for. */
  readonly knownName?: string;
};

/** The page that asks for a name and a passphrase, for whatever it is asked. */
export async function sendSignIn(
  request: FastifyRequest,
  reply: FastifyReply,
  { knownName, ...words }: SignInWords,
  problems: readonly Problem[] = [],
  status = 200,
): Promise<FastifyReply> {
  const keys = reply.formKeys();
  const joins = words.action.startsWith('/invitations/') && request.person !== null;
  return reply.page(
    SignInPage,
    {
      frame: await reply.frame(),
      ...words,
      keys,
      name: knownName ?? sentText(request, 'name'),
      nameIsKnown: knownName !== undefined,
      problems: fieldProblems(problems, ['name', 'passphrase']),
      joinAs: joins && request.person !== null ? { name: request.person.name, keys } : null,
      demoKeys: words.action === '/sign-in' && !request.server.beyondLoopback ? keys : null,
    },
    status,
  );
}

/** A link that opens nothing, for whatever reason. */
export const noSuchLink = async (reply: FastifyReply, whom: string): Promise<FastifyReply> =>
  reply.page(
    PlainPage,
    {
      frame: await reply.frame(),
      title: plainAnswers.notFound.title,
      text: `This link was used, has expired or never was. Ask ${whom} for a new one.`,
      action: null,
    },
    404,
  );
