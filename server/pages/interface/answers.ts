import type { FastifyRequest } from 'fastify';
import type { z } from 'zod';
import { addDays, firstOf, weekHolding } from '../../../shared/week.ts';
import type { ItemOnShelf, LotOnShelf } from '../../../src/household/lot.ts';
import { eatSoonDaysOf } from '../../../src/notices/notice.ts';
import { whoIsThere } from '../../../src/planning/days/session-dates.ts';
import { eatFirst } from '../../../src/shelf/eat-first.ts';
import { firstDayOf, formatMoney } from '../../../views/words/format.ts';
import type {
  eatFirstAnswer,
  itemAnswer,
  noticesAnswer,
  shelfAnswer,
  weekAnswer,
} from '../../interface/shapes.ts';
import { kitchenHoursOf } from '../../queries/household/kitchen.ts';
import { noticeSettingsOf } from '../../queries/notices/notice-settings.ts';
import { noticesOfRequest } from '../../records/notices/notices-of-request.ts';
import { whereAndWhen } from '../../words/buying/fetch-words.ts';
import { presentNotice } from '../../words/notice-lines.ts';
import { comesWords, itemOf, type PurchaseWords, purchaseWords } from '../../words/planned-words.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { shelfOfRequest } from '../../year/book-of-year.ts';
import { planNow } from '../shared/plan-now.ts';
import { plannedNames } from '../shared/planned-names.ts';
import { presentStock } from '../shared/present-stock.ts';
import { itemOn, type ShelfPicture, shelfPicture } from '../shared/shelf-picture.ts';
import { errandsThisWeek, weekSummary, workThisWeek } from '../shared/week-in-plan.ts';

// What the interface answers is worked out by what the pages work it out by; nothing is counted here.

type Shelf = z.input<typeof shelfAnswer>;
type Batch = z.input<typeof itemAnswer>['batches'][number];

export async function answerShelf(request: FastifyRequest): Promise<Shelf> {
  const picture = await shelfPicture(request);
  return {
    asOf: request.today,
    household: request.household.name,
    items: picture.shelf.map((item) => shelfItem(item, picture)),
  };
}

export async function answerItem(
  request: FastifyRequest,
  itemId: string,
): Promise<z.input<typeof itemAnswer>> {
  const picture = await shelfPicture(request);
  const item = itemOn(picture.shelf, itemId);
  return { asOf: request.today, ...shelfItem(item, picture), batches: item.lots.map(batchOf) };
}

/** So far units are told apart: the parts of one that a bin or a jar of another size leaves. */
export const exactly = (units: number): number => Math.round(units * 1000) / 1000;

function shelfItem(
  own: ItemOnShelf,
  { outlookByItem, today, reading }: ShelfPicture,
): Shelf['items'][number] {
  const { item, lots, units } = own;
  const outlook = outlookByItem.get(item.id) ?? null;
  const edible = lots.filter(({ setAside }) => setAside === null);
  return {
    id: item.id,
    name: item.name,
    family: item.family,
    keeping: item.keeping,
    unit: item.unit,
    jar: item.usualJar,
    unitsLeft: exactly(units),
    left: amountOf(item, units, reading),
    bestUntil: firstOf(edible.map(({ bestQualityUntil }) => bestQualityUntil)),
    lasts: {
      words: presentStock(own, outlook, today, reading).lasts,
      runsOut: outlook?.runOut.p50 ?? null,
      runsOutEarly: outlook?.runOut.p10 ?? null,
      isShort: (outlook?.gap ?? null) !== null,
      moreFrom: outlook?.nextSupplyWeek ?? null,
    },
  };
}

const batchOf = (lot: LotOnShelf): Batch => ({
  id: lot.id,
  code: lot.batchCode,
  jar: lot.jarKind,
  unitsLeft: exactly(lot.unitsLeft),
  madeOn: lot.madeOn,
  readyFrom: lot.readyFrom,
  bestUntil: lot.bestQualityUntil,
  place: lot.place?.name ?? null,
  setAside: lot.setAside?.reason ?? null,
});

export async function answerEatFirst(request: FastifyRequest): Promise<z.input<typeof eatFirstAnswer>> {
  const { db } = request.server;
  const [shelf, settings] = await Promise.all([
    shelfOfRequest(request),
    noticeSettingsOf(db, request.household.id),
  ]);
  const names = new Map(shelf.map(({ item }) => [item.id, item.name]));
  const lots = shelf.flatMap(({ lots: own }) => own);
  return {
    asOf: request.today,
    batches: eatFirst(lots, request.today, eatSoonDaysOf(settings)).map((lot) => ({
      item: { id: lot.itemId, name: names.get(lot.itemId) ?? lot.itemId },
      ...batchOf(lot),
    })),
  };
}

export async function answerWeek(request: FastifyRequest): Promise<z.input<typeof weekAnswer>> {
  const { household, today, reading, server } = request;
  const [{ plan }, names, hours] = await Promise.all([
    planNow(request),
    plannedNames(request),
    kitchenHoursOf(server.db, household.id),
  ]);
  const inPlan = { today, reading, plan, names, hours };
  const week = weekHolding(today, reading.weekStartsOn);
  const begins = firstDayOf(week, reading);
  return {
    asOf: today,
    week,
    begins,
    ends: addDays(begins, 6),
    plan: plan === null ? 'none' : plan.isOutOfDate ? 'out of date' : 'current',
    summary: weekSummary(inPlan),
    work: workThisWeek(inPlan).map(({ on, minutes, work }) => ({
      on,
      minutes: Math.round(minutes),
      who: [...whoIsThere(inPlan.hours, on)],
      makes: work.map(({ session }) => {
        const item = itemOf(names, session);
        return {
          recipe: session.recipe,
          item: item === null ? null : { id: item.id, name: item.name },
          batches: session.batches,
          comes: comesWords(names, session),
          minutes: Math.round(session.handsOnMinutes),
        };
      }),
    })),
    shopping: errandsThisWeek(inPlan).map(({ on, lines }) => ({
      by: on,
      lines: lines.map(({ purchase, ways }) => ({
        ...wanted(purchaseWords(names, purchase)),
        where: whereAndWhen(purchase, ways, names, today),
        cost: purchase.cost === 0 ? null : formatMoney(purchase.cost, reading),
      })),
    })),
  };
}

const wanted = ({ what, quantity }: PurchaseWords) => ({ what, quantity });

export async function answerNotices(request: FastifyRequest): Promise<z.input<typeof noticesAnswer>> {
  const { today, reading } = request;
  const all = await noticesOfRequest(request);
  return {
    asOf: today,
    notices: all
      .filter(({ state }) => state === 'open')
      .map((notice) => ({
        id: notice.id,
        kind: presentNotice(notice, today, reading).kind,
        words: notice.reason,
        dueOn: notice.dueOn,
      })),
  };
}
