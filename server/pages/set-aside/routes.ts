import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { letters } from '../../../shared/bounds.ts';
import { counted } from '../../../shared/counting.ts';
import { cannerId, lotId } from '../../../shared/ids.ts';
import { type Outcome, ShelfwardError } from '../../../shared/problems.ts';
import { doubtReason } from '../../../shared/schemas/canning-session.ts';
import {
  choiceField,
  dateField,
  optionalTextField,
  readForm,
  typedValues,
} from '../../../shared/schemas/form-fields.ts';
import { idField } from '../../../shared/schemas/id-fields.ts';
import { moveForm } from '../../../shared/schemas/shelf/move.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { LotPage } from '../../../views/pages/set-aside/lot-page.tsx';
import { SetAsidePage } from '../../../views/pages/set-aside/set-aside-page.tsx';
import { type FieldProblems, noProblems } from '../../../views/parts/form.tsx';
import { itemById, itemsOnShelf } from '../../queries/household/items.ts';
import { cannersOf, placesOf } from '../../queries/household/kitchen.ts';
import { lotEvidence } from '../../queries/shelf/evidence.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { moveLots } from '../../records/shelf/move-lots.ts';
import { discardAside, doubtRules, release, setAside } from '../../records/shelf/set-aside.ts';
import { fieldProblems } from '../../words/field-problems.ts';
import { placeChoices } from '../../words/places.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
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

    return sendPage(
      request,
      reply,
      blankDoubt,
      noProblems,
      said === 'aside' ? asideMessage(count) : null,
      200,
    );
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
    if (outcome.ok) return seeOther(reply, `/set-aside?said=aside&count=${outcome.value.lotIds.length}`);

    const problems = fieldProblems(outcome.problems, ['cannerId', 'since', 'reason']);
    const values = { ...blankDoubt, ...typedValues(request.body) };
    return sendPage(request, reply, values, problems, null, statusOf(outcome.problems));
  });

  app.get<OfLot>('/batches/:lot', (request, reply) => {
    const message = pageQuery.parse(request.query).said === 'moved' ? movedMessage : null;
    return sendLot(request, reply, noProblems, 200, message);
  });

  app.post<OfLot>('/batches/:lot/moves', async (request, reply) => {
    const { lot } = request.params;
    const asked = readForm(moveForm, { lotIds: [lot], placeId: sentText(request, 'placeId') });
    const outcome = asked.ok ? await moveLots(recordingOf(request), asked.value) : asked;
    if (outcome.ok) return seeOther(reply, `/batches/${lot}?said=moved`);

    const problems = fieldProblems(outcome.problems, ['placeId']);
    return sendLot(request, reply, problems, statusOf(outcome.problems));
  });

  app.post<OfLot>('/batches/:lot/standing', async (request, reply) => {
    const outcome = await changeStanding(request);
    if (outcome.ok) return seeOther(reply, `/batches/${request.params.lot}`);

    const problems = fieldProblems(outcome.problems, ['reason']);
    return sendLot(request, reply, problems, statusOf(outcome.problems));
  });
};

export default asideRoutes;

const blankDoubt = { cannerId: '', since: '', reason: '' };

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
  values: typeof blankDoubt,
  problems: FieldProblems,
  message: Message | null,
  status: number,
): Promise<FastifyReply> {
  const { db } = request.server;
  const { id } = request.household;
  const [lots, items, canners] = await Promise.all([lotsOf(db, id), itemsOnShelf(db, id), cannersOf(db, id)]);
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
        keys: reply.formKeys(),
        choices: [
          { value: '', words: 'Choose a canner' },
          ...canners.map((canner) => ({ value: canner.id, words: canner.name })),
        ],
        values,
        problems,
      },
    },
    status,
  );
}

async function sendLot(
  request: FastifyRequest<OfLot>,
  reply: FastifyReply,
  problems: FieldProblems,
  status: number,
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
  return reply.page(
    LotPage,
    {
      frame: await reply.frame(message),
      ...presentLot(item, lot, evidence ?? null, reading, request.server.reference.processTimes),
      keys: reply.formKeys(),
      reason: sentText(request, 'reason'),
      problems,
      move:
        lot.unitsLeft <= 0 || others.length === 0
          ? null
          : { keys: reply.formKeys(), to: placeChoices(others), chosen: sentText(request, 'placeId') },
    },
    status,
  );
}
