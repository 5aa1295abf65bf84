import type { FastifyPluginAsync, FastifyRequest } from 'fastify';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { type CalendarDate, weekOf } from '../../shared/week.ts';
import type { PlannedSession } from '../../src/planning/plan.ts';
import type { Schedule } from '../../src/preserving/schedule.ts';
import { ThisWeekPage } from '../../views/pages/week/this-week-page.tsx';
import { formatWeek } from '../../views/words/format.ts';
import { sentenceCase } from '../../views/words/sentences.ts';
import { presentPressing } from '../presenters/notices.ts';
import { presentPlanStatus } from '../presenters/plan-status.ts';
import type { PlannedNames } from '../presenters/planned-words.ts';
import {
  presentAhead,
  presentDays,
  presentEatFirst,
  presentErrands,
  type WeekPicture,
  weekSummary,
} from '../presenters/this-week.ts';
import { canners, kitchenHours } from '../queries/kitchen.ts';
import { shelfByItem } from '../queries/shelf.ts';
import { recipesHere } from '../year/planned-recipes.ts';
import { noticesNow } from '../year/standing-notices.ts';
import { planNow } from './plan-now.ts';
import { plannedNames } from './planned-names.ts';

const noticesShown = 5;

const thisWeek: FastifyPluginAsync = async (app) => {
  app.get('/', async (request, reply) => {
    const { db } = app;
    const { household, today, reading } = request;
    const [planned, names, hours, shelf, notices, owned] = await Promise.all([
      planNow(request),
      plannedNames(request),
      kitchenHours(db, household.id),
      shelfByItem(db, household.id),
      noticesNow(db, household.id, { at: app.now(), today }, app.reference),
      canners(db, household.id),
    ]);
    const processHere = (session: PlannedSession, on: CalendarDate) =>
      scheduleOn(request, names, owned, session, on, hours.sessionWeekday);
    const picture: WeekPicture = { today, reading, plan: planned.plan, hours, names, shelf, processHere };
    const pressing = presentPressing(notices, reading, noticesShown);
    const { trips, total } = presentErrands(picture);

    return reply.page(ThisWeekPage, {
      frame: await reply.frame(),
      week: sentenceCase(formatWeek(weekOf(today), reading)),
      summary: weekSummary(picture),
      days: presentDays(picture),
      trips,
      errandTotal: total,
      eatFirst: presentEatFirst(picture),
      notices: pressing.notices,
      moreNotices: pressing.more,
      ahead: presentAhead(picture),
      plan: presentPlanStatus(planned, reply.formKeys(), '/'),
    });
  });
};

export default thisWeek;

/** The published schedule a planned recipe has on that day in this kitchen; null when it is not canned. */
const scheduleOn = (
  request: FastifyRequest,
  names: PlannedNames,
  owned: Awaited<ReturnType<typeof canners>>,
  session: PlannedSession,
  on: CalendarDate,
  sessionWeekday: number,
): Outcome<Schedule> | null => {
  const recipe = names.recipes.find((one) => one.id === session.recipe);
  if (recipe === undefined || recipe.process === null) return null;
  const { schedules, leftOut } = recipesHere([recipe], {
    household: request.household,
    canners: owned,
    items: names.items,
    weeks: [weekOf(on)],
    asOf: on,
    sessionWeekday,
    reference: request.server.reference,
  });
  const schedule = schedules.get(recipe.id);
  return schedule === undefined ? refused(...(leftOut[0]?.reasons ?? [])) : found(schedule);
};
