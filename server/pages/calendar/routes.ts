import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { ShelfwardError } from '../../../shared/problems.ts';
import { dateInZone } from '../../../shared/week.ts';
import { measuresIn } from '../../../src/preserving/foods/trade-measures.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { CalendarPage } from '../../../views/pages/calendar/calendar-page.tsx';
import { readingOf } from '../../../views/words/reading.ts';
import { calendarEntries } from '../../calendar/calendar-entries.ts';
import { calendarText, contentOf } from '../../calendar/calendar-text.ts';
import { addressHere } from '../../plugins/app/own-name.ts';
import { seeHousehold } from '../../plugins/app/whose-rows.ts';
import { canningSessionsOf } from '../../queries/canning/canning-sessions.ts';
import { householdById } from '../../queries/household/household.ts';
import { calendarFeed, calendarFeedBy, calendarKinds } from '../../queries/notices/calendar-feed.ts';
import {
  chooseCalendarKinds,
  closeCalendarFeed,
  entryVersions,
  openCalendarFeed,
} from '../../records/notices/calendar-feed.ts';
import { yearPicture } from '../../year/year-picture.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const said: Readonly<Record<string, Message>> = {
  opened: { tone: 'done', text: 'The calendar has a new address. Give it to your calendar program.' },
  closed: { tone: 'done', text: 'The address was taken back. Programs that had it find nothing any more.' },
  chosen: { tone: 'done', text: 'Saved. Calendar programs show it the next time they look.' },
};

const calendar: FastifyPluginAsync = async (app) => {
  app.get('/calendar', async (request, reply) => {
    const query = pageQuery.parse(request.query);
    const feed = await calendarFeed(app.db, request.household.id);

    return reply.page(CalendarPage, {
      frame: await reply.frame(said[query.said] ?? null),
      isOpen: feed !== null,
      // The secret is the owners' alone; others are not asked to keep it.
      address:
        feed === null || request.role !== 'owner'
          ? null
          : `${addressHere(request)}/calendar/${feed.token}.ics`,
      owns: request.role === 'owner',
      kinds: feed?.kinds ?? [],
      keys: () => reply.formKeys(),
    });
  });

  app.post('/calendar/address', async (request, reply) => {
    await openCalendarFeed(recordingOf(request));
    return seeOther(reply, '/calendar?said=opened');
  });

  app.post('/calendar/address/removal', async (request, reply) => {
    await closeCalendarFeed(recordingOf(request));
    return seeOther(reply, '/calendar?said=closed');
  });

  app.post('/calendar/kinds', async (request, reply) => {
    await chooseCalendarKinds(
      recordingOf(request),
      calendarKinds.filter((kind) => sentText(request, kind) !== ''),
    );
    return seeOther(reply, '/calendar?said=chosen');
  });

  // Read by calendar programs, which cannot sign in: whoever knows the address may read it, and nobody else finds it.
  app.get<{ Params: { token: string } }>('/calendar/:token.ics', async (request, reply) =>
    sendFeed(request, reply, request.params.token),
  );
};

export default calendar;

async function sendFeed(request: FastifyRequest, reply: FastifyReply, token: string): Promise<FastifyReply> {
  const { db, now, reference } = request.server;
  const feed = await calendarFeedBy(db, token);
  if (feed === null) throw new ShelfwardError('not-found', 'calendar: no feed at this address');
  seeHousehold(request, feed.householdId);
  const household = await householdById(db, feed.householdId);
  const picture = await yearPicture(db, household.id, dateInZone(now(), household.timeZone), reference);
  const { facts } = picture.loaded;
  const entries = calendarEntries(
    picture,
    await canningSessionsOf(db, household.id),
    {
      ...facts,
      reading: readingOf(household, picture.asOf),
      measuresOf: measuresIn(reference),
    },
    reference,
  ).filter(({ kind }) => feed.kinds.includes(kind === 'before and after' ? 'canning' : kind));
  const versions = await entryVersions(
    db,
    household.id,
    entries.map((entry) => ({ uid: entry.uid, content: contentOf(entry) })),
    now(),
  );
  const text = calendarText(
    household,
    entries.flatMap((entry) => {
      const version = versions.get(entry.uid);
      return version === undefined ? [] : [{ ...entry, ...version }];
    }),
    addressHere(request),
  );
  return reply
    .type('text/calendar; charset=utf-8')
    .header('cache-control', 'private, no-cache')
    .header('content-disposition', 'inline; filename="pantry.ics"')
    .header('x-robots-tag', 'noindex')
    .send(text);
}
