import { entry } from '../lookup.ts';

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

/** One item's shelf as it stands while it is played. */
export interface StandingShelf {
  /** Takes what is wanted in a week, units; returns what was missed of it. Weeks are played in their order. */
  take(week: number, wanted: number): number;
  /** Ready units left. */
  readyIn(week: number): number;
  /** Of these, past best quality. */
  olderIn(week: number): number;
}

/** Stands cohorts on a shelf: taken with the earliest best-quality date first, never before they are ready. */
export function standShelf(cohorts: readonly ShelfCohort[]): StandingShelf {
  const standing = cohorts.toSorted(
    (one, other) => one.olderFromWeek - other.olderFromWeek || one.readyWeek - other.readyWeek,
  );
  const left = Float64Array.from(standing, ({ units }) => units);
  const leftOf = (counts: (cohort: ShelfCohort) => boolean) =>
    standing.reduce((sum, cohort, at) => (counts(cohort) ? sum + entry(left, at, 'left') : sum), 0);
  /** Of the cohorts before this one nothing is left. */
  let begun = 0;
  return {
    take: (week, wanted) => {
      let open = wanted;
      for (let at = begun; at < left.length && open > 0; at += 1) {
        const units = entry(left, at, 'left');
        if (units > 0 && entry(standing, at, 'standing').readyWeek <= week) {
          const taken = Math.min(open, units);
          left[at] = units - taken;
          open -= taken;
        }
        if (at === begun && left[at] === 0) begun += 1;
      }
      return open < 1e-9 ? 0 : open;
    },
    readyIn: (week) => leftOf(({ readyWeek }) => readyWeek <= week),
    olderIn: (week) => leftOf(({ readyWeek, olderFromWeek }) => readyWeek <= week && olderFromWeek <= week),
  };
}

/** Plays expected use against cohorts, week by week. */
export function playShelf(useByWeek: readonly number[], cohorts: readonly ShelfCohort[]): PlayedShelf {
  const shelf = standShelf(cohorts);
  const weeks = useByWeek.map((use, week) => {
    const missed = shelf.take(week, use);
    return { taken: use - missed, missed, stock: shelf.readyIn(week), older: shelf.olderIn(week) };
  });
  return {
    takenByWeek: weeks.map(({ taken }) => taken),
    missedByWeek: weeks.map(({ missed }) => missed),
    stockByWeek: weeks.map(({ stock }) => stock),
    olderByWeek: weeks.map(({ older }) => older),
  };
}
