import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../server/app.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { type FirstHour, startHousehold } from '../../server/records/household/start-household.ts';
import type { Recording } from '../../server/records/record.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId, ItemId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { addDays, asDate, type CalendarDate } from '../../shared/week.ts';
import type { HouseholdYear } from '../../src/planning/year/household-year.ts';
import { bringList } from './brought-list.ts';
import { worked } from './outcomes.ts';
import { type Answer, Visitor } from './visitor.ts';

// Juniper Bench, invented: six people high up, weeks that begin on Sunday, a household set up in February that lives on from there.

const zone = 'America/Denver';
export const setUpOn = asDate('2026-02-10');
const reference = loadReferenceTables();

export interface LivedHousehold {
  readonly db: Database;
  readonly householdId: HouseholdId;
  readonly visitor: Visitor;
  /** Writes as somebody does at noon of a day. */
  on(day: CalendarDate | string): Recording;
  /** From now on the clock of the pages shows noon of this day. */
  moveTo(day: CalendarDate | string): void;
  today(): CalendarDate;
  /** The year as it is seen on the day the clock shows. */
  year(): Promise<HouseholdYear>;
  target(item: ItemId | string): Promise<number>;
  bringList(content: string, kind?: 'stock' | 'past use'): Promise<Answer>;
  close(): Promise<void>;
}

/** Noon in Denver, give or take an hour; the same calendar date there and in UTC. */
const noonOf = (day: string): number => Date.parse(`${day}T19:00:00Z`);

export async function livedHousehold(
  preserves: FirstHour['preserves'],
  over: Partial<FirstHour> = {},
): Promise<LivedHousehold> {
  const db = await openDatabase(':memory:');
  let today = setUpOn;
  let ticks = 0;
  const now = () => {
    ticks += 1;
    return noonOf(today) + ticks;
  };
  const { householdId } = worked(
    await startHousehold(
      { db, reference, key: 'first hour', at: now(), today },
      {
        household: {
          name: 'Juniper Bench',
          people: 6,
          timeZone: zone,
          units: 'us',
          weekStartsOn: 'sunday',
          region: 'CO',
        },
        altitudeFt: 5300,
        boilingWater: { size: 'pot' },
        pressure: { size: 'pressure', gauge: 'weighted', checkedOn: null },
        jars: [
          { kind: 'half-pint/regular' as never, onHand: 60 },
          { kind: 'pint/regular' as never, onHand: 120 },
          { kind: 'quart/regular' as never, onHand: 60 },
        ],
        lids: 240,
        preserves,
        sourceKind: 'market',
        time: { sessionsPerWeek: 1, hoursPerSession: 5 },
        fund: { now: asCents(20_000), weekly: asCents(2000) },
        ...over,
      },
    ),
  );
  const app: FastifyInstance = await buildApp({ db, reference, now });
  await app.ready();
  const visitor = new Visitor(app);
  const year = () => loadPlanningYear(db, householdId, today, reference);
  return {
    db,
    householdId,
    visitor,
    on: (day) => {
      ticks += 1;
      return {
        db,
        householdId,
        key: `somebody writes ${ticks}`,
        at: noonOf(day) + ticks,
        today: asDate(day),
      };
    },
    moveTo: (day) => {
      today = asDate(day);
    },
    today: () => today,
    year,
    target: async (item) => {
      const target = (await year()).targetByItem.get(item as ItemId);
      if (!target) throw new Error(`expected a target of ${item}; found none`);
      return target.units;
    },
    bringList: (content, kind) => bringList(visitor, content, kind),
    close: async () => {
      await app.close();
      await db.destroy();
    },
  };
}

/** Days from one to another, every so many. */
export function daysEvery(from: CalendarDate, until: CalendarDate, step: number): CalendarDate[] {
  const days: CalendarDate[] = [];
  for (let day = from; day < until; day = addDays(day, step)) days.push(day);
  return days;
}
