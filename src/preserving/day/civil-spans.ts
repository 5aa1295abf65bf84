import { addDays, dateInZone, hourOfDayIn, startOfDayIn } from '../../../shared/week.ts';

/** Hours at which somebody may be asked to do something in the kitchen, also by a jar; common practice, no source. */
export const civilHours = { from: 7, to: 21 } as const;

/** A stretch of time, both ends included. UTC milliseconds. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What two lots of spans have in common, in order. */
export const inBoth = (some: readonly Span[], others: readonly Span[]): readonly Span[] =>
  some.flatMap((one) =>
    others.flatMap((other) => {
      const span = { from: Math.max(one.from, other.from), to: Math.min(one.to, other.to) };
      return span.from <= span.to ? [span] : [];
    }),
  );

/** The same time, spans that touch made one, in order. */
export const joined = (spans: readonly Span[]): readonly Span[] => {
  const done: Span[] = [];
  for (const span of spans.toSorted((one, other) => one.from - other.from)) {
    const last = done.at(-1);
    if (last !== undefined && span.from <= last.to)
      done[done.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
    else done.push(span);
  }
  return done;
};

/** The civil hours within some spans, day by day: a night between is left out. */
export const civilSpans = (
  spans: readonly Span[],
  timeZone: string,
  hours: { readonly from: number; readonly to: number } = civilHours,
): readonly Span[] =>
  joined(spans).flatMap((span) => {
    const civil: Span[] = [];
    if (!Number.isFinite(span.from)) return civil;
    for (
      let date = dateInZone(span.from, timeZone);
      startOfDayIn(date, timeZone) <= span.to;
      date = addDays(date, 1)
    ) {
      const from = Math.max(span.from, hourOfDayIn(date, hours.from, timeZone));
      const to = Math.min(span.to, hourOfDayIn(date, hours.to, timeZone));
      if (from <= to) civil.push({ from, to });
    }
    return civil;
  });
