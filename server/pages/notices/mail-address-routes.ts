import type { FastifyPluginAsync, FastifyReply } from 'fastify';
import { MailAddressPage } from '../../../views/pages/notices/mail-address-page.tsx';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import { linkPages } from '../../access/links.ts';
import { momentIn } from '../../clock.ts';
import { seeHousehold } from '../../plugins/app/whose-rows.ts';
import { addressAsked, confirmAddress } from '../../records/notices/mail-confirmation.ts';
import { addLinkPlace, sentLink } from '../shared/secret-links.ts';
import { noSuchLink } from '../shared/sign-in-page.ts';

const nothing = (reply: FastifyReply) => noSuchLink(reply, 'an owner of the household');

/** Whoever reads letters at an address says that they may come there; nobody has to be signed in for that. */
const mailAddress: FastifyPluginAsync = async (app) => {
  addLinkPlace(app, {
    page: linkPages.mailAddress,
    title: 'Letters to this address',
    line: 'With the link of the letter that asked whether letters may come.',
    nothing,
    opened: async (_request, reply, secret) => {
      const asked = await addressAsked(app.db, secret, app.now());
      if (asked === null) return nothing(reply);
      const { householdName, address } = asked;
      const frame = await reply.frame();
      const keys = reply.formKeys();
      return reply.page(MailAddressPage, { frame, householdName, address, link: secret, keys });
    },
  });

  app.post(`${linkPages.mailAddress}/confirmation`, async (request, reply) => {
    const secret = sentLink(request);
    const asked = await addressAsked(app.db, secret, app.now());
    if (asked !== null) seeHousehold(request, asked.householdId);
    const confirmed =
      asked === null ? null : await confirmAddress(app.db, secret, momentIn(asked.timeZone, app.now));
    if (confirmed === null) return nothing(reply);
    await request.noteSecurity('mail-address-confirmed', { householdId: confirmed.householdId });
    app.mail?.look();
    return reply.page(PlainPage, {
      frame: await reply.frame(),
      title: 'Letters come here',
      text: `Letters of ${confirmed.householdName} go to ${confirmed.address} from now on. An owner can end them under Notices.`,
      action: null,
    });
  });
};

export default mailAddress;
