import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused, together } from '../../../shared/problems.ts';
import { choiceField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { purchaseForm } from '../../../shared/schemas/shelf/purchase.ts';
import { putUpForm } from '../../../shared/schemas/shelf/put-up.ts';
import type { Item } from '../../../src/household/item.ts';
import { PutUpPage } from '../../../views/pages/shelf/put-up-page.tsx';
import { itemsOf } from '../../queries/household/items.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { buy, purchaseRules } from '../../records/shelf/buy.ts';
import { putUp, putUpRules } from '../../records/shelf/put-up.ts';
import { receive } from '../../records/shelf/receive.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { type InPounds, inPounds } from '../shared/produce/typed.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { blankPutUp, presentPutUp } from './present-put-up.ts';

const originForm = z.object({ origin: choiceField('way it came', ['put-up', 'bought', 'received']) });
const blankQuery = z.object({ item: z.string().max(80).catch('') });

const lots: FastifyPluginAsync = async (app) => {
  app.get('/shelf/put-up', async (request, reply) => {
    const { item } = blankQuery.parse(request.query);
    const items = await itemsOf(app.db, request.household.id);
    const chosen = items.find(({ id }) => id === item);

    return sendForm(request, reply, chosen, null);
  });

  app.post('/shelf/lots', async (request, reply) => {
    return answerForm(request, reply, await putOnShelf(request), {
      formId: 'lot',
      renamed: { boughtOn: 'madeOn' },
      done: `/shelf/${sentText(request, 'itemId')}?said=put-up`,
      again: (sentBack) => sendForm(request, reply, undefined, sentBack),
    });
  });
};

export default lots;

/** What is counted by the pound may be said in the trade measures of the crop it is made of. */
async function produceInPounds(request: FastifyRequest): Promise<InPounds> {
  const { db } = request.server;
  const typed = typedValues(request.body);
  const item = (await itemsOf(db, request.household.id)).find(({ id }) => id === typed.itemId);
  const made = item?.unit === 'lb' ? await recipesOf(db, request.household.id) : [];
  const crop = made.find(({ itemId }) => itemId === item?.id)?.produce[0]?.crop ?? '';
  const fields = ['units', 'left'].map((field) => ({ field, unitField: `${field}Unit` }));
  return inPounds(request, typed, crop, item?.unit === 'lb' ? fields : []);
}

async function putOnShelf(request: FastifyRequest): Promise<Outcome<unknown>> {
  const { values, problems, asTyped } = await produceInPounds(request);
  const outcome = problems.length > 0 ? refused(...problems) : await putTyped(request, values);
  return outcome.ok ? outcome : refused(...outcome.problems.map(asTyped));
}

async function putTyped(
  request: FastifyRequest,
  typed: Readonly<Record<string, string>>,
): Promise<Outcome<unknown>> {
  const origin = readForm(originForm, typed);
  if (!origin.ok || origin.value.origin !== 'put-up') {
    const sent = {
      ...typed,
      origin: origin.ok ? origin.value.origin : 'bought',
      boughtOn: typed.madeOn,
      paid: typed.paid === '' ? null : typed.paid,
    };
    const asked = await readByRules(request, purchaseForm, sent, purchaseRules);
    const both = together(origin, asked);
    if (!asked.ok || !both.ok) return both;
    return asked.value.origin === 'received'
      ? receive(recordingOf(request), request.server.reference, asked.value)
      : buy(recordingOf(request), asked.value);
  }
  const sent = { ...typed, filled: [{ jarKind: typed.jarKind, units: typed.units }] };
  const asked = await readByRules(request, putUpForm, sent, putUpRules);
  return asked.ok ? putUp(recordingOf(request), asked.value) : asked;
}

async function sendForm(
  request: FastifyRequest,
  reply: FastifyReply,
  chosen: Item | undefined,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { db } = request.server;
  const [items, places] = await Promise.all([
    itemsOf(db, request.household.id),
    placesOf(db, request.household.id),
  ]);
  const form = statesFrom(() => reply.formKeys(), sentBack)('lot', blankPutUp(chosen, request.today));
  return reply.page(
    PutUpPage,
    { frame: await reply.frame(), form: presentPutUp(items, places, form) },
    sentBack?.status,
  );
}
