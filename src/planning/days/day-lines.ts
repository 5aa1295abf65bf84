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
  const lines = batches.flatMap((batch): DayLine[] => [
    ...batch.calendar.before.map(
      (day): DayLine => ({
        kind: 'stage',
        key: `${batch.key}-${day.stage.position}`,
        on: day.on,
        batch,
        day,
      }),
    ),
    ...(batch.calendar.load === null || batch.calendar.before.length === 0
      ? []
      : [{ kind: 'load' as const, key: `${batch.key}-load`, on: batch.calendar.load.on, batch }]),
    ...(batch.readyOn === null
      ? []
      : [{ kind: 'ready' as const, key: `${batch.key}-ready`, on: batch.readyOn, batch }]),
  ]);
  const sealDays = [...new Set(batches.flatMap(({ sealsOn }) => (sealsOn === null ? [] : [sealsOn])))];
  const seals = sealDays.map(
    (on): DayLine => ({
      kind: 'seals',
      key: `seals-${on}`,
      on,
      batches: batches.filter(({ sealsOn }) => sealsOn === on),
    }),
  );
  return [...lines, ...seals].toSorted(
    (one, other) => compare(timeOf(one), timeOf(other)) || compare(one.key, other.key),
  );
}

/** What has an hour goes by it; on the same day what has none comes first. */
const timeOf = (line: DayLine): string =>
  line.kind === 'stage'
    ? line.day.from
    : line.kind === 'load'
      ? (line.batch.calendar.load?.at ?? line.on)
      : line.on;

/** The lines of some days, both included, and whatever should have been done before and is not written down. */
export const linesWithin = (
  lines: readonly DayLine[],
  from: CalendarDate,
  to: CalendarDate,
): readonly DayLine[] =>
  lines.filter((line) => (line.on >= from && line.on <= to) || (isMissed(line) && line.on <= to));

/** Seals stand among the lines only until they are checked. */
const isMissed = (line: DayLine): boolean =>
  line.kind === 'seals' || (line.kind === 'stage' && line.day.state === 'missed');

/** The days before and after the loads of one day, the loads themselves left out. */
export const daysBesides = (batches: readonly BatchDays[], on: CalendarDate): readonly DayLine[] =>
  dayLines(batches.filter(({ plannedOn, calendar }) => plannedOn === on || calendar.load?.on === on)).filter(
    ({ kind }) => kind !== 'load',
  );
