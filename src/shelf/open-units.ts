/** What bounds the time an opened unit stands: how fast it is eaten, and how long it keeps cold. */
export interface OpenedUnit {
  /** Days it takes the household to finish one it has opened. */
  readonly finishDays: number;
  /** Keep-cold limit, days; null when the item has none. What is left then is not eaten. */
  readonly keepColdDays: number | null;
}

/**
 * Expected opened units standing at the end of each week.
 *
 * open (units) = units taken in the last `days` days, `days` = the shorter of finish time and keep-cold limit; takings are
 * spread evenly over the days of their week. In a steady state this is Little's law, open = taken a day · days open: Little,
 * J. D. C. (1961), A proof for the queuing formula L = λW, Operations Research 9(3), 383-387.
 *
 * `takenByWeek`: units taken, oldest week first; what was opened before the first week is not known and counts as none.
 * Throws RangeError for days below 0.
 * Example: 1 a week that stands 14 days: 1 open after the first week, 2 from the second on.
 */
export function openUnits(takenByWeek: readonly number[], opened: OpenedUnit): readonly number[] {
  const days = Math.min(opened.finishDays, opened.keepColdDays ?? Number.POSITIVE_INFINITY);
  if (!(days >= 0)) throw new RangeError(`openUnits: expected 0 or more days, got ${days}`);
  return takenByWeek.map((_, last) => {
    let open = 0;
    for (let back = 0; back * 7 < days && back <= last; back += 1) {
      open += (takenByWeek[last - back] ?? 0) * Math.min(1, days / 7 - back);
    }
    return open;
  });
}
