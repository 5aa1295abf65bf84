import { addDays, type CalendarDate } from '../../shared/week.ts';
import type { Span } from './civil-spans.ts';
import { type RecipeStage, stagesOfWay, waysOf } from './recipe-stages.ts';
import { daysOfWork, fillSpans, type PathDone, type WorkTimes } from './stage-times.ts';
import { type BegunStage, chainRuling, type LocalDateTime, localDateTime, wayTaken } from './stages-done.ts';

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

function toBegin(asked: BatchAsked, path: readonly RecipeStage[], way: string | null): BatchCalendar {
  const { load, asOf, timeZone } = asked;
  const [soonest] = fillSpans(path, null, asOf, timeZone);
  const fill = soonest === undefined ? null : { from: localDateTime(soonest.from, timeZone), until: null };
  if (load === null) return { state: 'to begin', way, before: [], load: null, fill };
  const inTime = daysOfWork({ path, done: null, load, timeZone, from: asOf });
  if (inTime !== null)
    return {
      state: 'to begin',
      way,
      before: daysAhead(inTime, asked),
      load: { on: load.on, at: localDateTime(inTime.fillAt, timeZone) },
      fill,
    };
  const meant = daysOfWork({ path, done: null, load, timeZone, from: null });
  return {
    state: 'not begun in time',
    way,
    before:
      meant === null
        ? []
        : daysAhead(meant, asked)
            .filter(({ state }) => state === 'missed')
            .slice(0, 1),
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
  const { load, asOf, timeZone } = asked;
  const before = daysDone(asked, path);
  const possible = fillSpans(path, done, asOf, timeZone);
  const [first] = possible;
  const last = possible.at(-1);
  if (first === undefined || last === undefined)
    return { ...spoilt, way, before: [...before, ...overdue(asked, path, done)] };
  const fill = {
    from: localDateTime(first.from, timeZone),
    until: last.isOpen ? null : localDateTime(last.to, timeZone),
  };
  const wanted = load ?? { on: dayOf(first.from, timeZone), at: '09:00' };
  const isLater = last.isOpen && wanted.on > dayOf(last.from, timeZone);
  for (const on of [...(isLater ? [wanted.on] : []), ...nearest(wanted.on, possible, timeZone)]) {
    const times = daysOfWork({ path, done, load: { on, at: wanted.at }, timeZone, from: asOf });
    if (times === null) continue;
    return {
      state: load !== null && on !== load.on ? 'moved' : 'on its way',
      way,
      before: [...before, ...daysAhead(times, asked)],
      load: { on, at: localDateTime(times.fillAt, timeZone) },
      fill,
    };
  }
  return { ...spoilt, way, before };
}

/** The wanted day, the possible days after it, soonest first, and those before it, latest first. */
const nearest = (
  wanted: CalendarDate,
  possible: readonly Span[],
  timeZone: string,
): readonly CalendarDate[] => {
  const days = [...new Set(possible.map(({ from }) => dayOf(from, timeZone)))];
  return [
    ...days.filter((day) => day === wanted),
    ...days.filter((day) => day > wanted),
    ...days.filter((day) => day < wanted).toReversed(),
  ];
};

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
function overdue(
  { timeZone }: BatchAsked,
  path: readonly RecipeStage[],
  done: PathDone,
): readonly StageDay[] {
  const next = path.find(({ position, leastHours }) => position > done.stage.position && leastHours > 0);
  const [span] = fillSpans(path, done, null, timeZone);
  if (next === undefined || span === undefined) return [];
  const times = daysOfWork({
    path,
    done,
    load: { on: dayOf(span.from, timeZone), at: '09:00' },
    timeZone,
    from: null,
  });
  const [first] = times?.work ?? [];
  if (first === undefined) return [];
  return [
    {
      stage: first.stage,
      on: dayOf(first.from, timeZone),
      from: localDateTime(first.from, timeZone),
      until: localDateTime(first.to, timeZone),
      state: 'missed',
    },
  ];
}

/** When the seals of a day's loads are looked at, the bands come off and the jars are labelled: the day after. */
export const sealDayOf = (load: CalendarDate): CalendarDate => addDays(load, 1);
