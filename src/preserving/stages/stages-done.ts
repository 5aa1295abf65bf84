import { DateTime } from 'luxon';
import { counted } from '../../../shared/counting.ts';
import { remembering } from '../../../shared/remembering.ts';
import type { BegunStage, LocalDateTime } from '../../household/begun.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from '../refusal.ts';
import { type RecipeStage, stagesOfFood, stagesOfWay, waysOf } from './recipe-stages.ts';
import type { StageAnswer, StageQuestion } from './stage-question.ts';

/** When the stage after a wait may begin; `until` is null where the source prints no upper limit. */
export interface StageWindow {
  readonly from: LocalDateTime;
  readonly until: LocalDateTime | null;
}

/** What can be begun next, in each printed way that is still open. */
export interface NextStage extends StageWindow {
  readonly stage: RecipeStage;
  /** At this stage the jars are filled and processed. */
  readonly isLast: boolean;
}

/** One printed figure is the time meant, not a limit to the minute; so many hours more are still that time. Judged, no source. */
export const oneFigureGraceHours = 1;
/** Once a pot is drained for its jars it goes into the canner the same working day, load after load. Judged, no source. */
export const fillingHours = 12;
const hoursPerDay = 24;
const minuteFormat = "yyyy-MM-dd'T'HH:mm";
/** Where nobody says where the kitchen stands, its clock never changes. */
const steadyClock = 'utc';

export const instantOf = (time: LocalDateTime, zone: string): DateTime => DateTime.fromISO(time, { zone });
const localOf = (instant: DateTime): LocalDateTime => instant.toFormat(minuteFormat);

/** The kitchen's clock at an instant, milliseconds since 1970. */
export const localDateTime = (instant: number, timeZone: string): LocalDateTime =>
  localMinute(Math.floor(instant / msInMinute), timeZone);

const msInMinute = 60_000;
const localMinute = remembering(
  (minute: number, timeZone: string): LocalDateTime =>
    localOf(DateTime.fromMillis(minute * msInMinute, { zone: timeZone })),
  { keyOf: (minute, timeZone) => `${minute} ${timeZone}`, most: 1000 },
);

/** `Aug 12, 2026, 9:00 PM` */
const localTimeWords = (time: LocalDateTime): string =>
  instantOf(time, steadyClock).setLocale('en-US').toFormat('LLL d, yyyy, h:mm a');

/**
 * When the stage after this one may begin, the stage having been done at a time. Hours are hours that pass, also in a
 * night in which clocks change; a wait by the date holds at any hour of its day.
 */
const windowAfter = (
  stage: RecipeStage,
  begunAt: LocalDateTime,
  timeZone: string = steadyClock,
): StageWindow => {
  const begun = instantOf(begunAt, timeZone);
  const { leastHours, mostHours } = stage;
  if (stage.counted === 'date') {
    const day = (hours: number) => begun.startOf('day').plus({ days: hours / hoursPerDay });
    return {
      from: localOf(day(leastHours)),
      until: mostHours === null ? null : localOf(day(mostHours).endOf('day')),
    };
  }
  const after = (hours: number) => begun.plus({ hours });
  const grace = mostHours === leastHours ? oneFigureGraceHours : 0;
  return {
    from: localOf(after(leastHours)),
    until: mostHours === null ? null : localOf(after(mostHours + grace)),
  };
};

/** The way that was taken; undefined while none is chosen although several are printed, or when an unknown one is named. */
export const wayTaken = (
  stages: readonly RecipeStage[],
  begun: readonly BegunStage[],
): string | null | undefined => {
  const ways = waysOf(stages);
  if (ways.length === 1) return ways[0];
  const named = [...new Set(begun.flatMap(({ way }) => (way === null ? [] : [way])))];
  const [one] = named;
  return named.length === 1 && one !== undefined && ways.includes(one) ? one : undefined;
};

/** Nobody need write down what is done and followed at once. */
export const mayGoUnsaid = ({ leastHours }: RecipeStage): boolean => leastHours === 0;

const inOrder = (begun: readonly BegunStage[]): readonly BegunStage[] =>
  [...begun].sort((one, other) => one.position - other.position);

/**
 * What may be begun next, of what was begun already: the stages up to and including the first that must be written
 * down, in each way still open. Times lie in the past or the future; nothing here knows the time.
 */
export const nextStages = (
  stages: readonly RecipeStage[],
  begun: readonly BegunStage[],
  timeZone?: string,
): readonly NextStage[] => {
  const taken = wayTaken(stages, begun);
  const ways = taken === undefined ? (begun.length === 0 ? waysOf(stages) : []) : [taken];
  const seen = new Set<RecipeStage>();
  return ways.flatMap((way) => {
    const path = stagesOfWay(stages, way);
    const done = inOrder(begun).at(-1);
    const before = path.find(({ position }) => position === done?.position);
    const window =
      before === undefined || done === undefined
        ? { from: '', until: null }
        : windowAfter(before, done.begunAt, timeZone);
    const next: NextStage[] = [];
    for (const stage of path) {
      if (stage.position <= (done?.position ?? 0)) continue;
      if (!seen.has(stage)) next.push({ ...window, stage, isLast: stage === path.at(-1) });
      seen.add(stage);
      if (!mayGoUnsaid(stage)) break;
    }
    return next;
  });
};

const notBegun = (stage: RecipeStage, words: string): Refusal =>
  refusal(
    'stage-not-begun',
    'stages',
    words,
    stage.source,
    'Begin it and write down when. This batch cannot go into a canner until it has waited long enough.',
  );

const tooShort = (stage: RecipeStage, { from }: StageWindow): Refusal =>
  refusal(
    'stage-too-short',
    'stages',
    `“${stage.what}” needs ${hoursWords(stage.leastHours, stage)}: what follows may begin ${localTimeWords(from)} at the earliest`,
    stage.source,
    'Wait until then; nothing can shorten it.',
  );

const tooLong = (stage: RecipeStage, { until }: StageWindow): Refusal =>
  refusal(
    'stage-too-long',
    'stages',
    `“${stage.what}” may last ${hoursWords(stage.mostHours ?? 0, stage)} at most: what follows had to begin by ${localTimeWords(until ?? '')}`,
    stage.source,
    'If it was begun in time, write down when. Otherwise do not can this batch: throw it away and begin a new one.',
  );

/** So many hours, or days where they are many or counted by the date. */
const inUnits = (hours: number, { counted: by }: Pick<RecipeStage, 'counted'>) =>
  by === 'date' || hours >= 3 * hoursPerDay
    ? ({ count: Math.round((hours / hoursPerDay) * 10) / 10, unit: 'day' } as const)
    : ({ count: hours, unit: 'hour' } as const);

/** `12 hours`, `3 days` */
export const hoursWords = (hours: number, stage: Pick<RecipeStage, 'counted'>): string => {
  const { count, unit } = inUnits(hours, stage);
  return counted(count, unit);
};

/** `12 to 18 hours`, `21 to 28 days`; `48 hours to 3 days` where the two are counted differently. */
export const hoursBetweenWords = (
  least: number,
  most: number,
  stage: Pick<RecipeStage, 'counted'>,
): string => {
  const [from, to] = [inUnits(least, stage), inUnits(most, stage)];
  const last = counted(to.count, to.unit);
  return from.unit === to.unit ? `${from.count} to ${last}` : `${counted(from.count, from.unit)} to ${last}`;
};

/** Whether a position may begin at a time, of what was begun before it. */
const stepRuling = (
  path: readonly RecipeStage[],
  before: readonly BegunStage[],
  stage: RecipeStage,
  at: LocalDateTime,
  timeZone?: string,
): Ruling<true> => {
  const last = before.at(-1);
  const unsaid = path.find(
    (one) => one.position > (last?.position ?? 0) && one.position < stage.position && !mayGoUnsaid(one),
  );
  if (unsaid !== undefined) return forbidden(notBegun(unsaid, `You have not written down “${unsaid.what}”`));
  const waited = path.find(({ position }) => position === last?.position);
  if (last === undefined || waited === undefined) return allowed(true);
  const window = windowAfter(waited, last.begunAt, timeZone);
  if (at < window.from) return forbidden(tooShort(waited, window));
  if (window.until !== null && at > window.until) return forbidden(tooLong(waited, window));
  return allowed(true);
};

/** Whether everything written down of a batch holds: one printed way, in order, no wait shorter or longer than printed. */
export const chainRuling = (
  stages: readonly RecipeStage[],
  begun: readonly BegunStage[],
  timeZone?: string,
): Ruling<{ readonly path: readonly RecipeStage[]; readonly done: readonly BegunStage[] }> => {
  const [first] = stages;
  const way = wayTaken(stages, begun);
  if (way === undefined && first !== undefined) {
    const ways = waysOf(stages).join(', or ');
    return forbidden(
      notBegun(first, `You have not written down “${first.what}” in one of the printed ways: ${ways}`),
    );
  }
  const path = stagesOfWay(stages, way);
  const done = inOrder(begun).filter(({ position }) => path.some((stage) => stage.position === position));
  for (const [at, one] of done.entries()) {
    const stage = path.find(({ position }) => position === one.position);
    if (stage === undefined) continue;
    const ruling = stepRuling(path, done.slice(0, at), stage, one.begunAt, timeZone);
    if (!ruling.ok) return ruling;
  }
  return allowed({ path, done });
};

/** Since when the jars of a batch may be filled and processed; null for what is made in one go. */
export interface ReadyForCanner {
  readonly since: LocalDateTime | null;
}

/**
 * Whether the canner may be begun at a time, by what was written down of the batch: every printed stage begun, each wait
 * as long as printed and no longer than the source allows. A recipe without stages is made in one go and always may.
 *
 * `timeZone` is the kitchen's: without it a clock that never changes is assumed. Refusals: `stage-not-begun`,
 * `stage-too-short` (with the earliest moment), `stage-too-long`.
 */
export const stagesRuling = (
  stages: readonly RecipeStage[],
  begun: readonly BegunStage[],
  at: LocalDateTime,
  timeZone?: string,
): Ruling<ReadyForCanner> => {
  if (stages.length === 0) return allowed({ since: null });
  const chain = chainRuling(stages, begun, timeZone);
  if (!chain.ok) return chain;
  const { path, done } = chain.value;
  const last = path.at(-1);
  const waited = done.at(-1);
  if (last === undefined) return allowed({ since: null });
  if (waited?.position === last.position) {
    if (at < waited.begunAt)
      return forbidden(
        notBegun(last, `“${last.what}” is written down for ${localTimeWords(waited.begunAt)}`),
      );
    const until = localOf(instantOf(waited.begunAt, timeZone ?? steadyClock).plus({ hours: fillingHours }));
    if (at > until)
      return forbidden(tooLong({ ...last, mostHours: fillingHours }, { from: waited.begunAt, until }));
    return allowed({ since: waited.begunAt });
  }
  const ruling = stepRuling(path, done, last, at, timeZone);
  if (!ruling.ok) return ruling;
  const stage = path.find(({ position }) => position === waited?.position);
  return allowed({
    since:
      stage === undefined || waited === undefined ? null : windowAfter(stage, waited.begunAt, timeZone).from,
  });
};

/** Whether a stage may be written down as done at a time. */
export const beginRuling = (
  stages: readonly RecipeStage[],
  begun: readonly BegunStage[],
  wanted: BegunStage,
  timeZone?: string,
): Ruling<RecipeStage> => {
  const ways = waysOf(stages);
  const all = [...begun, wanted];
  const stage = stages.find(
    ({ position, way }) => position === wanted.position && (way === null || way === wanted.way),
  );
  const [first] = stages;
  if (stage === undefined || first === undefined || (ways.length > 1 && wayTaken(stages, all) === undefined))
    return forbidden(
      refusal(
        'stage-unknown',
        'stages',
        `This is no stage of this recipe${ways.length > 1 ? ` in the one printed way the batch was begun by (${ways.join(', or ')})` : ''}`,
        first?.source ?? { sourceId: '', locator: '', basis: 'memory' },
        'Load the page again and choose one of those shown.',
      ),
    );
  const later = begun.find(({ position }) => position >= wanted.position);
  if (later !== undefined)
    return forbidden(
      refusal(
        'stage-done-already',
        'stages',
        'This stage, or one after it, is written down already',
        stage.source,
        'Take that back first, if it was a mistake.',
      ),
    );
  const chain = chainRuling(stages, all, timeZone);
  return chain.ok ? allowed(stage) : chain;
};

/**
 * What must have happened before the jars are filled, and whether it has: a stage that was never begun, begun too late or
 * left too long is refused with the earliest or latest time. With `as-planned` it is only told.
 */
export const stagesDone = ({
  tested,
  process,
  prepared,
  at,
  tables,
  timeZone,
}: StageQuestion): Ruling<StageAnswer> => {
  const stages = tested === null ? stagesOfFood(tables, process.foodKey) : tested.stages;
  if (prepared === 'as-planned') return allowed(stages);
  const ruling = stagesRuling(stages, prepared, at, timeZone);
  return ruling.ok ? allowed(stages) : ruling;
};
