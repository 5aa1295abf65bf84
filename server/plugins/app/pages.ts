import type { FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import type { ComponentType } from 'preact';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { dateFormatter } from '../../../shared/formatters.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import type { Frame, Message } from '../../../views/layout/frame.ts';
import { MoneySign } from '../../../views/parts/money-sign.ts';
import { moneySign } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { ofAccounts, ofHousehold } from '../../database/apart/whose-rows.ts';
import { deletedHouseholds } from '../../queries/household/household.ts';
import { standingNotices } from '../../queries/notices/notices.ts';
import { noticesOfRequest } from '../../records/notices/notices-of-request.ts';
import { presentClocks } from '../../words/canning/running-clocks.ts';
import { clocksInHand } from '../../year/clocks-in-hand.ts';
import { NoHousehold } from './household.ts';

/** Ways to answer with a page, a part of one, and what every page stands in. */
export default fp(
  async (app) => {
    app.decorateReply('frame', async function (message: Message | null = null) {
      const household = householdOf(() => this.request.household);
      if (household === null)
        return {
          reading: this.request.reading,
          assets: app.assets.urls,
          householdName: null,
          householdId: null,
          personId: this.request.person?.id ?? '',
          isDemo: false,
          signedInAs: this.request.person?.name ?? null,
          openNotices: 0,
          clocks: [],
          message,
        };
      // A page about people shows at its head what the household has open.
      const { notices, clocks } = await ofHousehold(app.db, household.id, async () => ({
        notices: await noticesOf(this.request, household.id),
        clocks: await clocksNow(this.request),
      }));
      const shown =
        message ??
        factorToTell(this.request) ??
        (await ofAccounts(app.db, () => deletionToTell(this.request)));
      return {
        reading: this.request.reading,
        assets: app.assets.urls,
        householdName: household.name,
        householdId: household.id,
        personId: this.request.person?.id ?? '',
        isDemo: household.isDemo,
        signedInAs: this.request.person?.name ?? null,
        openNotices: notices.filter((notice) => notice.state === 'open').length,
        clocks,
        message: shown,
      };
    });

    const html = <Props extends object>(
      reading: Reading,
      component: ComponentType<Props>,
      props: Props,
    ): string =>
      renderToString(h(MoneySign.Provider, { value: moneySign(reading), children: h(component, props) }));

    app.decorateReply('page', function (component, props, status = 200) {
      return this.code(status)
        .type('text/html; charset=utf-8')
        .header('cache-control', 'no-store')
        .send(`<!doctype html>${html(this.request.reading, component, props)}`);
    });
    app.decorateReply('part', function (component, props, status = 200) {
      return this.code(status)
        .type('text/html; charset=utf-8')
        .header('cache-control', 'no-store')
        .send(html(this.request.reading, component, props));
    });
  },
  { name: 'pages', dependencies: ['assets', 'household', 'csrf'] },
);

/** The clocks of the canning day; a fault in them must not take other pages down. */
export const clocksNow = async (request: FastifyRequest): Promise<Frame['clocks']> => {
  const { household, reading, server } = request;
  try {
    const now = { at: server.now(), steady: server.steady?.() ?? null };
    const clocks = await clocksInHand(server.db, household, server.reference, now);
    return presentClocks(clocks, household.timeZone, reading);
  } catch (error) {
    request.log.error({ err: error }, 'the clocks of the canning day could not be read');
    return [];
  }
};

/** A fault in the picture of the year must not take the page down with it: the notices on record are shown then. */
const noticesOf = async (request: FastifyRequest, householdId: HouseholdId) => {
  try {
    return await noticesOfRequest(request);
  } catch (error) {
    request.log.error({ err: error }, 'notices could not be brought up to date');
    return standingNotices(request.server.db, householdId);
  }
};

/** A household of this person that was deleted lately: its other members are told on every page while it can come back. */
async function deletionToTell({ person, server, url }: FastifyRequest): Promise<Message | null> {
  if (person === null || url.startsWith('/households')) return null;
  const mine = (await deletedHouseholds(server.db)).find(({ id }) => person.roleIn.has(id));
  if (mine === undefined) return null;
  return {
    tone: 'note',
    text: `${mine.name} was deleted by ${mine.by}. It can come back for seven days.`,
    action: { words: 'See your households', href: '/households' },
  };
}

/** Where the operator asks a second factor of everybody: until when it may wait. */
function factorToTell({ factorStanding, reading, url }: FastifyRequest): Message | null {
  if (factorStanding === null || factorStanding === 'now' || url.startsWith('/people/self')) return null;
  const day = dateFormatter(reading.locale, { dateStyle: 'long' }).format(factorStanding.until);
  return {
    tone: 'note',
    text: `A second factor is asked of everybody here from ${day} on.`,
    action: { words: 'Set one up', href: '/people/self#factor' },
  };
}

const householdOf = <T>(read: () => T): T | null => {
  try {
    return read();
  } catch (error) {
    if (error instanceof NoHousehold) return null;
    throw error;
  }
};
