import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../../shared/problems.ts';
import { linkForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { LinkPage as PageOfLink } from '../../../views/pages/people/link-page.tsx';
import { type LinkPage, linkTo } from '../../access/links.ts';
import { statesFrom } from './answer-form.ts';
import { seeOther } from './posting.ts';

// The pages links lead to whose secret stands behind `#`, so that it is in no log, no referrer and no proxy on the way. A small
// script posts it and takes it out of the history; without script it is pasted.

export interface LinkPlace {
  /** Where the link leads, `/invitations`. */
  readonly page: LinkPage;
  readonly title: string;
  readonly line: string;
  /** What the secret opens, asked by POST. */
  readonly opened: (request: FastifyRequest, reply: FastifyReply, secret: string) => Promise<FastifyReply>;
  /** What is said of a link that opens nothing. */
  readonly nothing: (reply: FastifyReply) => Promise<FastifyReply>;
}

/** The page a link leads to, and what its secret opens. Links of before, with the secret in their path, lead there too. */
export function addLinkPlace(app: FastifyInstance, { page, title, line, opened, nothing }: LinkPlace): void {
  const send = async (reply: FastifyReply, problems: readonly Problem[] = []) =>
    reply.page(
      PageOfLink,
      {
        frame: await reply.frame(),
        title,
        line,
        action: page,
        form: statesFrom(() => reply.formKeys(), { formId: 'link', typed: {}, problems, status: 422 })(
          'link',
          {
            link: '',
          },
        ),
      },
      problems.length === 0 ? 200 : 422,
    );
  app.get(page, (_request, reply) => send(reply));
  app.post(page, async (request, reply) => {
    const asked = readForm(linkForm, request.body);
    return asked.ok ? opened(request, reply, asked.value.link) : send(reply, asked.problems);
  });
  app.get<{ Params: { secret: string } }>(`${page}/:secret`, async (request, reply) =>
    /^[\w-]{43}$/.test(request.params.secret)
      ? seeOther(reply, linkTo('', page, request.params.secret))
      : nothing(reply),
  );
}

/** The secret that a page behind a link sends along. */
export const sentLink = (request: FastifyRequest): string => {
  const asked = readForm(linkForm, request.body);
  return asked.ok ? asked.value.link : '';
};
