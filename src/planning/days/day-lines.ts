import { compare } from '../../../shared/compare.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { StageDay } from '../../preserving/stages/batch-calendar.ts';
import type { BatchDays } from './batch-days.ts';

/** One thing of one day before or after a canner load. */
export type DayLine = {
  readonly key: string;
  readonly on: CalendarDate;
} & (
  | { readonly kind: 'stage'; readonly batch: BatchDays; readonly day: StageDay }
  | { readonly kind: 'load'; readonly batch: BatchDays }
  | { readonly kind: 'ready'; readonly batch: BatchDays }
  /** The seals of all loads of the day before, bands and labels with them. */
  | { readonly kind: 'seals'; readonly batches: readonly BatchDays[] }
);

/** What is done on which day for all batches, by day; seals once a day. Loads that cannot be have no day after. */
export function dayLines(batches: readonly BatchDays[]): readonly DayLine[] {
  return [...batches.flatMap(linesOf), ...sealLines(batches)]
    .toSorted((one, other) => compare(one.time, other.time) || compare(one.line.key, other.line.key))
    .map(({ line }) => line);
}

/** What has an hour goes by it; on the same day what has none comes first. */
interface TimedLine {
  readonly time: string;
  readonly line: DayLine;
}

function linesOf(batch: BatchDays): readonly TimedLine[] {
  const { key, calendar, readyOn } = batch;
  const stages = calendar.before.map((day): TimedLine => {
    const own = { key: `${key}-${day.stage.position}`, on: day.on, batch };
    return { time: day.from, line: { kind: 'stage', ...own, day } };
  });
  const { load } = calendar;
  return [
    ...stages,
    ...(load === null || stages.length === 0
      ? []
      : [{ time: load.at, line: { kind: 'load', key: `${key}-load`, on: load.on, batch } as const }]),
    ...(readyOn === null
      ? []
      : [{ time: readyOn, line: { kind: 'ready', key: `${key}-ready`, on: readyOn, batch } as const }]),
  ];
}

function sealLines(batches: readonly BatchDays[]): readonly TimedLine[] {
  const days = new Set(batches.flatMap(({ sealsOn }) => (sealsOn === null ? [] : [sealsOn])));
  return [...days].map((on) => {
    const sealed = batches.filter(({ sealsOn }) => sealsOn === on);
    return { time: on, line: { kind: 'seals', key: `seals-${on}`, on, batches: sealed } };
  });
}

/** The lines of some days, both included, and whatever should have been done before and is not written down. */
export const linesWithin = (
  lines: readonly DayLine[],
  from: CalendarDate,
  to: CalendarDate,
): readonly DayLine[] => lines.filter((line) => line.on <= to && (line.on >= from || isMissed(line)));

/** Seals stand among the lines only until they are checked. */
const isMissed = (line: DayLine): boolean =>
  line.kind === 'seals' || (line.kind === 'stage' && line.day.state === 'missed');

/** The days before and after the loads of one day, the loads themselves left out. */
export const daysBesides = (batches: readonly BatchDays[], on: CalendarDate): readonly DayLine[] =>
  dayLines(batches.filter(({ plannedOn, calendar }) => plannedOn === on || calendar.load?.on === on)).filter(
    ({ kind }) => kind !== 'load',
  );
