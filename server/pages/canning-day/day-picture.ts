import type { FastifyRequest } from 'fastify';
import { ShelfwardError } from '../../../shared/problems.ts';
import { addDays, calendarDate, type WeekKey, weekHolding, weekKey } from '../../../shared/week.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { CanningSession, SessionSetting } from '../../../src/household/session.ts';
import { whoIsThere } from '../../../src/planning/days/session-dates.ts';
import { nextCanningWeek, type SessionDay, sessionDays } from '../../../src/planning/days/week-sessions.ts';
import { isWrittenDown } from '../../../src/preserving/day/begun-batches.ts';
import { recipesOnTheStove } from '../../../src/preserving/day/loads-of-day.ts';
import { sessionHere, usualSetting } from '../../../src/preserving/day/session-here.ts';
import { byProductOf } from '../../../src/preserving/recipes/by-product.ts';
import { batchResultsOf } from '../../queries/canning/batch-results.ts';
import { canningSessionsOf, loadsOfDay, printedSheets } from '../../queries/canning/canning-sessions.ts';
import { recipesOf } from '../../queries/household/recipes.ts';
import { waitingMaterialsOf } from '../../queries/year/waiting-material.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import { plannedNames } from '../shared/planned-names.ts';
import type { CanningDayPicture, DayPicture } from './present-day.ts';

/** The week a path names; another word is a page that does not exist. */
export function weekIn(text: string): WeekKey {
  const read = weekKey.safeParse(text);
  if (!read.success) throw new ShelfwardError('not-found', `weekIn: no week ${text}`);
  return read.data;
}

/** The canning days of a week (the next one with any, when none is named) in the household that asks. */
export async function canningDayPicture(
  request: FastifyRequest,
  named: WeekKey | null,
): Promise<CanningDayPicture> {
  const { household, today, reading } = request;
  const { db, reference, now } = request.server;
  const [{ loaded, plan, batches }, names, sessions, waiting, recent] = await Promise.all([
    yearOfRequest(request),
    plannedNames(request),
    canningSessionsOf(db, household.id),
    waitingMaterialsOf(db, household.id),
    batchResultsOf(db, household.id, { from: addDays(today, -sealsLookedBackDays), to: today }),
  ]);
  const { hours, materials, canners: owned, preparations: begunBefore } = loaded.facts;
  const inHand = sessions.findLast((session) => isInHand(session, recent, now()))?.on ?? null;
  const week =
    named ??
    (inHand === null
      ? nextCanningWeek(plan?.plan ?? null, sessions, today, reading.weekStartsOn)
      : weekHolding(inHand, reading.weekStartsOn));
  const planned = plan?.plan.weeks.find((one) => one.week === week) ?? null;
  const begun =
    week === null ? [] : sessions.filter(({ on }) => weekHolding(on, reading.weekStartsOn) === week);
  return {
    week,
    planned,
    days: week === null ? [] : sessionDays(planned, begun, hours, reading.weekStartsOn),
    kitchen: {
      household,
      canners: owned,
      items: names.items,
      recipes: names.recipes,
      hours,
      reference,
      preparations: begunBefore,
      now: now(),
    },
    batches,
    names,
    plan: plan?.plan ?? null,
    fetchFrom:
      plan === null ? null : { plan: plan.plan, year: plan.year, hours, weekStartsOn: reading.weekStartsOn },
    waiting,
    inHand,
    unchecked: [...new Set(recent.filter(hasUncheckedSeals).map(({ sessionOn }) => sessionOn))],
    materials,
    byProduct: (recipe) => byProductOf(recipe, materials, reference),
    now: now(),
    steady: request.server.steady?.() ?? null,
    today,
    reading,
  };
}

/** A day that was begun is in hand for so long, whatever its date, while not all of it is written down. */
const inHandMs = 36 * 3_600_000;

const isInHand = (
  { on, work, openedAt }: CanningSession,
  results: readonly BatchResult[],
  now: number,
): boolean =>
  Math.abs(now - openedAt) < inHandMs &&
  !work.every((made) =>
    isWrittenDown(
      made,
      results.filter(({ sessionOn }) => sessionOn === on),
    ),
  );

/** Seals that nobody checked are asked about for so long. */
const sealsLookedBackDays = 7;

const hasUncheckedSeals = ({ lots }: BatchResult): boolean =>
  lots.some(({ isProcessed, sealCheck }) => isProcessed && sealCheck === null);

/** The day asked for; without one the day that is next or in hand, or the week's last. */
export function dayIn(picture: CanningDayPicture, asked: string | undefined): SessionDay | null {
  const { days, today, inHand } = picture;
  if (asked !== undefined && calendarDate.safeParse(asked).success) {
    const named = days.find(({ on }) => on === asked);
    if (named) return named;
  }
  return days.find(({ on }) => on === inHand) ?? days.find(({ on }) => on >= today) ?? days.at(-1) ?? null;
}

/** One day as it can be done here, with what has happened to its loads. */
export async function dayPicture(
  request: FastifyRequest,
  picture: CanningDayPicture,
  day: SessionDay,
  ahead: SessionSetting | null,
): Promise<DayPicture> {
  const { db } = request.server;
  const { household } = request;
  const setting =
    ahead ??
    day.session?.setting ??
    usualSetting(household, picture.kitchen.hours, whoIsThere(picture.kitchen.hours, day.on));
  const [loads, sheets, results] = await Promise.all([
    loadsOfDay(db, household.id, day.on),
    printedSheets(db, household.id, day.on),
    batchResultsOf(db, household.id, { sessionOn: day.on }),
  ]);
  // What came out teaches the next day, never the one it came out on: its loads stay as they were begun.
  const recipes =
    results.length === 0
      ? picture.kitchen.recipes
      : await recipesOf(db, household.id, { untaughtBy: day.on });
  return {
    day,
    here: sessionHere(day.work, { ...picture.kitchen, recipes }, day.on, setting, recipesOnTheStove(loads)),
    loads,
    sheets,
    results,
  };
}
