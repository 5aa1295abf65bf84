import { crumb } from './first-expired.ts';
import type { ProjectedWeek, RunOutWeek, Spread } from './shelf-projection.ts';

/** Weeks in a row without any, as places in the list of weeks ahead: `from` included, `until` not. */
export interface Gap {
  readonly from: number;
  readonly until: number;
}

type Looked = Pick<ProjectedWeek, 'in' | 'unmet'> & { readonly closing: Pick<Spread, 'p10' | 'p50' | 'p90'> };

/** So little wanted over a whole gap is nothing: what is left of a difference of floating figures. Judged, no source. */
const nothingWanted = 1e-6;

/**
 * When something runs out: the one answer that every page, picture, notice, letter and command reads.
 *
 * A gap begins in the week by whose end the chance that nothing is left passes one half (`p50`; one in ten for `p10`, nine in
 * ten for `p90`) and lasts until the week in which something comes. What comes the very week after leaves no gap, nor does a
 * stretch in which nobody wants any. Oldest first; none for no weeks.
 *
 * Example: 4 jars at one a week and nothing to come leave none at the end of the fourth week: the gap begins there.
 */
export function gapsAt(weeks: readonly Looked[], level: keyof RunOutWeek): readonly Gap[] {
  const gaps: Gap[] = [];
  let from = 0;
  const close = (until: number): void => {
    const wanted = weeks.slice(from, until).reduce((sum, { unmet }) => sum + unmet, 0);
    const comesNext = until - from === 1 && until < weeks.length;
    if (until > from && !comesNext && wanted > nothingWanted) gaps.push({ from, until });
    from = until + 1;
  };
  weeks.forEach((week, at) => {
    if (week.closing[level] > crumb || week.in > crumb) close(at);
  });
  close(weeks.length);
  return gaps;
}

/**
 * By when what stands now is gone, one answer for the shelf as it stands and under a plan: where nothing comes before the
 * plan's first gap, both speak of the same jars, and the gap's week stands. Otherwise as the shelf stands.
 */
export function goneBy(
  asItStands: RunOutWeek,
  planned: readonly Pick<ProjectedWeek, 'week' | 'in'>[],
  gaps: readonly Gap[],
): RunOutWeek {
  const [first] = gaps;
  const p50 = first === undefined ? undefined : planned[first.from]?.week;
  if (first === undefined || p50 === undefined) return asItStands;
  if (planned.slice(0, first.from).some((week) => week.in > crumb)) return asItStands;
  const { p10, p90 } = asItStands;
  return {
    p10: p10 === null || p10 > p50 ? p50 : p10,
    p50,
    p90: p90 === null || p90 > p50 ? p90 : p50,
  };
}

/** The weeks in which an item runs out, by how sure: those in which its first gaps begin; null for none. */
export function runOutOf(weeks: readonly ProjectedWeek[]): RunOutWeek {
  const at = (level: keyof RunOutWeek) => weeks[gapsAt(weeks, level)[0]?.from ?? weeks.length]?.week ?? null;
  return { p10: at('p10'), p50: at('p50'), p90: at('p90') };
}
