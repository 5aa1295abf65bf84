import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../../shared/problems.ts';
import { SignInPage, type SignInPageProps } from '../../../views/pages/people/sign-in-page.tsx';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import { plainAnswers } from '../../words/plain-answers.ts';
import { sentBackOf, statesFrom } from './answer-form.ts';
import { statusOf } from './posting.ts';

export type SignInWords = Pick<SignInPageProps, 'title' | 'line' | 'action' | 'button' | 'isNew'> & {
  /** The secret of the link that led here; every form of the page sends it along. */
  readonly link?: string;
  /** What is asked for beside the passphrase. */
  readonly second?: SignInPageProps['second'];
  /** Set where the name is known already and only a passphrase is asked for. */
  readonly knownName?: string;
};

/** The page that asks for a name and a passphrase, for whatever it is asked. */
export async function sendSignIn(
  request: FastifyRequest,
  reply: FastifyReply,
  words: SignInWords,
  problems: readonly Problem[] = [],
): Promise<FastifyReply> {
  const { knownName, title, line, action, button, isNew, link, second } = words;
  const form = statesFrom(() => reply.formKeys(), sentBackOf(request, problems, { formId: 'sign-in' }))(
    'sign-in',
    { name: '', passphrase: '', code: '' },
  );
  const { keys, values } = form;
  const joins = action.startsWith('/invitations/') && request.person !== null;
  return reply.page(
    SignInPage,
    {
      frame: await reply.frame(),
      title,
      line,
      action,
      button,
      isNew,
      link: link ?? null,
      second: second ?? null,
      form: { ...form, values: { ...values, name: knownName ?? values.name } },
      nameIsKnown: knownName !== undefined,
      joinAs: joins && request.person !== null ? { name: request.person.name, keys } : null,
      demoKeys: action === '/sign-in' && !request.server.beyondLoopback ? keys : null,
    },
    problems.length === 0 ? 200 : statusOf(problems),
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
