import { ShelfwardError } from '../../shared/problems.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { addDays, addMonths, asDate, type CalendarDate, yearOf } from '../../shared/week.ts';
import type { DemoSource, YearlySpan } from './demo-data.ts';

/** First day included, last day not. */
export interface DateSpan {
  readonly from: CalendarDate;
  readonly until: CalendarDate;
}

export interface SourceWindow {
  readonly begins: CalendarDate;
  readonly ends: CalendarDate;
  readonly active: DateSpan | null;
}

export const onDay = (year: number, monthDay: string): CalendarDate => asDate(`${year}-${monthDay}`);

/** Calendar years that touch the year before and the year after `asOf`. */
export const yearsAround = (asOf: CalendarDate): readonly number[] => {
  const first = yearOf(addMonths(asOf, -12));
  const last = yearOf(addMonths(asOf, 12));
  return Array.from({ length: last - first + 1 }, (_, step) => first + step);
};

/** The span as it falls in each of the years; one that wraps the year end begins in its year. */
export const spansIn = (years: readonly number[], span: YearlySpan): readonly DateSpan[] =>
  years.map((year) => ({
    from: onDay(year, span.from),
    until: onDay(span.until < span.from ? year + 1 : year, span.until),
  }));

export const isWithin = (date: CalendarDate, spans: readonly DateSpan[]): boolean =>
  spans.some((span) => span.from <= date && date < span.until);

/**
 * When a source gives its crop in a year: the published window of the region, its most active dates, or the household's
 * own narrower dates (a late sowing) where it has some. Published dates include their last day.
 */
export const windowOf = (
  source: DemoSource,
  windows: readonly HarvestWindowRow[],
  region: string,
  year: number,
): SourceWindow => {
  const published = windows.find(
    (row) => row.region === region && row.cropKey.replaceAll('_', '-') === source.crop,
  );
  if (!published) {
    throw new ShelfwardError('demo-crop-unknown', `windowOf: ${region} has no window for ${source.crop}`);
  }
  const from = source.own_from ?? published.mostActiveFrom;
  const until = source.own_until ?? published.mostActiveTo;
  return {
    begins: onDay(year, published.beginsOn),
    ends: addDays(onDay(year, published.endsOn), 1),
    active:
      from === null || until === null
        ? null
        : { from: onDay(year, from), until: addDays(onDay(year, until), 1) },
  };
};
