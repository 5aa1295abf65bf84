import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { asWeek } from '../../../shared/week.ts';
import { dayLines } from '../../../src/planning/days/day-lines.ts';
import { BatchWhy } from '../../../views/pages/year/batch-why.tsx';
import { WeekCard } from '../../../views/pages/year/week-card.tsx';
import { WorthOfMore, type WorthProps } from '../../../views/pages/year/worth.tsx';
import { YearItemPage } from '../../../views/pages/year/year-item-page.tsx';
import { YearPage } from '../../../views/pages/year/year-page.tsx';
import { YearSheetPage } from '../../../views/pages/year/year-sheet-page.tsx';
import { YearWeeksPage } from '../../../views/pages/year/year-weeks-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { newestPlan } from '../../queries/year/plans.ts';
import { presentBatchDays } from '../../words/batch-days.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import { askerLeft } from '../shared/asker-left.ts';
import { itemHead } from '../shared/item-head.ts';
import { planNow } from '../shared/plan-now.ts';
import { seeOther, sentText } from '../shared/posting.ts';
import type { YearReader } from '../shared/present-board.ts';
import { presentAxis } from '../shared/present-board.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { presentCountsOn } from './present-counts-on.ts';
import { presentYearItem } from './present-item.ts';
import { type MovesAsked, presentBatchWhys, presentMoves, presentWorth } from './present-reasons.ts';
import { askedWeek, presentWeekCard, weeksInFigures } from './present-week-card.ts';
import { hangsFirst, presentGaveWay, presentLeftOver, presentRows, yearSummary } from './present-year.ts';

type OfItem = { Params: { item: string } };

const year: FastifyPluginAsync = async (app) => {
  app.get('/year', (request, reply) => sendYear(request, reply, worthToAsk(request, reply)));

  app.post('/year/worth', async (request, reply) => {
    const worth = await worthNow(request, reply);
    if (worth === null) return seeOther(reply, '/year');
    return wantsPart(request) ? reply.part(WorthOfMore, worth) : sendYear(request, reply, worth);
  });

  app.get('/year/sheet', (request, reply) => sendSheet(request, reply));

  app.get('/year/weeks', async (request, reply) => {
    const [reader, planned] = await Promise.all([readerOf(request), planNow(request)]);
    const figures = weeksInFigures(planned.plan, request.today, reader.reading);
    const card = presentWeekCard(reader, figures, askedWeek(request));
    if (wantsPart(request)) return reply.part(WeekCard, { card });
    return reply.page(YearWeeksPage, { frame: await reply.frame(), card, ...figures });
  });

  app.get<OfItem>('/year/:item', (request, reply) => sendItem(request, reply, request.params.item, null));

  app.post<OfItem>('/year/:item/moves', async (request, reply) => {
    const { item } = request.params;
    const asked = await movesNow(request, reply);
    if (asked === null) return seeOther(reply, `/year/${item}#why`);
    if (!wantsPart(request)) return sendItem(request, reply, item, asked);
    const why = presentBatchWhys(await readerOf(request), item, null, asked).find(
      ({ answer }) => answer !== null,
    );
    if (why === undefined) throw new ShelfwardError('not-found', `year: no batch ${asked.recipe} of ${item}`);
    return reply.part(BatchWhy, why);
  });
};

export default year;

async function sendYear(
  request: FastifyRequest,
  reply: FastifyReply,
  worth: WorthProps | null,
): Promise<FastifyReply> {
  const [reader, planned] = await Promise.all([readerOf(request), planNow(request)]);
  const { picture, reading } = reader;

  return reply.page(YearPage, {
    frame: await reply.frame(),
    summary: yearSummary(picture),
    axis: presentAxis(reader),
    boards: presentRows(reader, picture.items.filter(hangsFirst)),
    bought: presentRows(
      reader,
      picture.items.filter((itemYear) => !hangsFirst(itemYear)),
    ),
    stages: presentBatchDays(
      dayLines(picture.batches.filter(({ calendar }) => calendar.state !== 'one go')).filter(
        ({ kind }) => kind === 'stage' || kind === 'load',
      ),
      picture.batches,
      {
        reference: request.server.reference,
        reading,
        timeZone: request.household.timeZone,
        now: request.server.now(),
        today: request.today,
        keys: null,
      },
      '/year',
    ),
    gaveWay: presentGaveWay(reader),
    leftOver: presentLeftOver(reader),
    plan: presentPlanStatus(planned, reply.formKeys(), '/year'),
    countsOn: presentCountsOn(picture, reading),
    worth,
  });
}

async function sendSheet(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
  const reader = await readerOf(request);
  return reply.page(YearSheetPage, {
    frame: await reply.frame(),
    heading: `${request.household.name}, from ${formatDate(request.today, request.reading)}`,
    summary: yearSummary(reader.picture),
    axis: presentAxis(reader),
    boards: presentRows(
      reader,
      reader.picture.items.filter(({ item }) => item.kind === 'preserve'),
    ),
  });
}

async function sendItem(
  request: FastifyRequest,
  reply: FastifyReply,
  itemId: string,
  asked: MovesAsked | null,
): Promise<FastifyReply> {
  const reader = await readerOf(request);
  const itemYear = reader.picture.items.find(({ item }) => item.id === itemId);
  if (itemYear === undefined) throw new ShelfwardError('not-found', `year: no item ${itemId}`);
  const keys = request.server.planJob === null ? null : () => reply.formKeys();

  return reply.page(YearItemPage, {
    frame: await reply.frame(),
    head: await itemHead(request, reply, itemYear.item, 'year'),
    ...presentYearItem(itemYear, reader),
    whys: presentBatchWhys(reader, itemId, keys, asked),
  });
}

const worthToAsk = (request: FastifyRequest, reply: FastifyReply): WorthProps | null =>
  request.server.planJob === null ? null : { state: 'to ask', keys: reply.formKeys() };

/** Solves for what a little more would be worth under the newest plan; null without a plan or a planner. */
async function worthNow(request: FastifyRequest, reply: FastifyReply): Promise<WorthProps | null> {
  const { planJob, db } = request.server;
  const plan = await newestPlan(db, request.household.id);
  if (planJob === null || plan === null) return null;
  const worth = await planJob.ask(request.household.id, plan, { about: 'worth of more' }, askerLeft(reply));
  if (worth === null) return null;
  return { state: 'answered', answer: presentWorth(worth, plan, request.reading) };
}

/** Solves for a batch a week earlier and a week later; null where no such batch is planned or no planner runs. */
async function movesNow(request: FastifyRequest, reply: FastifyReply): Promise<MovesAsked | null> {
  const { planJob, db } = request.server;
  const plan = await newestPlan(db, request.household.id);
  const [recipe, week] = [sentText(request, 'recipe'), sentText(request, 'week')];
  const session = plan?.plan.weeks
    .find((planned) => planned.week === week)
    ?.sessions.find((planned) => planned.recipe === recipe);
  if (planJob === null || plan === null || session === undefined) return null;
  const move = { recipe: session.recipe, week: asWeek(week) };
  const costs = await planJob.ask(
    request.household.id,
    plan,
    { about: 'batch moved', ...move },
    askerLeft(reply),
  );
  if (costs === null) return null;
  return { recipe, week, answer: presentMoves(move.week, costs, request.reading) };
}

const readerOf = async (request: FastifyRequest): Promise<YearReader> => ({
  picture: await yearOfRequest(request),
  reading: request.reading,
  crops: request.server.reference.harvestWindows,
});
