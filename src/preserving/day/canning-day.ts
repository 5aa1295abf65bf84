import { counted, isOrAre } from '../../../shared/counting.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import {
  type DayBatch,
  type DayKitchen,
  type DayTask,
  kitchenProblems,
  type TaskKind,
} from './day-kitchen.ts';
import { KitchenCalendar, type Patience } from './kitchen-calendar.ts';
import { sharedEvenly } from './shared-hands.ts';

export interface CanningDay {
  /** By start, then batch, pot and load. */
  readonly tasks: readonly DayTask[];
  /** Minutes from the first task to the last jar out of a canner; rest and seal check come after. */
  readonly workMinutes: number;
  /** Batches in the order in which they are worked. */
  readonly order: readonly string[];
}

const longestDayMinutes = 24 * 60;
/** Jars rest undisturbed 12 to 24 hours, and seals are checked then: USDA Complete Guide 1, p1-18 and p1-25. */
const restMinutes = { least: 12 * 60, most: 24 * 60 } as const;
/** Up to so many batches every order is tried; beyond that the order given is kept. */
const mostOrdersTried = 4;
/** How much later a pot may be started if that does not delay its last load, so that it is not kept hot longer. */
const latestCookDelay = 240;
/** Steps in which that later start is tried; nobody puts a pot on by the minute. */
const cookDelayStep = 5;
/** Minutes of people, burners and canners that are looked at for one day; far more than a day that fits needs. */
export const mostMinutesLookedAt = 60_000_000;

/**
 * Places several batches over stove, people and canners so that nothing is used twice at a time: prepare, cook, keep hot
 * until a canner is free, fill, load at once, canner phases in their full length, unload, rest 12–24 hours, check seals.
 * Minutes count from the start of the day; work backwards by starting `workMinutes` before the time to be done.
 *
 * Of up to four batches every order is tried (as long as there is patience) and the shortest day kept, the earlier on a tie. Refuses a kitchen
 * that cannot do it (no such canner, too few burners, nobody), a day longer than 24 hours, and one so crowded that it is not
 * worked out within `mostMinutesLookedAt`.
 *
 * @param patience counts down what was looked at
 */
export const canningDay = (
  kitchen: DayKitchen,
  batches: readonly DayBatch[],
  patience: Patience = { left: mostMinutesLookedAt },
): Outcome<CanningDay> => {
  const problems = kitchenProblems(kitchen, batches);
  if (problems.length > 0) return refused(...problems);
  let best: CanningDay | undefined;
  for (const order of cannersOverfull(kitchen, batches) ? [] : ordersOf(batches)) {
    best = dayInOrder(kitchen, order, best?.workMinutes ?? longestDayMinutes + 1, patience) ?? best;
  }
  if (best) return found({ ...best, tasks: sharedEvenly(best.tasks, kitchen.people) });
  if (patience.left <= 0)
    return refused({
      code: 'day-too-crowded',
      path: ['batches'],
      message: `${counted(batches.length, 'batch')} with ${counted(loadsOf(batches), 'canner load')} ${isOrAre(batches.length)} more than can be laid out for one day. Put fewer on it, or move some to another day.`,
    });
  return refused({
    code: 'day-too-long',
    path: ['batches'],
    message: `${counted(batches.length, 'batch does', 'batches do')} not fit into 24 hours with ${kitchen.people} at work, ${counted(kitchen.burners, 'burner')} and ${counted(kitchen.canners.length, 'canner')}. Move a batch to another day.`,
  });
};

/** Whether some canner alone would run longer than the longest day, so that no order need be tried. */
const cannersOverfull = (kitchen: DayKitchen, batches: readonly DayBatch[]): boolean =>
  kitchen.canners.some((canner) => {
    const minutes = batches
      .filter((batch) => batch.canner === canner)
      .map((batch) => {
        const working = batch.phases.reduce((sum, phase) => sum + phase.minutes, 0);
        return batch.pots * batch.loadsPerPot * (kitchen.loadingMinutes + working + kitchen.unloadingMinutes);
      });
    return minutes.reduce((sum, load) => sum + load, 0) > longestDayMinutes;
  });

const loadsOf = (batches: readonly DayBatch[]): number =>
  batches.reduce((sum, { pots, loadsPerPot }) => sum + pots * loadsPerPot, 0);

const ordersOf = (batches: readonly DayBatch[]): readonly (readonly DayBatch[])[] => {
  if (batches.length > mostOrdersTried) return [batches];
  if (batches.length <= 1) return [batches];
  return batches.flatMap((first, index) =>
    ordersOf(batches.toSpliced(index, 1)).map((rest) => [first, ...rest]),
  );
};

/** The day in this order, or `undefined` when it does not fit or is not shorter than `limitMinutes`. */
const dayInOrder = (
  kitchen: DayKitchen,
  order: readonly DayBatch[],
  limitMinutes: number,
  patience: Patience,
): CanningDay | undefined => {
  let calendar = KitchenCalendar.empty(
    longestDayMinutes,
    { person: kitchen.people, burner: kitchen.burners, canner: kitchen.canners.length },
    patience,
  );
  const tasks: DayTask[] = [];
  for (const batch of order) {
    for (let pot = 1; pot <= batch.pots; pot += 1) {
      const placed = placePot(calendar, kitchen, batch, pot);
      if (!placed || placed.end >= limitMinutes) return undefined;
      calendar = placed.calendar;
      tasks.push(...placed.tasks);
    }
  }
  const workMinutes = Math.max(
    0,
    ...tasks.filter((task) => task.kind === 'unload').map((task) => task.toMinute),
  );
  return { tasks: tasks.toSorted(byStart), workMinutes, order: order.map((batch) => batch.id) };
};

const byStart = (left: DayTask, right: DayTask): number =>
  left.fromMinute - right.fromMinute ||
  left.toMinute - right.toMinute ||
  left.batch.localeCompare(right.batch, 'en') ||
  left.pot - right.pot ||
  (left.load ?? 0) - (right.load ?? 0);

interface Placed {
  readonly calendar: KitchenCalendar;
  readonly tasks: readonly DayTask[];
  readonly end: number;
}

const placePot = (
  calendar: KitchenCalendar,
  kitchen: DayKitchen,
  batch: DayBatch,
  pot: number,
): Placed | undefined => {
  const prepared = placePreparation(calendar, batch, pot);
  if (!prepared) return undefined;
  let best: Placed | undefined;
  let firstStart = 0;
  for (
    let start = prepared.end;
    start < calendar.minutes && calendar.isPatient;
    start += best ? cookDelayStep : 1
  ) {
    if (best && start > firstStart + latestCookDelay) break;
    const placed = placeCooking(prepared.calendar, kitchen, batch, pot, start);
    if (!placed) continue;
    if (best && placed.end > best.end) break;
    if (!best) firstStart = start;
    best = placed;
  }
  return best && { ...best, tasks: [...prepared.tasks, ...best.tasks] };
};

const placePreparation = (calendar: KitchenCalendar, batch: DayBatch, pot: number): Placed | undefined => {
  for (let start = 0; start + batch.prepMinutes <= calendar.minutes && calendar.isPatient; start += 1) {
    const end = start + batch.prepMinutes;
    const person = calendar.freeLane('person', start, end);
    if (person === undefined) continue;
    const after = calendar.copy();
    after.take('person', person, start, end);
    return { calendar: after, end, tasks: [taskOf(batch, pot, 'prepare', start, end, { person })] };
  }
  return undefined;
};

const placeCooking = (
  calendar: KitchenCalendar,
  kitchen: DayKitchen,
  batch: DayBatch,
  pot: number,
  start: number,
): Placed | undefined => {
  const cooked = start + batch.cookMinutes;
  const needsPot = batch.cookMinutes > 0;
  const burner = needsPot ? calendar.freeLane('burner', start, cooked) : undefined;
  const stirrer = batch.stirred ? calendar.freeLane('person', start, cooked) : undefined;
  if (needsPot && (burner === undefined || (batch.stirred && stirrer === undefined))) return undefined;
  const after = calendar.copy();
  const tasks: DayTask[] = [];
  if (burner !== undefined) {
    after.take('burner', burner, start, cooked);
    if (stirrer !== undefined) after.take('person', stirrer, start, cooked);
    tasks.push(taskOf(batch, pot, 'cook', start, cooked, { burner, person: stirrer ?? null }));
  }

  let ready = cooked;
  let end = cooked;
  for (let load = 1; load <= batch.loadsPerPot; load += 1) {
    const placed = placeLoad(after, kitchen, batch, pot, load, ready, burner);
    if (!placed) return undefined;
    tasks.push(...placed.tasks);
    ready = placed.filled;
    end = placed.end;
  }
  return { calendar: after, tasks, end };
};

/** Fills and loads as soon as person, canner, its burner and the hands to unload are free; takes them in `calendar`. */
const placeLoad = (
  calendar: KitchenCalendar,
  kitchen: DayKitchen,
  batch: DayBatch,
  pot: number,
  load: number,
  ready: number,
  potBurner: number | undefined,
): { readonly tasks: readonly DayTask[]; readonly filled: number; readonly end: number } | undefined => {
  const canner = kitchen.canners.indexOf(batch.canner);
  const working = batch.phases.reduce((sum, phase) => sum + phase.minutes, 0);
  for (let fill = ready; fill < calendar.minutes && calendar.isPatient; fill += 1) {
    const filled = fill + batch.fillMinutes;
    // A pot kept hot holds its burner; when that is lost, waiting longer does not help.
    if (potBurner !== undefined && !calendar.isFree('burner', potBurner, ready, filled)) return undefined;
    const startedAt = filled + kitchen.loadingMinutes;
    const done = startedAt + working;
    const end = done + kitchen.unloadingMinutes;
    if (end > calendar.minutes) return undefined;
    if (!calendar.isFree('canner', canner, filled, end)) continue;
    const filler = calendar.freeLane('person', fill, startedAt);
    const unloader = calendar.freeLane('person', done, end);
    if (filler === undefined || unloader === undefined) continue;
    // A canner keeps to its own burner while it can, counted from the far end of the stove; pots from the near end.
    const ownBurner = Math.max(0, kitchen.burners - 1 - canner);
    const stillCooking = load < batch.loadsPerPot ? potBurner : undefined;
    const burner = calendar.freeLaneBut('burner', filled, end, ownBurner, stillCooking);
    if (burner === undefined) continue;

    if (potBurner !== undefined) calendar.take('burner', potBurner, ready, filled);
    calendar.take('burner', burner, filled, end);
    calendar.take('canner', canner, filled, end);
    calendar.take('person', filler, fill, startedAt);
    calendar.take('person', unloader, done, end);
    const inCanner = { canner: batch.canner, burner };
    const phases: DayTask[] = [];
    let from = startedAt;
    for (const phase of batch.phases) {
      phases.push(taskOf(batch, pot, phase.name, from, from + phase.minutes, { load, ...inCanner }));
      from += phase.minutes;
    }
    const keepHot =
      potBurner !== undefined && fill > ready
        ? [taskOf(batch, pot, 'keep-hot', ready, fill, { load, burner: potBurner })]
        : [];
    return {
      filled,
      end,
      tasks: [
        ...keepHot,
        taskOf(batch, pot, 'fill', fill, filled, { load, person: filler, burner: potBurner ?? null }),
        taskOf(batch, pot, 'load', filled, startedAt, {
          load,
          person: filler,
          ...inCanner,
          tickFirst: batch.acidPerJar ? 'acid-per-jar' : null,
        }),
        ...phases,
        taskOf(batch, pot, 'unload', done, end, { load, person: unloader, ...inCanner }),
        taskOf(batch, pot, 'rest', end, end + restMinutes.least, { load }),
        taskOf(batch, pot, 'check-seals', end + restMinutes.least, end + restMinutes.most, { load }),
      ],
    };
  }
  return undefined;
};

const taskOf = (
  batch: DayBatch,
  pot: number,
  kind: TaskKind,
  fromMinute: number,
  toMinute: number,
  uses: Partial<Pick<DayTask, 'load' | 'person' | 'burner' | 'canner' | 'tickFirst'>>,
): DayTask => ({
  kind,
  batch: batch.id,
  pot,
  load: null,
  fromMinute,
  toMinute,
  person: null,
  burner: null,
  canner: null,
  tickFirst: null,
  ...uses,
});
