import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { type Problem, ShelfwardError } from '../../../shared/problems.ts';
import type { Preparations } from '../../../src/household/begun.ts';
import { preparationFor } from '../../../src/preserving/stages/standing-batches.ts';
import { LoadAnswer } from '../../../views/pages/canning-day/load-card.tsx';
import { clocksNow } from '../../plugins/app/pages.ts';
import {
  type Interruption,
  interruptClock,
  startClock,
  tickStep,
} from '../../records/canning/canning-session.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { dayOf, sendDay } from './day-answer.ts';
import { dayPicture, weekIn } from './day-picture.ts';
import { dayPath, weekPath } from './present-day.ts';
import { presentLoad } from './present-loads.ts';

type OfLoad = { Params: { week: string; day: string; load: string } };

const canningLoads: FastifyPluginAsync = async (app) => {
  app.post<OfLoad>('/canning-day/:week/:day/loads/:load/ticks', async (request, reply) => {
    const { ofSession } = await loadOf(request);
    const [step = '', done] = sentText(request, 'tick').split(':');
    const outcome = await tickStep(recordingOf(request), ofSession, { step, done: done === 'yes' });

    return answerLoad(request, reply, outcome.ok ? null : outcome.problems);
  });

  app.post<OfLoad>('/canning-day/:week/:day/loads/:load/clock', async (request, reply) => {
    const { ofSession, minutes } = await loadOf(request);
    const event = sentText(request, 'event');
    const why = interruptions.find((known) => known === event);
    const outcome =
      why === undefined
        ? await startClock(recordingOf(request), ofSession, minutes)
        : await interruptClock(recordingOf(request), ofSession, minutes, why);

    return answerLoad(request, reply, outcome.ok ? null : outcome.problems);
  });
};

export default canningLoads;

const interruptions: readonly Interruption[] = ['boil-stopped', 'pressure-dropped', 'power-cut'];

async function loadOf(request: FastifyRequest<OfLoad>) {
  const { picture, day } = await dayOf(request);
  const { here, loads } = await dayPicture(request, picture, day, null);
  const { reference } = request.server;
  for (const batch of here.batches) {
    // A load whose stages are not done stays a load: asked for it says why it has to wait.
    const canned = batch.canned?.ok === true ? batch.canned.value : batch.heldBack;
    const load = canned?.loads.find(({ key }) => key === request.params.load);
    if (!canned || !load) continue;
    const { schedule, steps } = canned;
    return {
      picture,
      day,
      batch,
      load,
      loads,
      minutes: schedule.minutes,
      ofSession: {
        on: day.on,
        loadKey: load.key,
        steps,
        preparationOf: (known: Preparations) =>
          preparationFor(batch.recipe, day.on, known, reference, request.household.timeZone),
      },
    };
  }
  throw new ShelfwardError('not-found', `loadOf: no load ${request.params.load}`);
}

async function answerLoad(
  request: FastifyRequest<OfLoad>,
  reply: FastifyReply,
  problems: readonly Problem[] | null,
): Promise<FastifyReply> {
  const { picture, day, batch, load, loads } = await loadOf(request);
  const problem =
    problems === null ? null : { loadKey: load.key, words: problems.map(({ message }) => message).join(' ') };
  if (wantsPart(request) && batch.canned?.ok === true) {
    const props = presentLoad(batch, load, {
      path: dayPath(day, weekIn(request.params.week)),
      loads,
      now: { at: picture.now, steady: picture.steady },
      timeZone: request.household.timeZone,
      reading: request.reading,
      keys: () => reply.formKeys(),
      problem,
    });
    return reply.part(
      LoadAnswer,
      { load: props, clocks: await clocksNow(request) },
      problems === null ? 200 : statusOf(problems),
    );
  }
  if (problems === null || problem === null) {
    const anchor = `load-${load.key.replaceAll('.', '-')}`;
    return seeOther(reply, `${weekPath(weekIn(request.params.week))}?day=${day.on}#${anchor}`);
  }
  return sendDay(request, reply, picture, day, null, { load: { ...problem, status: statusOf(problems) } });
}
