import { DateTime } from 'luxon';
import { type CalendarDate, dateInZone } from '../../../shared/week.ts';
import type { LocalDateTime } from '../../household/begun.ts';
import { civilHours, civilSpans, inBoth, joined, type Span } from '../day/civil-spans.ts';
import type { RecipeStage } from './recipe-stages.ts';
import { fillingHours, instantOf, mayGoUnsaid, oneFigureGraceHours } from './stages-done.ts';

/** The newest stage written down of a batch. */
export interface PathDone {
  readonly stage: RecipeStage;
  readonly begunAt: LocalDateTime;
}

/** Work and the time in which it is to be done, on one day. Instants are UTC milliseconds. */
export interface TimedStage extends Span {
  readonly stage: RecipeStage;
}

export interface WorkTimes {
  readonly work: readonly TimedStage[];
  readonly fillAt: number;
}

/** When jars may be filled at all; open where the source prints no upper limit. */
export interface FillTimes {
  readonly from: number;
  readonly to: number;
  readonly isOpen: boolean;
  /** The days of it on which the hours allow filling. */
  readonly days: readonly CalendarDate[];
}

/**
 * In which hours work is asked for: `civil`, or `any` where something begun at an odd time would be lost otherwise.
 */
export type HoursAsked = 'civil' | 'any';

interface PathAsked {
  /** One way, from first to last. */
  readonly path: readonly RecipeStage[];
  /** Null while nothing is written down. */
  readonly done: PathDone | null;
  /** The day and time for which jars are wanted. */
  readonly load: { readonly on: CalendarDate; readonly at: string };
  readonly timeZone: string;
  /** Nothing is asked for before this time; null: looked at as if it were still to come. */
  readonly from: LocalDateTime | null;
  readonly hours: HoursAsked;
}

const hourMs = 3_600_000;
const minuteMs = 60_000;
const dayMs = 24 * hourMs;
/** A load is not begun later than this hour of the afternoon; judged, no source. */
const latestFillingHour = 18;
/** So many hours of a day are enough to fit a stage in; judged, no source. */
const comfortableHours = 4;
const stepMs = 15 * minuteMs;
/** Without a printed upper limit so many days are looked at. */
const openDays = 60;
/** Whatever the rhythm of a recipe's waits within the day, it repeats by then. */
const daysToBegin = 3;

/** What has to be written down before the jars are filled: what waits, and what names a way. */
const isAsked = (stage: RecipeStage): boolean => !mayGoUnsaid(stage) || stage.way !== null;

/** What is still to do: first only what must be written down, then also what may be, the filling last. */
const remaining = (path: readonly RecipeStage[], done: PathDone | null): readonly RecipeStage[][] => {
  const after = path.filter(({ position }) => position > (done?.stage.position ?? 0));
  const asked = after.filter((stage) => isAsked(stage) || stage === path.at(-1));
  return asked.length === after.length ? [asked] : [asked, after];
};

const mostMs = ({ leastHours, mostHours }: RecipeStage): number => {
  if (mostHours === null) return leastHours * hourMs + openDays * dayMs;
  return (mostHours + (mostHours === leastHours ? oneFigureGraceHours : 0)) * hourMs;
};

const dayStart = (instant: number, days: number, zone: string): number =>
  DateTime.fromMillis(instant, { zone }).startOf('day').plus({ days }).toMillis();
const dayEnd = (instant: number, days: number, zone: string): number =>
  DateTime.fromMillis(instant, { zone }).endOf('day').plus({ days }).startOf('minute').toMillis();
const daysOf = (hours: number): number => hours / 24;

/** When what follows a stage may begin, the stage being done at some time in the spans. */
const after = (stage: RecipeStage, spans: readonly Span[], zone: string): readonly Span[] =>
  spans.map(({ from, to }) =>
    stage.counted === 'date'
      ? {
          from: dayStart(from, daysOf(stage.leastHours), zone),
          to: dayEnd(to, daysOf(stage.mostHours ?? stage.leastHours + 24 * openDays), zone),
        }
      : { from: from + stage.leastHours * hourMs, to: to + mostMs(stage) },
  );

/** When a stage may be done so that what follows can be done at some time in the spans. */
const before = (stage: RecipeStage, spans: readonly Span[], zone: string): readonly Span[] =>
  spans.map(({ from, to }) =>
    stage.counted === 'date'
      ? {
          from: dayStart(from, -daysOf(stage.mostHours ?? stage.leastHours + 24 * openDays), zone),
          to: dayEnd(to, -daysOf(stage.leastHours), zone),
        }
      : { from: from - mostMs(stage), to: to - stage.leastHours * hourMs },
  );

const startOfDay = (on: CalendarDate, zone: string): number => instantOf(`${on}T00:00`, zone).toMillis();
const always: Span = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };

/** A chain that reached its filling already: the jars are filled within the working day. */
const filledFrom = ({ path, done, timeZone }: Pick<PathAsked, 'path' | 'done' | 'timeZone'>): Span | null => {
  if (done === null || done.stage !== path.at(-1)) return null;
  const from = instantOf(done.begunAt, timeZone).toMillis();
  return { from, to: from + fillingHours * hourMs };
};

const workIn = (spans: readonly Span[], hours: HoursAsked, zone: string): readonly Span[] =>
  hours === 'any' ? joined(spans) : civilSpans(spans, zone);
const floorOf = (from: LocalDateTime | null, zone: string): Span =>
  from === null ? always : { ...always, from: instantOf(from, zone).toMillis() };

/**
 * When jars of a batch may be filled by what is written down of it, each stage still to do being done in the hours asked;
 * for one that is not begun, the soonest if it is begun at `from` or within three days. Null when some wait can no longer
 * be as printed.
 */
export const fillTimes = (
  path: readonly RecipeStage[],
  done: PathDone | null,
  { from, hours, timeZone }: Pick<PathAsked, 'from' | 'hours' | 'timeZone'>,
): FillTimes | null => {
  const floor = floorOf(from, timeZone);
  const filled = filledFrom({ path, done, timeZone });
  if (filled !== null) return timesOf(inBoth([filled], [floor]), { isOpen: false, hours: 'any', timeZone });
  if (done === null && from === null) return null;
  const plans = done === null ? remaining(path, done).slice(0, 1) : remaining(path, done);
  const ends = plans.map((stages) => {
    const begunAt = done === null ? 0 : instantOf(done.begunAt, timeZone).toMillis();
    let spans: readonly Span[] =
      done === null
        ? [{ from: floor.from, to: floor.from + daysToBegin * dayMs - minuteMs }]
        : after(done.stage, [{ from: begunAt, to: begunAt }], timeZone);
    for (const stage of stages.slice(0, -1))
      spans = after(stage, workIn(inBoth(joined(spans), [floor]), hours, timeZone), timeZone);
    const waits = [...(done === null ? [] : [done.stage]), ...stages.slice(0, -1)];
    return { spans, isOpen: waits.some(({ mostHours }) => mostHours === null) };
  });
  const all = inBoth(joined(ends.flatMap(({ spans }) => spans)), [floor]);
  const isOpen = ends.some((end) => end.isOpen && end.spans.length > 0);
  return timesOf(all, { isOpen, hours, timeZone });
};

const fillingHoursOfDay = { from: civilHours.from, to: latestFillingHour };

function timesOf(
  spans: readonly Span[],
  { isOpen, hours, timeZone }: { isOpen: boolean; hours: HoursAsked; timeZone: string },
): FillTimes | null {
  const [first] = spans;
  const last = spans.at(-1);
  if (first === undefined || last === undefined) return null;
  const wholeDays = { from: 0, to: 24 };
  const days = civilSpans(spans, timeZone, hours === 'any' ? wholeDays : fillingHoursOfDay).map((span) =>
    dateInZone(span.from, timeZone),
  );
  return days.length === 0 ? null : { from: first.from, to: last.to, isOpen, days: [...new Set(days)] };
}

/**
 * When each stage still to do is done so that jars are filled at the wanted time, or as near to it as that day allows
 * (later rather than sooner); null where no hours of that day reach. Each stage has one stretch of one day, the
 * latest day with some hours to do it in; within it any time will do, and what follows is worked out anew from it.
 */
export const daysOfWork = (asked: PathAsked): WorkTimes | null => {
  const { load, timeZone } = asked;
  const wanted = instantOf(`${load.on}T${load.at}`, timeZone).toMillis();
  const filled = filledFrom(asked);
  if (filled !== null) {
    const day = startOfDay(load.on, timeZone);
    const [span] = inBoth([filled], [{ from: day, to: dayEnd(day, 0, timeZone) }]);
    return span === undefined ? null : { work: [], fillAt: span.from };
  }
  for (const stages of remaining(asked.path, asked.done)) {
    const fillAt = nearestFilling(stages, asked, wanted);
    const sets = fillAt === null ? null : feasible(stages, asked, { from: fillAt, to: fillAt });
    if (fillAt === null || sets === null) continue;
    return { work: chosenTimes(stages, sets, asked), fillAt };
  }
  return null;
};

function nearestFilling(stages: readonly RecipeStage[], asked: PathAsked, wanted: number): number | null {
  const { load, timeZone } = asked;
  const isFeasible = (from: number, to: number): boolean =>
    from <= to && feasible(stages, asked, { from, to }) !== null;
  if (isFeasible(wanted, wanted)) return wanted;
  const day = DateTime.fromISO(load.on, { zone: timeZone });
  const isAnyHour = asked.hours === 'any';
  const latest = (isAnyHour ? day.endOf('day') : day.set({ hour: latestFillingHour })).toMillis();
  if (isFeasible(wanted, latest))
    for (let time = wanted + stepMs; time <= latest; time += stepMs) if (isFeasible(time, time)) return time;
  const soonest = (isAnyHour ? day : day.set({ hour: civilHours.from })).toMillis();
  if (isFeasible(soonest, wanted))
    for (let time = wanted - stepMs; time >= soonest; time -= stepMs) if (isFeasible(time, time)) return time;
  return null;
}

/** For each stage, the filling last, every time from which the filling can be reached; null where there is none. */
function feasible(
  stages: readonly RecipeStage[],
  { done, timeZone, from, hours }: PathAsked,
  filling: Span,
): readonly (readonly Span[])[] | null {
  const floor = floorOf(from, timeZone);
  const sets: (readonly Span[])[] = [inBoth([filling], [floor])];
  for (const stage of stages.slice(0, -1).toReversed()) {
    const next = sets[0] ?? [];
    if (next.length === 0) return null;
    sets.unshift(workIn(inBoth(joined(before(stage, next, timeZone)), [floor]), hours, timeZone));
  }
  if (done !== null) {
    const begunAt = instantOf(done.begunAt, timeZone).toMillis();
    sets[0] = inBoth(sets[0] ?? [], after(done.stage, [{ from: begunAt, to: begunAt }], timeZone));
  }
  return (sets[0] ?? []).length === 0 ? null : sets;
}

function chosenTimes(
  stages: readonly RecipeStage[],
  sets: readonly (readonly Span[])[],
  { timeZone }: PathAsked,
): readonly TimedStage[] {
  const times: TimedStage[] = [];
  let window: readonly Span[] = [always];
  for (const [at, stage] of stages.slice(0, -1).entries()) {
    const span = comfortable(inBoth(sets[at] ?? [], window));
    if (span === undefined) break;
    times.push({ stage, ...span });
    const middle = span.from + Math.floor((span.to - span.from) / 2 / stepMs) * stepMs;
    window = after(stage, [{ from: middle, to: middle }], timeZone);
  }
  return times;
}

/** The latest day with hours enough, or the one with most. */
const comfortable = (spans: readonly Span[]): Span | undefined => {
  const length = ({ from, to }: Span): number => to - from;
  const roomy = spans.filter((span) => length(span) >= comfortableHours * hourMs);
  if (roomy.length > 0) return roomy.at(-1);
  const most = Math.max(...spans.map(length));
  return spans.findLast((span) => length(span) === most);
};
