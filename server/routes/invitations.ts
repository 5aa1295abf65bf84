import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { newPersonForm } from '../../shared/schemas/account.ts';
import { readForm } from '../../shared/schemas/form-fields.ts';
import { acceptInvitation, invitationOf } from '../access/invitations.ts';
import { chooseHousehold } from '../plugins/app/household.ts';
import { seeOther, sentText } from './posting.ts';
import { letIn } from './sign-in.ts';
import { noSuchLink, type SignInWords, sendSignIn } from './sign-in-page.ts';

const anOwner = 'an owner of the household';

const invitations: FastifyPluginAsync = async (app) => {
  app.get<{ Params: { token: string } }>('/invitations/:token', async (request, reply) => {
    const words = await invitationWords(request, request.params.token);
    return words === null ? noSuchLink(reply, anOwner) : sendSignIn(request, reply, words);
  });

  app.post<{ Params: { token: string } }>('/invitations/:token', async (request, reply) => {
    const { token } = request.params;
    const words = await invitationWords(request, token);
    if (words === null) return noSuchLink(reply, anOwner);
    const asks = sentText(request, 'as') === 'signed-in' && request.person !== null;
    const asked = readForm(newPersonForm, request.body);
    if (!asks && !asked.ok) return sendSignIn(request, reply, words, asked.problems, 422);
    const who = asks && request.person ? { personId: request.person.id } : asked.ok ? asked.value : null;
    if (who === null) return noSuchLink(reply, anOwner);
    const accepted = await acceptInvitation(app.db, token, who, app.now());
    if (!accepted.ok) return sendSignIn(request, reply, words, accepted.problems, 422);
    const { personId, householdId } = accepted.value;
    if (!asks) await letIn(request, reply, personId);
    await request.noteSecurity('joined', { personId, householdId });
    return seeOther(chooseHousehold(reply, householdId), '/');
  });
};

export default invitations;

async function invitationWords(request: FastifyRequest, token: string): Promise<SignInWords | null> {
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
