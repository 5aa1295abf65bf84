import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { refused, ShelfwardError } from '../../../shared/problems.ts';
import { batchResultForm, sealCheckForm } from '../../../shared/schemas/canning-session.ts';
import { choiceField, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { readTypedAltitude } from '../../../shared/typed-altitude.ts';
import type { BatchHere } from '../../../src/preserving/day/session-here.ts';
import { WriteDownPage } from '../../../views/pages/canning-day/write-down-page.tsx';
import { lastWatcher } from '../../queries/canning/batch-results.ts';
import { checkSeals, sealRules } from '../../records/shelf/check-seals.ts';
import { cameRules, evidenceUnwritten, writeDown } from '../../records/shelf/write-down.ts';
import { settleMaterial } from '../../records/year/waiting-material.ts';
import { leftOverWords } from '../../words/canning/left-over-words.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, seeOther } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { dayOf, sendDay } from './day-answer.ts';
import { dayPicture, weekIn } from './day-picture.ts';
import { type CanningDayPicture, dayPath, weekPath } from './present-day.ts';
import { altitudeUnit, presentWriteDown, processedAt, writeDownValues } from './present-write-down.ts';

type OfResult = { Params: { week: string; day: string; recipe: string } };

const settledForm = z.object({ as: choiceField('answer', ['used', 'lost']) });

const canningResults: FastifyPluginAsync = async (app) => {
  app.get<OfResult>('/canning-day/:week/:day/results/:recipe', (request, reply) =>
    sendForm(request, reply, null),
  );

  app.post<OfResult>('/canning-day/:week/:day/results/:recipe', async (request, reply) => {
    const { picture, day, batch, shown } = await batchOf(request);
    const typed = typedValues(request.body);
    const counted = batch.recipe.jarKind === null ? batch.item.unit : 'jar';
    const came = asCounted(typed, counted, ['units'], request.reading);
    const weighed = picture.byProduct(batch.recipe)?.unit ?? '';
    const { values, asTyped } = asCounted(came.values, weighed, ['byProduct'], request.reading);
    const sent = {
      ...values,
      altitudeFt: feetTyped(typed.altitudeFt ?? '', request.reading),
      psi: pressureOf(typed, batch),
    };
    const asked = await readByRules(request, batchResultForm, sent, cameRules(batch.recipe));
    const unwritten = batch.canned?.ok === true ? evidenceUnwritten(typed) : [];
    const outcome = asked.ok
      ? await writeDown(recordingOf(request), app.reference, {
          recipeId: batch.recipe.id,
          on: day.on,
          processedAt: processedAt(batch, shown.loads, { at: app.now(), steady: app.steady?.() ?? null }),
          came: asked.value,
        })
      : refused(...asked.problems.map(asTyped).map(came.asTyped), ...unwritten);
    return answerForm(request, reply, outcome, {
      formId: 'result',
      done: `${weekPath(weekIn(request.params.week))}?day=${day.on}#results`,
      again: (sentBack) => sendForm(request, reply, sentBack),
    });
  });

  app.post<{ Params: { week: string; day: string; lot: string } }>(
    '/canning-day/:week/:day/seals/:lot',
    async (request, reply) => {
      const { picture, day } = await dayOf(request);
      const typed = typedValues(request.body);
      const asked = await readByRules(request, sealCheckForm, typed, sealRules(request.params.lot));
      const outcome = asked.ok
        ? await checkSeals(recordingOf(request), app.reference, request.params.lot, asked.value)
        : asked;
      return answerForm(request, reply, outcome, {
        formId: `seal-${request.params.lot}`,
        done: `${weekPath(weekIn(request.params.week))}?day=${day.on}#results`,
        again: (form) => sendDay(request, reply, picture, day, null, { form }),
      });
    },
  );

  app.post<{ Params: { material: string } }>('/waiting/:material', async (request, reply) => {
    const asked = readForm(settledForm, request.body);
    if (asked.ok) await settleMaterial(recordingOf(request), request.params.material, asked.value.as);

    return seeOther(reply, '/canning-day#waiting');
  });
};

export default canningResults;

/** A height as it was typed, in feet; what is none stays as it is. */
const feetTyped = (typed: string, reading: FastifyRequest['reading']): string => {
  const read = readTypedAltitude(typed, altitudeUnit(reading));
  return read.kind === 'altitude' ? String(read.altitudeFt) : typed;
};

/** A tick says that the printed pressure was held; a figure that was typed says more. */
const pressureOf = ({ psi = '', psiHeld = '' }: Readonly<Record<string, string>>, { canned }: BatchHere) =>
  psi === '' && psiHeld !== '' && canned?.ok === true && canned.value.schedule.psi !== null
    ? String(canned.value.schedule.psi)
    : psi;

async function batchOf(request: FastifyRequest<OfResult>) {
  const { picture, day } = await dayOf(request);
  const shown = await dayPicture(request, picture, day, null);
  const batch = shown.here.batches.find(({ recipe }) => recipe.id === request.params.recipe);
  if (!batch) throw new ShelfwardError('not-found', `batchOf: no batch of ${request.params.recipe}`);
  return { picture, day, batch, shown };
}

/** What the batches take of what others left; null for nothing. */
const takenWords = ({ recipe, batches }: BatchHere, { materials, reading }: CanningDayPicture) =>
  leftOverWords(
    recipe.uses.map((part) => ({ ...part, quantity: part.quantity * batches })),
    materials,
    reading,
  );

async function sendForm(
  request: FastifyRequest<OfResult>,
  reply: FastifyReply,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { picture, day, batch, shown } = await batchOf(request);
  const week = weekIn(request.params.week);
  const watchedBy =
    request.person?.name ??
    (await lastWatcher(
      request.server.db,
      request.household.id,
      shown.results.flatMap(({ lots }) => lots.map(({ lotId }) => lotId)),
    ));
  const altitudeFt = request.household.altitudeFt;
  const form = statesFrom(() => reply.formKeys(), sentBack)(
    'result',
    writeDownValues(batch, shown, { altitudeFt, watchedBy, reading: request.reading }),
  );
  return reply.page(
    WriteDownPage,
    {
      frame: await reply.frame(),
      back: `${weekPath(week)}?day=${day.on}`,
      ...presentWriteDown(batch, picture.byProduct(batch.recipe), takenWords(batch, picture), {
        action: `${dayPath(day, week)}/results/${batch.recipe.id}`,
        form,
        jarKinds: picture.kitchen.recipes.flatMap(({ jarKind }) => (jarKind === null ? [] : [jarKind])),
        reading: request.reading,
      }),
    },
    sentBack?.status,
  );
}
