import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { newPersonForm } from '../../../shared/schemas/account.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { acceptInvitation, invitationOf } from '../../access/invitations.ts';
import { linkPages } from '../../access/links.ts';
import { chooseHousehold } from '../../plugins/app/household.ts';
import { seeOther, sentText } from '../shared/posting.ts';
import { addLinkPlace, sentLink } from '../shared/secret-links.ts';
import { letIn } from '../shared/sign-in-of-browser.ts';
import { noSuchLink, type SignInWords, sendSignIn } from '../shared/sign-in-page.ts';

const nothing = (reply: FastifyReply) => noSuchLink(reply, 'an owner of the household');

const invitations: FastifyPluginAsync = async (app) => {
  addLinkPlace(app, {
    page: linkPages.invitation,
    title: 'An invitation',
    line: 'Somebody wants to share a household with you.',
    nothing,
    opened: async (request, reply, secret) => {
      const words = await invitationWords(request, secret);
      return words === null ? nothing(reply) : sendSignIn(request, reply, words);
    },
  });

  app.post(`${linkPages.invitation}/acceptance`, async (request, reply) => {
    const secret = sentLink(request);
    const words = await invitationWords(request, secret);
    if (words === null) return nothing(reply);
    const asks = sentText(request, 'as') === 'signed-in' && request.person !== null;
    const asked = readForm(newPersonForm, request.body);
    if (!asks && !asked.ok) return sendSignIn(request, reply, words, asked.problems);
    const who = asks && request.person ? { personId: request.person.id } : asked.ok ? asked.value : null;
    if (who === null) return nothing(reply);
    const accepted = await acceptInvitation(app.db, secret, who, app.now());
    if (!accepted.ok) return sendSignIn(request, reply, words, accepted.problems);
    const { personId, householdId } = accepted.value;
    if (!asks) await letIn(request, reply, personId);
    await request.noteSecurity('joined', { personId, householdId });
    return seeOther(chooseHousehold(reply, householdId), '/');
  });
};

export default invitations;

async function invitationWords(request: FastifyRequest, secret: string): Promise<SignInWords | null> {
  const invitation = await invitationOf(request.server.db, secret, request.server.now());
  if (invitation === null) return null;
  return {
    title: `Join ${invitation.householdName}`,
    line: `Choose the name and passphrase you will sign in with, as ${invitation.role}.`,
    action: `${linkPages.invitation}/acceptance`,
    link: secret,
    button: 'Join',
    isNew: true,
  };
}
