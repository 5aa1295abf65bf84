import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { bounds } from '../../../shared/bounds.ts';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import { gardenYieldForm } from '../../../shared/schemas/harvest.ts';
import { yearOf } from '../../../shared/week.ts';
import { produceTaken } from '../../../src/household/produce-taken.ts';
import { accountEvents } from '../../../src/look-back/look-back.ts';
import {
  type FoodYears,
  foodYears,
  gardenYears,
  putUpIn,
  sourceSeasons,
} from '../../../src/look-back/through-years.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { YearsPage } from '../../../views/pages/look-back/years-page.tsx';
import { may } from '../../access/roles.ts';
import { gardenYieldsOf } from '../../queries/year/harvest.ts';
import { gardenYieldRules, sayGardenYield } from '../../records/year/harvest.ts';
import { oncePerPicture, yearOfRequest } from '../../year/year-of-request.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';
import { inPounds } from '../shared/produce/typed.ts';
import { produceUnitChoices, weightUnit } from '../shared/produce/units.ts';
import { readByRules } from '../shared/read-by-rules.ts';
import { presentFoods, presentGarden, presentSeasons, yearsShown } from './present-years.ts';

const pageQuery = z.object({ said: z.string().max(20).catch('') });
const written: Message = { tone: 'done', text: 'Written down.' };

/** What the shelf held year by year, when seasons began, what the garden gave; the last is written down here. */
const throughYears: FastifyPluginAsync = async (app) => {
  app.get('/look-back/years', (request, reply) =>
    sendPage(request, reply, pageQuery.parse(request.query).said === 'written' ? written : null, null),
  );

  app.post('/look-back/years/garden', async (request, reply) => {
    return answerForm(request, reply, await writeYield(request), {
      formId: 'garden',
      done: '/look-back/years?said=written#garden',
      again: (sentBack) => sendPage(request, reply, null, sentBack),
    });
  });
};

export default throughYears;

async function writeYield(request: FastifyRequest): Promise<Outcome<unknown>> {
  const typed = typedValues(request.body);
  const { sources } = (await yearOfRequest(request)).loaded.facts;
  const crop = sources.find(({ id }) => id === typed.sourceId)?.crop ?? '';
  const { values, problems, asTyped } = inPounds(request, typed, crop, [
    { field: 'lb', unitField: 'amountUnit', most: bounds.lbGiven.to },
  ]);
  const asked = await readByRules(request, gardenYieldForm, values, gardenYieldRules);
  if (!asked.ok || problems.length > 0)
    return refused(...(asked.ok ? [] : asked.problems.map(asTyped)), ...problems);
  return sayGardenYield(recordingOf(request), asked.value);
}

const yearsOfRequest = oncePerPicture<readonly FoodYears[]>(({ loaded: { facts, useByItem }, asOf }) => {
  const uses = new Map<string, { readonly recordedSince: FoodSince }>(useByItem);
  return foodYears(
    accountEvents(facts.items, facts.events),
    asOf,
    (itemId) => uses.get(itemId)?.recordedSince ?? null,
  );
});

type FoodSince = YearPicture['asOf'] | null;

async function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  message: Message | null,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { reading, today, household, server, role } = request;
  const [picture, foods, yields] = await Promise.all([
    yearOfRequest(request),
    yearsOfRequest(request),
    gardenYieldsOf(server.db, household.id),
  ]);
  const { facts } = picture.loaded;
  const gardens = gardenYears(facts.sources, yields);
  const year = yearOf(today);
  const first = gardens[0]?.source;
  return reply.page(
    YearsPage,
    {
      frame: await reply.frame(message),
      years: yearsShown(foods),
      ...presentFoods(foods, facts.items, reading),
      seasons: presentSeasons(sourceSeasons(facts.sources), reading),
      garden: presentGarden(gardens, { year, lbByCrop: produceTaken(putUpIn(foods, year), facts) }, reading),
      writing:
        first === undefined || role === null || !may(role, 'plan')
          ? null
          : {
              form: statesFrom(() => reply.formKeys(), sentBack)('garden', {
                sourceId: first.id,
                year: String(year),
                lb: '',
                amountUnit: weightUnit(reading),
                plants: '',
              }),
              sources: gardens.map(({ source }) => ({ value: source.id, words: source.name })),
              units: produceUnitChoices,
            },
    },
    sentBack?.status,
  );
}
