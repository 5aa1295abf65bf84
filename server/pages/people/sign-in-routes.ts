import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../../shared/problems.ts';
import { codeForm, newPersonForm, signInForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { CodePage } from '../../../views/pages/people/code-page.tsx';
import {
  beginHalfSignIn,
  endHalfSignIn,
  halfSignInLastsMs,
  halfSignInOf,
} from '../../access/half-sign-ins.ts';
import { closeHousehold } from '../../access/members.ts';
import { guessesWait } from '../../access/passphrase-change.ts';
import { hasSecondFactor, isSecondFactor } from '../../access/second-factor.ts';
import { checkSignIn, guessed, guessesAt } from '../../access/sign-in-check.ts';
import { endSignIn, endSignInsOf } from '../../access/sign-ins.ts';
import { clearCookie, readCookie, setCookie } from '../../plugins/app/own-cookies.ts';
import { statesFrom } from '../shared/answer-form.ts';
import { seeOther, sentText, statusOf } from '../shared/posting.ts';
import { letIn } from '../shared/sign-in-of-browser.ts';
import { type SignInWords, sendSignIn } from '../shared/sign-in-page.ts';

const signInWords: SignInWords = {
  title: 'Sign in',
  line: 'This household belongs to its members.',
  action: '/sign-in',
  button: 'Sign in',
  isNew: false,
};

const ownerWords: SignInWords = {
  title: 'Set a passphrase',
  line: 'You become the owner: from then on nobody sees this household without signing in, and you can invite others.',
  action: '/people/owner',
  button: 'Set passphrase',
  isNew: true,
};

/** The same words whether the name is known or not. */
const notKnown: Problem = {
  code: 'sign-in-unknown',
  path: ['passphrase'],
  message: 'That name and passphrase do not belong together. Try again, or ask an owner for a new link.',
};
const notTheCode: Problem = {
  code: 'code-wrong',
  path: ['code'],
  message:
    'That is neither the code shown now nor a recovery code that was not used. Wait for the next code and try again.',
};

const signIn: FastifyPluginAsync = async (app) => {
  app.get('/sign-in', (request, reply) => sendSignIn(request, reply, signInWords));

  app.post('/sign-in', async (request, reply) => {
    const asked = readForm(signInForm, request.body);
    if (!asked.ok) return sendSignIn(request, reply, signInWords, asked.problems);
    const checked = await checkSignIn(app.db, { ...asked.value, address: request.ip }, app.now());
    const { personId } = checked;
    if (checked.answer !== 'known') {
      const waits = checked.answer === 'wait';
      await request.noteSecurity(waits ? 'sign-in-waits' : 'sign-in-failed', { personId });
      return sendSignIn(request, reply, signInWords, [waits ? guessesWait : notKnown]);
    }
    if (await hasSecondFactor(app.db, checked.personId)) {
      const half = await beginHalfSignIn(app.db, checked.personId, app.now());
      return seeOther(setCookie(reply, 'half-sign-in', half, halfSignInLastsMs), '/sign-in/code');
    }
    await letIn(request, reply, checked.personId);
    await request.noteSecurity('signed-in', { personId });
    return seeOther(reply, '/');
  });

  app.get('/sign-in/code', async (request, reply) =>
    (await waitingOf(request)) === null ? seeOther(reply, '/sign-in') : sendCode(reply),
  );

  app.post('/sign-in/code', async (request, reply) => {
    const waiting = await waitingOf(request);
    if (waiting === null) return seeOther(reply, '/sign-in');
    const { personId, name } = waiting;
    const asked = readForm(codeForm, request.body);
    if (!asked.ok) return sendCode(reply, asked.problems);
    let by: 'code' | 'recovery' | null = null;
    const right = await guessed(app.db, guessesAt(name, request.ip), app.now(), async () => {
      by = await isSecondFactor(app, personId, asked.value.code, { now: app.now(), steps: app.codeSteps });
      return by !== null;
    });
    if (right !== true) {
      await request.noteSecurity(right === null ? 'sign-in-waits' : 'second-factor-failed', { personId });
      return sendCode(reply, [right === null ? guessesWait : notTheCode]);
    }
    await endHalfSignIn(app.db, readCookie(request, 'half-sign-in') ?? '');
    await letIn(request, clearCookie(reply, 'half-sign-in'), personId);
    const kind = by === 'recovery' ? 'signed-in-with-recovery-code' : 'signed-in-with-code';
    await request.noteSecurity(kind, { personId });
    return seeOther(reply, '/');
  });

  app.post('/sign-out', async (request, reply) => {
    const token = readCookie(request, 'sign-in');
    const everywhere = sentText(request, 'where') === 'everywhere';
    if (request.person !== null) {
      if (everywhere) await endSignInsOf(app.db, request.person.id);
      await request.noteSecurity(everywhere ? 'signed-out-everywhere' : 'signed-out');
    }
    if (token !== undefined) await endSignIn(app.db, token);
    // Not "storage": takes of others wait there for their own person. The kept shelf goes by the worker.
    return seeOther(clearCookie(reply, 'sign-in').header('clear-site-data', '"cache"'), '/sign-in');
  });

  app.get('/people/owner', (request, reply) => sendSignIn(request, reply, ownerWords));

  app.post('/people/owner', async (request, reply) => {
    const asked = readForm(newPersonForm, request.body);
    if (request.household.isDemo) return reply.callNotFound();
    const { id } = request.household;
    const closed = asked.ok ? await closeHousehold(app.db, id, asked.value, app.now()) : asked;
    if (!closed.ok) return sendSignIn(request, reply, ownerWords, closed.problems);
    const { personId } = closed.value;
    await letIn(request, reply, personId);
    await request.noteSecurity('household-closed', { personId, householdId: id });
    return seeOther(reply, '/people');
  });
};

export default signIn;

const waitingOf = (request: FastifyRequest) => {
  const token = readCookie(request, 'half-sign-in');
  return token === undefined
    ? Promise.resolve(null)
    : halfSignInOf(request.server.db, token, request.server.now());
};

async function sendCode(reply: FastifyReply, problems: readonly Problem[] = []): Promise<FastifyReply> {
  // A code that was typed stands in no page.
  const form = statesFrom(() => reply.formKeys(), { formId: 'code', typed: {}, problems, status: 422 })(
    'code',
    {
      code: '',
    },
  );
  const status = problems.length === 0 ? 200 : statusOf(problems);
  return reply.page(CodePage, { frame: await reply.frame(), form }, status);
}
