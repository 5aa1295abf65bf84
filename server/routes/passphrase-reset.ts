import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { resetForm } from '../../shared/schemas/account.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import { resetOf, resetPassphrase } from '../access/passphrase-change.ts';
import { seeOther } from './posting.ts';
import { noSuchLink, type SignInWords, sendSignIn } from './sign-in-page.ts';

const theOperator = 'whoever runs the program';

/** The link that the operator makes for somebody who forgot the passphrase; afterwards that person signs in as always. */
const passphraseReset: FastifyPluginAsync = async (app) => {
  app.get<{ Params: { token: string } }>('/passphrase/:token', async (request, reply) => {
    const words = await resetWords(request, request.params.token);
    return words === null ? noSuchLink(reply, theOperator) : sendSignIn(request, reply, words);
  });

  app.post<{ Params: { token: string } }>('/passphrase/:token', async (request, reply) => {
    const { token } = request.params;
    const words = await resetWords(request, token);
    if (words === null) return noSuchLink(reply, theOperator);
    const asked = readForm(resetForm, request.body);
    const reset = asked.ok ? await resetPassphrase(app.db, token, asked.value.passphrase, app.now()) : asked;
    if (!reset.ok) return sendSignIn(request, reply, words, reset.problems, 422);
    await request.noteSecurity('passphrase-reset', { personId: reset.value.personId });
    return seeOther(reply, '/sign-in');
  });
};

export default passphraseReset;

async function resetWords(request: FastifyRequest, token: string): Promise<SignInWords | null> {
  const asked = await resetOf(request.server.db, token, request.server.now());
  if (asked === null) return null;
  return {
    title: 'A new passphrase',
    line: `For ${asked.name}. Afterwards you sign in with it, here and everywhere.`,
    action: `/passphrase/${token}`,
    button: 'Set the passphrase',
    isNew: true,
    knownName: asked.name,
  };
}
