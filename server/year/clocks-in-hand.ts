import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { isWrittenDown } from '../../src/preserving/day/begun-batches.ts';
import { recipesOnTheStove } from '../../src/preserving/day/loads-of-day.ts';
import { type Instant, readClock } from '../../src/preserving/day/process-clock.ts';
import { batchesHere, type CannedHere, type LoadHere } from '../../src/preserving/day/session-here.ts';
import { phaseOf } from '../../src/preserving/sheet/step-phase.ts';
import type { Database } from '../database/database.ts';
import { batchResultsOf } from '../queries/canning/batch-results.ts';
import { canningSessionOn, loadsOfDay } from '../queries/canning/canning-sessions.ts';
import { itemsOf } from '../queries/household/items.ts';
import { cannersOf, kitchenHoursOf } from '../queries/household/kitchen.ts';
import { recipesOf } from '../queries/household/recipes.ts';
import { preparationsOf } from './preparations.ts';

/** The clock of a canner load that runs, or whose time is up and nothing was done since. */
export interface ClockInHand {
  readonly on: CalendarDate;
  readonly name: string;
  readonly canned: CannedHere;
  readonly load: LoadHere;
  /** By the clock of the wall, UTC milliseconds. */
  readonly doneAt: number;
  /** 0 once the time is up. */
  readonly remainingMs: number;
  readonly isDoubted: boolean;
}

/** No load is processed longer; a clock that was started before, and forgotten, is nobody's any more. */
const startedWithinMs = 24 * 3_600_000;
/** How long a time that is up is still called out. */
const calledOutMs = 30 * 60_000;

/** The clocks in hand in a household; one look at the file where none was started lately. */
export async function clocksInHand(
  db: Database,
  household: Household,
  reference: ReferenceTables,
  now: Instant,
): Promise<readonly ClockInHand[]> {
  const days = await db
    .selectFrom('load_clock_event')
    .select('session_on')
    .distinct()
    .where('household_id', '=', household.id)
    .where('kind', '=', 'started')
    .where('at', '>', now.at - startedWithinMs)
    .execute();
  const clocks = await Promise.all(
    days.map(({ session_on: on }) => clocksOn(db, household, reference, on as CalendarDate, now)),
  );
  return clocks.flat();
}

async function clocksOn(
  db: Database,
  household: Household,
  reference: ReferenceTables,
  on: CalendarDate,
  now: Instant,
): Promise<readonly ClockInHand[]> {
  const [session, loads, items, recipes, canners, hours, preparations, results] = await Promise.all([
    canningSessionOn(db, household.id, on),
    loadsOfDay(db, household.id, on),
    itemsOf(db, household.id),
    recipesOf(db, household.id, { untaughtBy: on }),
    cannersOf(db, household.id),
    kitchenHoursOf(db, household.id),
    preparationsOf(db, household.id),
    batchResultsOf(db, household.id, { sessionOn: on }),
  ]);
  if (session === null) return [];
  const kitchen = { household, canners, items, recipes, hours, reference, preparations, now: now.at };
  const written = new Set(
    session.work.filter((made) => isWrittenDown(made, results)).map(({ recipeId }) => recipeId),
  );
  return batchesHere(session.work, kitchen, on, session.setting, recipesOnTheStove(loads)).flatMap(
    ({ canned: asked, item, recipe }) => {
      if (asked?.ok !== true) return [];
      const canned = asked.value;
      return canned.loads.flatMap((load): ClockInHand[] => {
        const clock = readClock(loads.clockByLoad.get(load.key) ?? [], canned.schedule.minutes, now);
        if (clock.doneAt === null) return [];
        const ticked = loads.tickedByLoad.get(load.key);
        const isSeenTo =
          written.has(recipe.id) ||
          canned.steps.some(({ key }, at) => phaseOf(canned.steps, at) === 'after' && ticked?.has(key));
        if (clock.state === 'done' && (isSeenTo || now.at - clock.doneAt > calledOutMs)) return [];
        return [
          {
            on,
            name: item.name,
            canned,
            load,
            doneAt: clock.doneAt,
            remainingMs: clock.state === 'done' ? 0 : Math.max(1, clock.remainingMs),
            isDoubted: clock.doubt !== null,
          },
        ];
      });
    },
  );
}
