import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { BegunStage, LocalDateTime } from '../../household/begun.ts';
import { type RecipeStage, stagesOfWay, waysOf } from './recipe-stages.ts';
import {
  daysOfWork,
  type FillTimes,
  fillTimes,
  type HoursAsked,
  type PathDone,
  type WorkTimes,
} from './stage-times.ts';
import { chainRuling, localDateTime, wayTaken } from './stages-done.ts';

/** What the calendar of one batch is worked out from. */
export interface BatchAsked {
  /** Every printed way; empty for what is made in one go. */
  readonly stages: readonly RecipeStage[];
  /** The way the household chose; null, or one the source does not print: the first. */
  readonly way: string | null;
  /** What is written down of it, oldest first; empty while it is not begun. */
  readonly begun: readonly BegunStage[];
  /** The day its canner load is planned for and when its jars would be filled then; null when no day is. */
  readonly load: { readonly on: CalendarDate; readonly at: string } | null;
  /** The day from which it is looked at: nothing not yet written down is asked for before it. */
  readonly asOf: CalendarDate;
  /** The time of that day where it matters; missing: its beginning, so that all of the day is still to come. */
  readonly now?: LocalDateTime;
  readonly timeZone: string;
}

/** One stage on its day. */
export interface StageDay {
  readonly stage: RecipeStage;
  readonly on: CalendarDate;
  /** In this time of that day, civil hours both; when it was done, both are that time. */
  readonly from: LocalDateTime;
  readonly until: LocalDateTime;
  /** `due`: today; `missed`: its last time is past and nothing is written down. */
  readonly state: 'done' | 'due' | 'ahead' | 'missed';
}

/**
 * `one go`: nothing before the canner. `to begin`: not begun, and there is time. `on its way`: begun, and ready for its
 * day. `moved`: begun, but not to be filled on the planned day; `load` is the nearest that may be. `not begun in time`:
 * it cannot be filled on the planned day any more. `spoilt`: a wait was longer than printed, or none is written down as
 * printed; nothing of it goes into a canner.
 */
export type BatchState = 'one go' | 'to begin' | 'on its way' | 'moved' | 'not begun in time' | 'spoilt';

/** The days of one batch, before and after its canner load. */
export interface BatchCalendar {
  readonly state: BatchState;
  /** The way it follows; null where only one is printed. */
  readonly way: string | null;
  /** What was done and what is to be done, in order. */
  readonly before: readonly StageDay[];
  /** When its jars may be filled, as near the planned day as its stages allow; null where no day is known or none is left. */
  readonly load: { readonly on: CalendarDate; readonly at: LocalDateTime } | null;
  /** From when to when jars may be filled at all, as far as written down; begun today, when it is not begun. */
  readonly fill: { readonly from: LocalDateTime; readonly until: LocalDateTime | null } | null;
}

/** The way a household's recipe follows: the one it chose if the source prints it, else the first of the source. */
export const wayFollowed = (stages: readonly RecipeStage[], chosen: string | null): string | null => {
  const ways = waysOf(stages);
  return chosen !== null && ways.includes(chosen) ? chosen : ways[0];
};

/**
 * The calendar of one batch: on which day each of its stages is done, and when its jars may be filled. Every screen asks
 * this. Nobody is asked for anything between 9 PM and 7 AM (`civilHours`), and no load is listed before its stages allow:
 * whoever does each stage in the time listed for it has jars that may be filled on the day of the load.
 *
 * A stage stands on the latest day that leaves some hours to do it in. Once it is written down the days after it follow
 * from when it was done, and the load moves if they no longer reach it.
 */
export const batchCalendar = (asked: BatchAsked): BatchCalendar => {
  const { stages, begun, load, timeZone } = asked;
  if (stages.length === 0)
    return {
      state: 'one go',
      way: null,
      before: [],
      load: load === null ? null : { on: load.on, at: `${load.on}T${load.at}` },
      fill: null,
    };
  const way = begun.length === 0 ? wayFollowed(stages, asked.way) : wayTaken(stages, begun);
  const chain = chainRuling(stages, begun, timeZone);
  if (way === undefined || (begun.length > 0 && !chain.ok))
    return { ...spoilt, way: way ?? null, before: daysDone(asked, stages) };
  const path = stagesOfWay(stages, way);
  const done = lastDone(path, begun);
  return done === null ? toBegin(asked, path, way) : onItsWay(asked, path, way, done);
};

const spoilt = { state: 'spoilt', load: null, fill: null } as const;

const lastDone = (path: readonly RecipeStage[], begun: readonly BegunStage[]): PathDone | null => {
  const last = begun.toSorted((one, other) => one.position - other.position).at(-1);
  const stage = path.find(({ position }) => position === last?.position);
  return last === undefined || stage === undefined ? null : { stage, begunAt: last.begunAt };
};

const notBefore = ({ asOf, now }: BatchAsked): LocalDateTime => now ?? `${asOf}T00:00`;

function toBegin(asked: BatchAsked, path: readonly RecipeStage[], way: string | null): BatchCalendar {
  const { load, timeZone } = asked;
  const from = notBefore(asked);
  const soonest = fillTimes(path, null, { from, hours: 'civil', timeZone });
  const fill = soonest === null ? null : { from: localDateTime(soonest.from, timeZone), until: null };
  if (load === null) return { state: 'to begin', way, before: [], load: null, fill };
  const inTime = daysOfWork({ path, done: null, load, timeZone, from, hours: 'civil' });
  if (inTime !== null)
    return {
      state: 'to begin',
      way,
      before: daysAhead(inTime, asked),
      load: { on: load.on, at: localDateTime(inTime.fillAt, timeZone) },
      fill,
    };
  const meant = daysOfWork({ path, done: null, load, timeZone, from: null, hours: 'civil' });
  return {
    state: 'not begun in time',
    way,
    before:
      meant === null
        ? []
        : daysAhead(meant, asked)
            .slice(0, 1)
            .map((day) => ({ ...day, state: 'missed' })),
    load: null,
    fill,
  };
}

function onItsWay(
  asked: BatchAsked,
  path: readonly RecipeStage[],
  way: string | null,
  done: PathDone,
): BatchCalendar {
  for (const hours of ['civil', 'any'] as const) {
    const times = fillTimes(path, done, { from: notBefore(asked), hours, timeZone: asked.timeZone });
    const calendar = times === null ? null : nearestLoad(asked, path, { way, done, times, hours });
    if (calendar !== null) return calendar;
  }
  return { ...spoilt, way, before: [...daysDone(asked, path), ...overdue(asked, path, done)] };
}

function nearestLoad(
  asked: BatchAsked,
  path: readonly RecipeStage[],
  {
    way,
    done,
    times,
    hours,
  }: {
    readonly way: string | null;
    readonly done: PathDone;
    readonly times: FillTimes;
    readonly hours: HoursAsked;
  },
): BatchCalendar | null {
  const { load, timeZone } = asked;
  const wanted = load ?? { on: times.days[0] ?? asked.asOf, at: '09:00' };
  for (const on of nearest(wanted.on, times)) {
    const work = daysOfWork({
      path,
      done,
      load: { on, at: wanted.at },
      timeZone,
      from: notBefore(asked),
      hours,
    });
    if (work === null) continue;
    return {
      state: load !== null && on !== load.on ? 'moved' : 'on its way',
      way,
      before: [...daysDone(asked, path), ...daysAhead(work, asked)],
      load: { on, at: localDateTime(work.fillAt, timeZone) },
      fill: {
        from: localDateTime(times.from, timeZone),
        until: times.isOpen ? null : localDateTime(times.to, timeZone),
      },
    };
  }
  return null;
}

/** The wanted day, the possible days after it, soonest first, and those before it, latest first. */
const nearest = (wanted: CalendarDate, { days, isOpen }: FillTimes): readonly CalendarDate[] => [
  ...(days.includes(wanted) || (isOpen && wanted > (days.at(-1) ?? wanted)) ? [wanted] : []),
  ...days.filter((day) => day > wanted),
  ...days.filter((day) => day < wanted).toReversed(),
];

const dayOf = (instant: number, timeZone: string): CalendarDate =>
  localDateTime(instant, timeZone).slice(0, 10) as CalendarDate;

const daysDone = (
  { begun }: Pick<BatchAsked, 'begun'>,
  stages: readonly RecipeStage[],
): readonly StageDay[] =>
  begun
    .toSorted((one, other) => one.position - other.position)
    .flatMap(({ position, way, begunAt }) => {
      const stage = stages.find((one) => one.position === position && (one.way === null || one.way === way));
      return stage === undefined
        ? []
        : [
            {
              stage,
              on: begunAt.slice(0, 10) as CalendarDate,
              from: begunAt,
              until: begunAt,
              state: 'done' as const,
            },
          ];
    });

const daysAhead = ({ work }: WorkTimes, { asOf, timeZone }: BatchAsked): readonly StageDay[] =>
  work.map(({ stage, from, to }) => {
    const on = dayOf(from, timeZone);
    return {
      stage,
      on,
      from: localDateTime(from, timeZone),
      until: localDateTime(to, timeZone),
      state: on < asOf ? 'missed' : on === asOf ? 'due' : 'ahead',
    };
  });

/** The stage that was to follow what is written down and can no longer. */
function overdue(asked: BatchAsked, path: readonly RecipeStage[], done: PathDone): readonly StageDay[] {
  const { timeZone } = asked;
  const times = fillTimes(path, done, { from: null, hours: 'any', timeZone });
  if (times === null) return [];
  for (const on of times.days) {
    const work = daysOfWork({ path, done, load: { on, at: '09:00' }, timeZone, from: null, hours: 'any' });
    if (work === null) continue;
    return daysAhead(work, asked)
      .slice(0, 1)
      .map((day) => ({ ...day, state: 'missed' }));
  }
  return [];
}

/** When the seals of a day's loads are looked at, the bands come off and the jars are labeled: the day after. */
export const sealDayOf = (load: CalendarDate): CalendarDate => addDays(load, 1);
