/** Units of one item that came together and share one best-quality date. */
export interface ShelfCohort {
  /** May be taken from this week on. */
  readonly readyWeek: number;
  /** Counts as older at the end of this week and later. */
  readonly olderFromWeek: number;
  readonly units: number;
}

/** One item's shelf, week by week, units. */
export interface PlayedShelf {
  readonly takenByWeek: readonly number[];
  readonly missedByWeek: readonly number[];
  /** Ready units at the week's end. */
  readonly stockByWeek: readonly number[];
  readonly olderByWeek: readonly number[];
}

/** Plays expected use against cohorts: earliest best-quality date first, never before it is ready. */
export function playShelf(useByWeek: readonly number[], cohorts: readonly ShelfCohort[]): PlayedShelf {
  const standing = [...cohorts]
    .sort((one, other) => one.olderFromWeek - other.olderFromWeek || one.readyWeek - other.readyWeek)
    .map((cohort) => ({ ...cohort, left: cohort.units }));
  const weeks = useByWeek.map((use, week) => {
    const ready = standing.filter(({ readyWeek }) => readyWeek <= week);
    let open = use;
    for (const cohort of ready) {
      const taken = Math.min(open, cohort.left);
      cohort.left -= taken;
      open -= taken;
    }
    const left = (of: typeof ready) => of.reduce((sum, cohort) => sum + cohort.left, 0);
    return {
      taken: use - open,
      missed: open < 1e-9 ? 0 : open,
      stock: left(ready),
      older: left(ready.filter(({ olderFromWeek }) => olderFromWeek <= week)),
    };
  });
  return {
    takenByWeek: weeks.map(({ taken }) => taken),
    missedByWeek: weeks.map(({ missed }) => missed),
    stockByWeek: weeks.map(({ stock }) => stock),
    olderByWeek: weeks.map(({ older }) => older),
  };
}
