import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { ShelfwardError } from '../../../shared/problems.ts';
import { handTargetForm } from '../../../shared/schemas/declared-use.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { type LookBack, lookBack, twelveMonthsTo } from '../../../src/look-back/look-back.ts';
import { plantsToGrow } from '../../../src/look-back/plants-to-grow.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { Accept, LookBackPage } from '../../../views/pages/look-back/look-back-page.tsx';
import { pageNames } from '../../../views/words/page-names.ts';
import { readingOf } from '../../../views/words/reading.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { gardenYieldsOf } from '../../queries/year/harvest.ts';
import { oldestPlan } from '../../queries/year/plans.ts';
import { paidByItem } from '../../queries/year/year-money.ts';
import { setHandTarget } from '../../records/year/targets.ts';
import { figureOf, wholeOf } from '../../words/shelf-units.ts';
import { oncePerPicture, yearOfRequest } from '../../year/year-of-request.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { answerForm, sentBackOf, whatIsWrong } from '../shared/answer-form.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';
import { upkeepNow } from '../shared/upkeep-words.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { presentAccept, presentLookBack, toAccept } from './present-look-back.ts';

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const accepted: Message = {
  tone: 'done',
  text: 'Accepted as next year’s targets. Plan again to see what it changes.',
  action: { words: pageNames.targets, href: '/targets' },
};

const lookingBack: FastifyPluginAsync = async (app) => {
  app.get('/look-back', async (request, reply) => {
    const { said } = pageQuery.parse(request.query);

    return sendPage(request, reply, said === 'accepted' ? accepted : null);
  });

  app.post('/look-back/targets', async (request, reply) => {
    const { back } = await looked(request);
    const recording = recordingOf(request);
    for (const { itemId, units } of toAccept(back)) {
      const asked = readForm(handTargetForm, { itemId, units: String(units) });
      const outcome = asked.ok
        ? await setHandTarget({ ...recording, key: `${recording.key} ${itemId}`.slice(0, 200) }, asked.value)
        : asked;
      if (!outcome.ok) {
        const sentBack = sentBackOf(request, outcome.problems, {});
        return sendPage(request, reply, whatIsWrong(sentBack), sentBack.status);
      }
    }
    return seeOther(reply, '/look-back?said=accepted#advice');
  });

  app.post<{ Params: { item: string } }>('/look-back/targets/:item', async (request, reply) => {
    const asked = readForm(handTargetForm, {
      itemId: request.params.item,
      units: sentText(request, 'units'),
    });
    const outcome = asked.ok ? await setHandTarget(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      done: async () => {
        if (!wantsPart(request)) return '/look-back?said=accepted#advice';
        const { back } = await looked(request);
        const line = back.items.find(({ item }) => item.id === request.params.item);
        if (!line) throw new ShelfwardError('not-found', `look back: no item ${request.params.item}`);
        return reply.part(
          Accept,
          presentAccept(line, request.reading, () => reply.formKeys()),
        );
      },
      again: (sentBack) => sendPage(request, reply, whatIsWrong(sentBack), sentBack.status),
    });
  });
};

export default lookingBack;

// The past forecasts of a year are many.
const lookedBack = oncePerPicture<LookBack>(async (picture, { server: { db } }) => {
  const { household } = picture.loaded.facts;
  const reading = readingOf(household, picture.asOf);
  const span = twelveMonthsTo(picture.asOf);
  const [results, paid, oldest] = await Promise.all([
    batchResultsOf(db, household.id, { from: span.from, to: picture.asOf }),
    paidByItem(db, household.id, span),
    oldestPlan(db, household.id),
  ]);
  return lookBack(picture, span, {
    results,
    paid,
    oldestPlan: oldest,
    figureOf: (item, units) => figureOf(item, wholeOf(item, units), reading),
  });
});

async function looked(request: FastifyRequest): Promise<{ picture: YearPicture; back: LookBack }> {
  return { picture: await yearOfRequest(request), back: await lookedBack(request) };
}

async function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  status = 200,
): Promise<FastifyReply> {
  const { household, server } = request;
  const [{ picture, back }, names, upkeep, yields] = await Promise.all([
    looked(request),
    plannedNames(request),
    upkeepNow(request),
    gardenYieldsOf(server.db, household.id),
  ]);
  const props = presentLookBack(back, {
    reading: request.reading,
    keys: () => reply.formKeys(),
    plan: picture.plan,
    names,
    upkeep,
    plants: plantsToGrow(picture.loaded.facts, picture.items, yields),
    asOf: picture.asOf,
  });
  return reply.page(LookBackPage, { frame: await reply.frame(message), ...props }, status);
}
