/** A week is strange when it takes more than this much of the fullest week before it, and this many units more, … */
const timesTheFullest = 1.5;
const unitsBeyondTheFullest = 2;
/** What the fullest week is remembered by, from week to week: after two years two fifths of it are forgotten. */
const fullestKept = 0.995;
/** … and lies this many standard deviations above what was expected. */
const deviationsToBeStrange = 3;
/** Weeks after which a strange week is forgotten, a second one later being again a first; more than a year, so that a feast of every year is known again. */
const weeksRemembered = 60;

/** The strange week that is held for an occasion, and how full weeks have been. Changes while weeks are read, oldest first. */
export interface StrangeWeeks {
  fullest: number;
  /** Units beyond what the week taught; 0 while none is held back. */
  heldBack: number;
  weeksSince: number;
}

export const noStrangeWeek = (): StrangeWeeks => ({ fullest: 0, heldBack: 0, weeksSince: 0 });

/** What a week teaches: its units, and whether the strange week before it is now taken for what the item is like. */
export interface Lesson {
  /** Units to learn the rate from. */
  readonly taught: number;
  /** Units the week had beyond that. */
  readonly heldBack: number;
  /** True when what was held back of an earlier week is to be learnt now. */
  readonly believesEarlier: boolean;
}

/** A strange week that comes again after so many weeks comes every year. */
const weeksToBeYearly = 45;

/**
 * Holds back what a week has beyond anything seen before: it then teaches as a heavy-tailed error does, less the farther out it lies,
 * `expected + (3·deviation)² / (taken - expected)`. One feast of 12 jars so lifts a jar a week by 6 %. Of two within a year only the larger is held
 * back, for what happens twice is what the item is like; and one that comes again a year later teaches in full, and so does then the first.
 *
 * `deviation`: standard deviation of the week's count, in units. Returns undefined for a week that is not strange. Changes `weeks`.
 */
export function lessonOf(
  weeks: StrangeWeeks,
  taken: number,
  expected: number,
  deviation: number,
): Lesson | undefined {
  weeks.weeksSince += 1;
  if (weeks.weeksSince > weeksRemembered) weeks.heldBack = 0;
  const beyond = taken - expected;
  const reach = deviationsToBeStrange * deviation;
  const isStrange = beyond > reach && taken > timesTheFullest * weeks.fullest + unitsBeyondTheFullest;
  weeks.fullest *= fullestKept;
  if (!isStrange) {
    weeks.fullest = Math.max(weeks.fullest, taken);
    return undefined;
  }
  const before = weeks.heldBack;
  const tooMuch = beyond - reach ** 2 / beyond;
  const isYearly = before > 0 && weeks.weeksSince >= weeksToBeYearly;
  if (isYearly || tooMuch <= before) {
    if (isYearly) weeks.heldBack = 0;
    weeks.fullest = Math.max(weeks.fullest, taken);
    return { taught: taken, heldBack: 0, believesEarlier: isYearly };
  }
  weeks.heldBack = tooMuch;
  weeks.weeksSince = 0;
  return { taught: taken - tooMuch, heldBack: tooMuch, believesEarlier: before > 0 };
}
