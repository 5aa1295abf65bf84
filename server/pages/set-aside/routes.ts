import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { letters } from '../../../shared/bounds.ts';
import { counted } from '../../../shared/counting.ts';
import { cannerId, lotId } from '../../../shared/ids.ts';
import { type Outcome, ShelfwardError } from '../../../shared/problems.ts';
import { doubtReason } from '../../../shared/schemas/canning-session.ts';
import { choiceField, dateField, optionalTextField, readForm } from '../../../shared/schemas/form-fields.ts';
import { idField } from '../../../shared/schemas/id-fields.ts';
import { moveForm } from '../../../shared/schemas/shelf/move.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { LotPage } from '../../../views/pages/set-aside/lot-page.tsx';
import { SetAsidePage } from '../../../views/pages/set-aside/set-aside-page.tsx';
import { itemById } from '../../queries/household/items.ts';
import { cannersOf, placesOf } from '../../queries/household/kitchen.ts';
import { lotEvidence } from '../../queries/shelf/evidence.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { moveLots } from '../../records/shelf/move-lots.ts';
import { discardAside, doubtRules, release, setAside } from '../../records/shelf/set-aside.ts';
import { placeChoices } from '../../words/places.ts';
import { bookOfRequest, lotsOfRequest } from '../../year/book-of-year.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { presentAside, presentLot } from './present-lot.ts';

type OfLot = { Params: { lot: string } };

const cannerDoubt = z.object({
  cannerId: idField('Canner', cannerId),
  since: dateField('Processed on or after'),
  reason: doubtReason,
});
const lotDoubt = z.object({ reason: optionalTextField('Why you doubt it', letters.doubt) });
const standingForm = z.object({
  standing: choiceField('way to settle it', ['set-aside', 'released', 'discarded']),
});
const pageQuery = z.object({ said: z.string().max(20).catch(''), count: z.coerce.number().int().catch(0) });

const asideRoutes: FastifyPluginAsync = async (app) => {
  app.get('/set-aside', async (request, reply) => {
    const { said, count } = pageQuery.parse(request.query);

    return sendPage(request, reply, null, said === 'aside' ? asideMessage(count) : null);
  });

  app.post('/set-aside', async (request, reply) => {
    const asked = await readByRules(request, cannerDoubt, request.body, doubtRules);
    const outcome = asked.ok
      ? await setAside(
          recordingOf(request),
          { kind: 'canner', cannerId: asked.value.cannerId, since: asked.value.since },
          asked.value.reason,
        )
      : asked;
    return answerForm(request, reply, outcome, {
      formId: 'aside',
      done: ({ lotIds }) => `/set-aside?said=aside&count=${lotIds.length}`,
      again: (sentBack) => sendPage(request, reply, sentBack),
    });
  });

  app.get<OfLot>('/batches/:lot', (request, reply) => {
    const message = pageQuery.parse(request.query).said === 'moved' ? movedMessage : null;
    return sendLot(request, reply, null, message);
  });

  app.post<OfLot>('/batches/:lot/moves', async (request, reply) => {
    const { lot } = request.params;
    const asked = readForm(moveForm, { lotIds: [lot], placeId: sentText(request, 'placeId') });
    const outcome = asked.ok ? await moveLots(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'move',
      done: `/batches/${lot}?said=moved`,
      again: (sentBack) => sendLot(request, reply, sentBack),
    });
  });

  app.post<OfLot>('/batches/:lot/standing', async (request, reply) => {
    return answerForm(request, reply, await changeStanding(request), {
      formId: 'standing',
      done: `/batches/${request.params.lot}`,
      again: (sentBack) => sendLot(request, reply, sentBack),
    });
  });
};

export default asideRoutes;

const movedMessage: Message = {
  tone: 'done',
  text: 'It is in another place now. The move can be undone on the shelf page.',
  action: { words: 'Shelf', href: '/shelf#undo' },
};

const asideMessage = (count: number): Message => ({
  tone: 'done',
  text: `${counted(count, 'batch is', 'batches are')} set aside now. Nobody takes from them, and the plan does not count them.`,
});

async function changeStanding(request: FastifyRequest<OfLot>): Promise<Outcome<unknown>> {
  const { lot } = request.params;
  const asked = readForm(standingForm, request.body);
  if (!asked.ok) return asked;
  switch (asked.value.standing) {
    case 'set-aside': {
      const id = lotId.safeParse(lot);
      if (!id.success) throw new ShelfwardError('not-found', `batches: no batch ${lot}`);
      const doubt = readForm(lotDoubt, request.body);
      if (!doubt.ok) return doubt;
      return setAside(recordingOf(request), { kind: 'lot', lotId: id.data }, doubt.value.reason);
    }
    case 'released':
      return release(recordingOf(request), request.server.reference, lot);
    case 'discarded':
      return discardAside(recordingOf(request), lot);
  }
}

async function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
  message: Message | null = null,
): Promise<FastifyReply> {
  const { db } = request.server;
  const { id } = request.household;
  const [{ items }, lots, canners] = await Promise.all([
    bookOfRequest(request),
    lotsOfRequest(request),
    cannersOf(db, id),
  ]);
  return reply.page(
    SetAsidePage,
    {
      frame: await reply.frame(message),
      aside: lots
        .filter((lot) => lot.setAside !== null)
        .flatMap((lot) => {
          const item = items.find((one) => one.id === lot.itemId);
          return item ? [presentAside(item, lot, reply.formKeys(), request.reading)] : [];
        }),
      canner: {
        form: statesFrom(() => reply.formKeys(), sentBack)('aside', { cannerId: '', since: '', reason: '' }),
        choices: [
          { value: '', words: 'Choose a canner' },
          ...canners.map((canner) => ({ value: canner.id, words: canner.name })),
        ],
      },
    },
    sentBack?.status,
  );
}

async function sendLot(
  request: FastifyRequest<OfLot>,
  reply: FastifyReply,
  sentBack: SentBack | null,
  message: Message | null = null,
): Promise<FastifyReply> {
  const { db } = request.server;
  const { household, reading } = request;
  const [lot] = await lotsOf(db, household.id, { lotId: request.params.lot, empty: true });
  const item = lot && (await itemById(db, household.id, lot.itemId));
  if (!lot || !item) throw new ShelfwardError('not-found', `sendLot: no lot ${request.params.lot}`);
  const [[evidence], places] = await Promise.all([
    lotEvidence(db, household.id, lot.id),
    placesOf(db, household.id),
  ]);
  const others = places.filter(({ id }) => id !== lot.place?.id);
  const state = statesFrom(() => reply.formKeys(), sentBack);
  const doubt = state('standing', { reason: '' });
  const move = state('move', { placeId: '' });
  return reply.page(
    LotPage,
    {
      frame: await reply.frame(message),
      ...presentLot(item, lot, evidence ?? null, reading, request.server.reference.processTimes),
      keys: reply.formKeys(),
      doubt,
      problem: doubt.problems[''] ?? move.problems[''] ?? null,
      move: lot.unitsLeft <= 0 || others.length === 0 ? null : { form: move, to: placeChoices(others) },
    },
    sentBack?.status,
  );
}
