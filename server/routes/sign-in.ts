import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../shared/problems.ts';
import { newPersonForm, signInForm } from '../../shared/schemas/account.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import { SignInPage, type SignInPageProps } from '../../views/pages/people/sign-in-page.tsx';
import { PlainPage } from '../../views/pages/plain-page.tsx';
import { acceptInvitation, closeHousehold, invitationOf } from '../access/members.ts';
import { beginSignIn, checkSignIn, endSignIn, endSignInsOf, signInLimits } from '../access/sign-ins.ts';
import { chooseHousehold, signInCookie } from '../plugins/app/household.ts';
import { fieldProblems } from '../presenters/field-problems.ts';
import { plainAnswers } from '../presenters/plain-answers.ts';
import { seeOther, sentText } from './posting.ts';

type Words = Pick<SignInPageProps, 'title' | 'line' | 'action' | 'button' | 'isNew'>;

const signInWords: Words = {
  title: 'Sign in',
  line: 'This household belongs to its members.',
  action: '/sign-in',
  button: 'Sign in',
  isNew: false,
};

const ownerWords: Words = {
  title: 'Set a passphrase',
  line: 'You become the owner: from then on nobody sees this household without signing in, and you can invite others.',
  action: '/people/owner',
  button: 'Close the household to others',
  isNew: true,
};

/** The same words whether the name is known or not. */
const notKnown: Problem = {
  code: 'sign-in-unknown',
  path: ['passphrase'],
  message:
    'Expected a name and its passphrase; these do not belong together. Try again, or ask an owner for a new link.',
};
const wait: Problem = {
  code: 'sign-in-wait',
  path: [],
  message: 'Too many tries with this name or from this address. Wait a quarter of an hour, then try again.',
};

const signIn: FastifyPluginAsync = async (app) => {
  app.get('/sign-in', (request, reply) => send(request, reply, signInWords));

  app.post('/sign-in', async (request, reply) => {
    const asked = readForm(signInForm, request.body);
    if (!asked.ok) return send(request, reply, signInWords, asked.problems, 422);
    const checked = await checkSignIn(app.db, { ...asked.value, address: request.ip }, app.now());
    if (checked.answer !== 'known') {
      const waits = checked.answer === 'wait';
      return send(request, reply, signInWords, [waits ? wait : notKnown], waits ? 429 : 422);
    }
    await letIn(request, reply, checked.personId);
    return seeOther(reply, '/');
  });

  app.post('/sign-out', async (request, reply) => {
    const token = request.cookies[signInCookie];
    if (request.person !== null && sentText(request, 'where') === 'everywhere')
      await endSignInsOf(app.db, request.person.id);
    if (token !== undefined) await endSignIn(app.db, token);
    return seeOther(
      reply.clearCookie(signInCookie, { path: '/' }).header('clear-site-data', '"cache", "storage"'),
      '/sign-in',
    );
  });

  app.get('/people/owner', (request, reply) => send(request, reply, ownerWords));

  app.post('/people/owner', async (request, reply) => {
    const asked = readForm(newPersonForm, request.body);
    if (request.household.isDemo) return reply.callNotFound();
    const closed = asked.ok
      ? await closeHousehold(app.db, request.household.id, asked.value, app.now())
      : asked;
    if (!closed.ok) return send(request, reply, ownerWords, closed.problems, 422);
    await letIn(request, reply, closed.value.personId);
    return seeOther(reply, '/people');
  });

  app.get<{ Params: { token: string } }>('/invitations/:token', async (request, reply) => {
    const words = await invitationWords(request, request.params.token);
    return words === null ? noInvitation(reply) : send(request, reply, words);
  });

  app.post<{ Params: { token: string } }>('/invitations/:token', async (request, reply) => {
    const { token } = request.params;
    const words = await invitationWords(request, token);
    if (words === null) return noInvitation(reply);
    const asks = sentText(request, 'as') === 'signed-in' && request.person !== null;
    const asked = readForm(newPersonForm, request.body);
    if (!asks && !asked.ok) return send(request, reply, words, asked.problems, 422);
    const who = asks && request.person ? { personId: request.person.id } : asked.ok ? asked.value : null;
    if (who === null) return noInvitation(reply);
    const accepted = await acceptInvitation(app.db, token, who, app.now());
    if (!accepted.ok) return send(request, reply, words, accepted.problems, 422);
    await letIn(request, reply, accepted.value.personId);
    return seeOther(chooseHousehold(reply, accepted.value.householdId), '/');
  });
};

export default signIn;

async function letIn(request: FastifyRequest, reply: FastifyReply, personId: string): Promise<void> {
  const { db, now, beyondLoopback } = request.server;
  const token = await beginSignIn(db, personId, now(), request.cookies[signInCookie]);
  reply.setCookie(signInCookie, token, {
    path: '/',
    httpOnly: true,
    sameSite: 'lax',
    secure: beyondLoopback,
    maxAge: signInLimits.wholeMs / 1000,
  });
}

async function invitationWords(request: FastifyRequest, token: string): Promise<Words | null> {
  const invitation = await invitationOf(request.server.db, token, request.server.now());
  if (invitation === null) return null;
  return {
    title: `Join ${invitation.householdName}`,
    line: `Choose the name and passphrase you will sign in with, as ${invitation.role}.`,
    action: `/invitations/${token}`,
    button: 'Join',
    isNew: true,
  };
}

const noInvitation = async (reply: FastifyReply): Promise<FastifyReply> =>
  reply.page(
    PlainPage,
    {
      frame: await reply.frame(),
      title: plainAnswers.notFound.title,
      text: 'This link was used, has expired or never was. Ask an owner of the household for a new one.',
      action: null,
    },
    404,
  );

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  words: Words,
  problems: readonly Problem[] = [],
  status = 200,
): Promise<FastifyReply> {
  const keys = reply.formKeys();
  return reply.page(
    SignInPage,
    {
      frame: await reply.frame(),
      ...words,
      keys,
      name: sentText(request, 'name'),
      problems: fieldProblems(problems, ['name', 'passphrase']),
      joinAs:
        words.action.startsWith('/invitations/') && request.person !== null
          ? { name: request.person.name, keys }
          : null,
      demoKeys: words === signInWords && !request.server.beyondLoopback ? keys : null,
    },
    status,
  );
}
