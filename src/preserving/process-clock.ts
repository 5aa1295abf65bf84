/** What happened to a load's clock, oldest first. Instants are UTC milliseconds. */
export type ClockEvent =
  | { readonly kind: 'started'; readonly at: number }
  | {
      readonly kind: 'interrupted';
      readonly at: number;
      readonly why: 'boil-stopped' | 'pressure-dropped' | 'power-cut';
    };

export interface ClockReading {
  readonly state: 'not-started' | 'running' | 'interrupted' | 'done';
  /** Whole time still to run, in milliseconds; after an interruption all of it. */
  readonly remainingMs: number;
  /** When it will be done if nothing interrupts it; `null` while it does not run. */
  readonly doneAt: number | null;
  readonly interruptions: number;
}

const minuteMs = 60_000;

/**
 * Reads the clock of a load. It starts when a person says the water boils or the pressure stands; an interruption before
 * the end sets it back to zero, and only a new start runs it again, for the whole time. Events after the end change
 * nothing.
 *
 * Source: USDA Complete Guide 1, p1-18 and p1-22: restart the timing when the boil stops or the pressure drops.
 */
export const readClock = (events: readonly ClockEvent[], minutes: number, now: number): ClockReading => {
  const whole = minutes * minuteMs;
  let startedAt: number | null = null;
  let interruptions = 0;
  for (const event of events) {
    if (event.at > now) break;
    if (startedAt !== null && event.at >= startedAt + whole) break;
    if (event.kind === 'started') startedAt ??= event.at;
    else if (startedAt !== null) {
      startedAt = null;
      interruptions += 1;
    }
  }
  if (startedAt === null) {
    return {
      state: interruptions > 0 ? 'interrupted' : 'not-started',
      remainingMs: whole,
      doneAt: null,
      interruptions,
    };
  }
  const doneAt = startedAt + whole;
  return {
    state: now >= doneAt ? 'done' : 'running',
    remainingMs: Math.max(0, doneAt - now),
    doneAt,
    interruptions,
  };
};
