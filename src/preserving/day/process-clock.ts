/** What a clock says that is never set and never goes back: it counts while the machine is on and awake. */
export interface SteadyReading {
  /** The run of the machine in which it counts; readings of two runs cannot be held against each other. */
  readonly run: string;
  /** Milliseconds since that run began. */
  readonly ms: number;
}

/** An instant by the clock of the wall, UTC milliseconds, and by a steady one where there is one. */
export interface Instant {
  readonly at: number;
  readonly steady?: SteadyReading | null;
}

/** What happened to a load's clock, in the order in which it was written down. */
export type ClockEvent =
  | ({ readonly kind: 'started' } & Instant)
  | ({
      readonly kind: 'interrupted';
      readonly why: 'boil-stopped' | 'pressure-dropped' | 'power-cut';
    } & Instant);

/**
 * Why the time of a load is doubted: the wall's clock says more than surely passed (it was set forward, or the machine slept),
 * or less (it was set back).
 */
export interface ClockDoubt {
  readonly kind: 'wall-ahead' | 'wall-behind';
  /** What the two clocks disagree by, milliseconds. */
  readonly byMs: number;
}

export interface ClockReading {
  readonly state: 'not-started' | 'running' | 'interrupted' | 'done';
  /** Whole time still to run, in milliseconds; after an interruption all of it. */
  readonly remainingMs: number;
  /** When it will be done if nothing interrupts it, by the wall's clock as it goes now; `null` while it does not run. */
  readonly doneAt: number | null;
  readonly interruptions: number;
  /** `null` where both clocks agree, or only one is known. */
  readonly doubt: ClockDoubt | null;
}

const minuteMs = 60_000;
/** Clocks are put right by little all the time; judged, no source. */
const clocksAgreeWithinMs = 5000;

interface Passed {
  /** What passed at least, whichever clock is right. */
  readonly sureMs: number;
  readonly doubt: ClockDoubt | null;
}

/** Milliseconds that surely passed: the less of what the two clocks say, so that the longer wait wins. */
function passedBetween(from: Instant, to: Instant): Passed {
  const wall = to.at - from.at;
  if (!from.steady || !to.steady)
    return { sureMs: Math.max(0, wall), doubt: doubtOf(wall, Math.max(0, wall)) };
  // After a restart of the machine only its new run is sure.
  const steady = from.steady.run === to.steady.run ? to.steady.ms - from.steady.ms : to.steady.ms;
  return { sureMs: Math.max(0, Math.min(wall, steady)), doubt: doubtOf(wall, steady) };
}

const doubtOf = (wallMs: number, steadyMs: number): ClockDoubt | null => {
  if (!Number.isFinite(wallMs) || Math.abs(wallMs - steadyMs) <= clocksAgreeWithinMs) return null;
  return { kind: wallMs > steadyMs ? 'wall-ahead' : 'wall-behind', byMs: Math.abs(wallMs - steadyMs) };
};

/**
 * Reads the clock of a load. It starts when a person says the water boils or the pressure stands; an interruption before
 * the end sets it back to zero, and only a new start runs it again, for the whole time. Events after the end change
 * nothing. Where the wall's clock and a steady one disagree the longer wait wins: a load is never done too early.
 *
 * Source: USDA Complete Guide 1, p1-18 and p1-22: restart the timing when the boil stops or the pressure drops.
 */
export const readClock = (events: readonly ClockEvent[], minutes: number, now: Instant): ClockReading => {
  const whole = minutes * minuteMs;
  let started: Instant | null = null;
  let interruptions = 0;
  for (const event of events) {
    if (started !== null && passedBetween(started, event).sureMs >= whole) break;
    if (event.kind === 'started') started ??= event;
    else if (started !== null) {
      started = null;
      interruptions += 1;
    }
  }
  if (started === null) {
    return {
      state: interruptions > 0 ? 'interrupted' : 'not-started',
      remainingMs: whole,
      doneAt: null,
      interruptions,
      doubt: null,
    };
  }
  const { sureMs, doubt } = passedBetween(started, now);
  const remainingMs = Math.max(0, whole - sureMs);
  return {
    state: remainingMs === 0 ? 'done' : 'running',
    remainingMs,
    doneAt: doubt === null ? started.at + whole : now.at + whole - sureMs,
    interruptions,
    doubt,
  };
};
