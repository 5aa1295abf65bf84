import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import {
  addDays,
  addWeeks,
  type CalendarDate,
  daysBetween,
  daysOfWeek,
  weekHolding,
} from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { dayLines, linesWithin } from '../../../src/planning/days/day-lines.ts';
import { type PassedSession, passedSessions } from '../../../src/planning/days/passed-sessions.ts';
import { usualWeekday } from '../../../src/planning/days/session-dates.ts';
import type { PlannedSession } from '../../../src/planning/plan.ts';
import { type Kitchen, recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { headlineOf } from '../../../src/preserving/foods/headline.ts';
import { chosenSchedule } from '../../../src/preserving/lookup/process-lookup.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { ThisWeekPage } from '../../../views/pages/week/this-week-page.tsx';
import { firstDayOf, formatWeek } from '../../../views/words/format.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { canningSessionsOf } from '../../queries/canning/canning-sessions.ts';
import { troublesOf } from '../../queries/notices/troubles.ts';
import { weeksPlannedBy } from '../../queries/year/plans.ts';
import { noticesOfRequest } from '../../records/notices/notices-of-request.ts';
import { presentBatchDays } from '../../words/batch-days.ts';
import { presentPressing } from '../../words/notices.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import type { PlannedNames } from '../../words/planned-words.ts';
import { presentTroubles } from '../../words/troubles.ts';
import { shelfOfRequest } from '../../year/book-of-year.ts';
import { householdNow } from '../../year/left-out-today.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import type { SentBack } from '../shared/answer-form.ts';
import { lineProblem, presentSettled } from '../shared/buying-lines.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { weekSummary } from '../shared/week-in-plan.ts';
import {
  presentAhead,
  presentDays,
  presentDone,
  presentEatFirst,
  presentErrands,
  presentPassed,
  presentRuledOut,
  type WeekPicture,
} from './present-week.ts';

const noticesShown = 5;
/** Which line of the errands is opened for another amount, price or day. */
const lineQuery = z.object({ other: z.string().max(200).nullable().catch(null) }).catch({ other: null });

/** Days of this week and the last that are behind us, as they were planned before, and nothing was said of what stood in them. */
export const passedDays = async (
  { household, today, server: { db } }: FastifyRequest,
  { kept, hours }: Pick<HouseholdFacts, 'kept' | 'hours'>,
): Promise<readonly PassedSession[]> => {
  const { weekStartsOn } = household;
  const thisWeek = weekHolding(today, weekStartsOn);
  const [firstDay = today] = daysOfWeek(thisWeek, weekStartsOn);
  const lastWeek = addWeeks(thisWeek, -1);
  const [before, since, begun] = await Promise.all([
    weeksPlannedBy(db, household.id, addDays(firstDay, -2)),
    today === firstDay ? [] : weeksPlannedBy(db, household.id, addDays(today, -1)),
    canningSessionsOf(db, household.id, { from: addDays(firstDay, -7), to: today }),
  ]);
  const planned = [
    ...before.filter(({ week }) => week === lastWeek),
    ...since.filter(({ week }) => week === thisWeek),
  ];
  return passedSessions(planned, kept, begun, hours, household.weekStartsOn, today);
};

/** On the last days of a week what is begun in the next one is told already. */
const sevenDaysOn = (firstDay: CalendarDate, today: CalendarDate): CalendarDate =>
  addDays(firstDay, Math.max(7, daysBetween(firstDay, today) + 6));

export interface WeekAnswer {
  readonly message?: Message | null;
  readonly failed?: SentBack | null;
  readonly status?: number;
}

/** This week as it stands, with what went wrong where something did. */
export const sendWeek = async (
  request: FastifyRequest,
  reply: FastifyReply,
  { message = null, failed = null, status = failed?.status ?? 200 }: WeekAnswer = {},
) => {
  const { household, today, reading, server } = request;
  const { db, reference } = server;
  const [{ loaded, batches, eatSoonDays }, planned, names, shelf, notices, troubles] = await Promise.all([
    yearOfRequest(request),
    planNow(request),
    plannedNames(request),
    shelfOfRequest(request),
    noticesOfRequest(request),
    troublesOf(db, household.id, server.now()),
  ]);
  const { hours, kept, purchases } = loaded.facts;
  const passed = await passedDays(request, loaded.facts);
  const picture: WeekPicture = {
    today,
    reading,
    plan: planned.plan,
    hours,
    names,
    shelf,
    eatSoonDays,
    kept,
    formKeys: () => reply.formKeys(),
    failedLine: failed,
    openedLine: lineQuery.parse(request.query).other,
    headlineOf: (item, recipe) => headlineOf(item, recipe, reference),
    processHere: (session, on) => scheduleOn(request, names, loaded.facts, session, on),
  };
  const thisWeek = weekHolding(today, reading.weekStartsOn);
  const firstDay = firstDayOf(thisWeek, reading);
  const pressing = presentPressing(notices, request.today, reading, noticesShown);
  const { trips, total } = presentErrands(picture);

  return reply.page(
    ThisWeekPage,
    {
      frame: await reply.frame(message ?? lineMessage(failed)),
      week: sentenceCase(formatWeek(thisWeek, reading)),
      summary: weekSummary(picture),
      passed: presentPassed(passed, names, today, () => reply.formKeys()),
      done: presentDone(picture),
      days: presentDays(picture),
      beforeAndAfter: presentBatchDays(
        linesWithin(dayLines(batches), firstDay, sevenDaysOn(firstDay, today)).filter(
          ({ kind }) => kind !== 'load',
        ),
        batches,
        {
          reference,
          reading,
          timeZone: household.timeZone,
          now: server.now(),
          today,
          keys: () => reply.formKeys(),
        },
        '/',
      ),
      hasStages: batches.some(({ calendar }) => calendar.state !== 'one go'),
      ruledOut: presentRuledOut(picture),
      trips,
      errandTotal: total,
      settled: presentSettled(
        purchases.filter(({ week }) => week === thisWeek),
        names,
        () => reply.formKeys(),
      ),
      eatFirst: presentEatFirst(picture),
      notices: pressing.notices,
      moreNotices: pressing.more,
      ahead: presentAhead(picture),
      plan: presentPlanStatus(planned, reply.formKeys(), '/'),
      troubles: presentTroubles(troubles, { timeZone: household.timeZone, reading }),
    },
    status,
  );
};

/** At the head of the page, where the line it is about may be gone. */
const lineMessage = (failed: SentBack | null): Message | null => {
  const text = lineProblem(failed);
  return text === null ? null : { tone: 'problem', text };
};

/** The published schedule a planned recipe has on that day in this kitchen, or that one must be chosen; null when it is not canned. */
const scheduleOn = (
  request: FastifyRequest,
  names: PlannedNames,
  facts: HouseholdFacts,
  session: PlannedSession,
  on: CalendarDate,
): Outcome<Schedule> | null => {
  const recipe = names.recipes.find((one) => one.id === session.recipe);
  if (recipe === undefined || recipe.process === null) return null;
  const { schedules, leftOut } = recipeHere({
    recipe,
    household: householdNow(facts, request.household),
    canners: facts.canners,
    items: names.items,
    asOf: on,
    sessionWeekday: usualWeekday(facts.hours),
    reference: request.server.reference,
  });
  const printed = schedules.get(recipe.id);
  return printed === undefined ? refused(...(leftOut[0]?.reasons ?? [])) : chosenSchedule(printed, null);
};

const recipeHere = whileTheSame(
  'recipe',
  ({ recipe, ...kitchen }: Omit<Kitchen, 'weeks'> & { readonly recipe: Recipe }) =>
    recipesHere([recipe], {
      ...kitchen,
      weeks: [weekHolding(kitchen.asOf, kitchen.household.weekStartsOn)],
    }),
);
