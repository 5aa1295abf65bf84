import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { resetForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import type { SignInPageProps } from '../../../views/pages/people/sign-in-page.tsx';
import { linkPages } from '../../access/links.ts';
import { guessesWait, resetOf, resetPassphrase, type SecondStep } from '../../access/passphrase-change.ts';
import { seeOther } from '../shared/posting.ts';
import { addLinkPlace, sentLink } from '../shared/secret-links.ts';
import { noSuchLink, type SignInWords, sendSignIn } from '../shared/sign-in-page.ts';

const nothing = (reply: FastifyReply) => noSuchLink(reply, 'whoever runs the program');

/** The link that the operator makes for somebody who forgot the passphrase; afterwards that person signs in as always. */
const passphraseReset: FastifyPluginAsync = async (app) => {
  addLinkPlace(app, {
    page: linkPages.reset,
    title: 'A new passphrase',
    line: 'With the link that whoever runs the program gave you.',
    nothing,
    opened: async (request, reply, secret) => {
      const words = await resetWords(request, secret);
      return words === null ? nothing(reply) : sendSignIn(request, reply, words);
    },
  });

  app.post(`${linkPages.reset}/renewal`, async (request, reply) => {
    const secret = sentLink(request);
    const words = await resetWords(request, secret);
    if (words === null) return nothing(reply);
    const asked = readForm(resetForm, request.body);
    const time = { now: app.now(), steps: app.codeSteps };
    const reset = asked.ok
      ? await resetPassphrase(app, secret, { ...asked.value, address: request.ip }, time)
      : asked;
    if (!reset.ok) {
      const [first] = reset.problems;
      const waits = first?.code === guessesWait.code;
      const { personId } = words;
      if (waits || first?.code === 'code-wrong')
        await request.noteSecurity(waits ? 'sign-in-waits' : 'second-factor-failed', { personId });
      return sendSignIn(request, reply, words, reset.problems);
    }
    const { personId, factorEnded } = reset.value;
    await request.noteSecurity('passphrase-reset', { personId });
    if (factorEnded) await request.noteSecurity('second-factor-off', { personId });
    return seeOther(reply, '/sign-in');
  });
};

export default passphraseReset;

const secondWords: Readonly<Record<SecondStep, SignInPageProps['second']>> = {
  none: null,
  factor: {
    label: 'Your code',
    hint: 'The six digits your authenticator shows now, or one of your recovery codes.',
  },
  code: {
    label: 'Code given beside the link',
    hint: 'It takes the place of your second factor, which ends; set up another afterwards.',
  },
};

async function resetWords(
  request: FastifyRequest,
  secret: string,
): Promise<(SignInWords & { readonly personId: string }) | null> {
  const asked = await resetOf(request.server.db, secret, request.server.now());
  if (asked === null) return null;
  return {
    personId: asked.personId,
    title: 'A new passphrase',
    line: `For ${asked.name}. Afterwards you sign in with it, here and everywhere.`,
    action: `${linkPages.reset}/renewal`,
    link: secret,
    button: 'Set the passphrase',
    isNew: true,
    knownName: asked.name,
    second: secondWords[asked.second],
  };
}
