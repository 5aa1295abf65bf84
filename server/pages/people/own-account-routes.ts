import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome, Problem } from '../../../shared/problems.ts';
import { found, refused } from '../../../shared/problems.ts';
import {
  codeForm,
  endSignInsForm,
  factorForm,
  passphraseForm,
  presentForm,
} from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { type FactorProps, OwnAccountPage } from '../../../views/pages/people/own-account-page.tsx';
import { RecoveryCodesPage } from '../../../views/pages/people/recovery-codes-page.tsx';
import { changePassphrase, guessesWait } from '../../access/passphrase-change.ts';
import {
  beginSecondFactor,
  confirmSecondFactor,
  endSecondFactor,
  type FactorToConfirm,
  factorToConfirm,
  hasSecondFactor,
  isSecondFactor,
  newRecoveryCodes,
  recoveryCodesLeft,
} from '../../access/second-factor.ts';
import { checkPresent, guessed, guessesOfPresent } from '../../access/sign-in-check.ts';
import { endChosenSignIns, type Person, signInsOf } from '../../access/sign-ins.ts';
import { clockWords } from '../../words/clock-words.ts';
import { qrCode } from '../../words/label-sheet.ts';
import { sentBackOf, statesFrom } from '../shared/answer-form.ts';
import { mayKeepShelf } from '../shared/own-device.ts';
import { seeOther } from '../shared/posting.ts';
import { renewOwnSignIn } from '../shared/sign-in-of-browser.ts';

const said: Readonly<Record<string, Message>> = {
  ended: { tone: 'done', text: 'Those sign-ins have ended.' },
  kept: { tone: 'done', text: 'This device keeps the shelf from the next time you open it.' },
  'not-kept': { tone: 'done', text: 'This device keeps nothing of the shelf.' },
  needed: {
    tone: 'problem',
    text: 'A second factor is asked for here. Set one up below; then everything else opens.',
  },
  off: { tone: 'done', text: 'No second factor is asked for any more.' },
};

/** What somebody who is signed in sees and changes of the own way in. */
const ownAccount: FastifyPluginAsync = async (app) => {
  app.get('/people/self', (request, reply) => send(request, reply));

  app.post('/people/self/passphrase', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(passphraseForm, request.body);
    if (!asked.ok) return send(request, reply, 'passphrase', asked.problems);
    const known = await isSelf(request, person, asked.value.present);
    if (!known.ok) return send(request, reply, 'passphrase', known.problems);
    const changed = await changePassphrase(app.db, person.id, asked.value.passphrase);
    if (!changed.ok) return send(request, reply, 'passphrase', changed.problems);
    await request.noteSecurity('passphrase-changed');
    return seeOther(reply, '/sign-in');
  });

  app.post('/people/self/sign-ins', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(endSignInsForm, request.body);
    if (!asked.ok) return send(request, reply, 'sign-ins', asked.problems);
    const known = await isSelf(request, person, asked.value.present);
    if (!known.ok) return send(request, reply, 'sign-ins', known.problems);
    await endChosenSignIns(app.db, person.id, asked.value.ended);
    await renewOwnSignIn(request, reply);
    await request.noteSecurity('sign-ins-ended');
    return seeOther(
      reply,
      asked.value.ended.includes(person.signIn) ? '/sign-in' : '/people/self?said=ended',
    );
  });

  app.post('/people/self/second-factor', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(presentForm, request.body);
    const known = asked.ok ? await isSelf(request, person, asked.value.present) : asked;
    if (!known.ok) return send(request, reply, 'factor', known.problems);
    await beginSecondFactor(app, person, app.now());
    await renewOwnSignIn(request, reply);
    return seeOther(reply, '/people/self#factor');
  });

  app.post('/people/self/second-factor/code', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const asked = readForm(codeForm, request.body);
    if (!asked.ok) return send(request, reply, 'factor', asked.problems);
    const codes = await confirmSecondFactor(app, person.id, asked.value.code, {
      now: app.now(),
      steps: app.codeSteps,
    });
    if (codes === null) return send(request, reply, 'factor', [notYet]);
    await request.noteSecurity('second-factor-on');
    return reply.page(RecoveryCodesPage, { frame: await reply.frame(), codes });
  });

  app.post('/people/self/second-factor/recovery-codes', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const proven = await isSelfTwice(request, person);
    if (!proven.ok) return send(request, reply, 'codes', proven.problems);
    const codes = await app.db.transaction().execute((trx) => newRecoveryCodes(trx, person.id));
    await renewOwnSignIn(request, reply);
    await request.noteSecurity('recovery-codes-made');
    return reply.page(RecoveryCodesPage, { frame: await reply.frame(), codes });
  });

  app.post('/people/self/second-factor/removal', async (request, reply) => {
    const { person } = request;
    if (person === null) return seeOther(reply, '/people');
    const proven = await isSelfTwice(request, person);
    if (!proven.ok) return send(request, reply, 'factor', proven.problems);
    await endSecondFactor(app.db, person.id);
    await renewOwnSignIn(request, reply);
    await request.noteSecurity('second-factor-off');
    return seeOther(reply, '/people/self?said=off#factor');
  });
};

export default ownAccount;

const notTheFactor: Problem = {
  code: 'code-wrong',
  path: ['code'],
  message:
    'That is neither the code your authenticator shows now nor a recovery code that was not used. Wait for the next code and try again.',
};

/** Passphrase and second factor: neither alone takes the factor away or makes codes that stand in its place. */
async function isSelfTwice(request: FastifyRequest, person: Person): Promise<Outcome<true>> {
  const asked = readForm(factorForm, request.body);
  if (!asked.ok) return asked;
  const known = await isSelf(request, person, asked.value.present);
  if (!known.ok) return known;
  const { server } = request;
  const time = { now: server.now(), steps: server.codeSteps };
  const right = await guessed(server.db, guessesOfPresent(person), time.now, async () => {
    const by = await isSecondFactor(server, person.id, asked.value.code, time);
    return by !== null;
  });
  if (right === true) return found(true);
  await request.noteSecurity('second-factor-failed');
  return refused(right === null ? guessesWait : notTheFactor);
}

const notYet: Problem = {
  code: 'code-wrong',
  path: ['code'],
  message:
    'These are not the six digits the authenticator shows now, or they were used already. Wait for the next ones and type them.',
};

/** Whether the present passphrase is the person's; guesses count for this sign-in. */
export async function isSelf(
  request: FastifyRequest,
  person: Person,
  present: string,
): Promise<Outcome<true>> {
  const checked = await checkPresent(request.server.db, person, present, request.server.now());
  if (checked.answer === 'known') return found(true);
  await request.noteSecurity(checked.answer === 'wait' ? 'sign-in-waits' : 'passphrase-not-changed');
  if (checked.answer === 'wait') return refused(guessesWait);
  return refused({
    code: 'passphrase-wrong',
    path: ['present'],
    message: 'That is not your present passphrase. Nothing was changed.',
  });
}

type OwnForm = 'passphrase' | 'sign-ins' | 'factor' | 'codes';

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  form: OwnForm | null = null,
  problems: readonly Problem[] = [],
): Promise<FastifyReply> {
  const { person, server } = request;
  if (person === null) return seeOther(reply, '/people');
  const { db, now } = server;
  const [signIns, isOn, toConfirm, codesLeft] = await Promise.all([
    signInsOf(db, person.id, now()),
    hasSecondFactor(db, person.id),
    factorToConfirm(server, person, now()),
    recoveryCodesLeft(db, person.id),
  ]);
  const clock = clockWords(request);
  const sentBack = form === null ? null : sentBackOf(request, problems, { formId: form });
  const state = statesFrom(() => reply.formKeys(), sentBack);
  const query = new URL(request.url, 'http://localhost').searchParams.get('said') ?? '';
  return reply.page(
    OwnAccountPage,
    {
      frame: await reply.frame(said[query] ?? null),
      name: person.name,
      keys: () => reply.formKeys(),
      signIns: signIns.map(({ id, device, beganAt, seenAt }) => ({
        id,
        device: device === '' ? 'a program that does not say which' : device,
        isThis: id === person.signIn,
        began: clock(beganAt),
        seen: clock(seenAt),
      })),
      isOwnDevice: mayKeepShelf(request),
      factor: factorShown(isOn, codesLeft, toConfirm),
      forms: {
        signIns: state('sign-ins', { present: '', ended: '' }),
        passphrase: state('passphrase', { present: '', passphrase: '' }),
        factor: state('factor', { present: '', code: '' }),
        codes: state('codes', { present: '', code: '' }),
      },
    },
    sentBack?.status,
  );
}

const factorShown = (isOn: boolean, codesLeft: number, toConfirm: FactorToConfirm | null): FactorProps => {
  if (isOn) return { state: 'on', codesLeft };
  if (toConfirm === null) return { state: 'off' };
  return { state: 'to-confirm', seed: toConfirm.seed, picture: qrCode(toConfirm.address) };
};
