import type { PlanProgress } from '../../src/planning/make-plan.ts';
import type { Lease } from './job-table.ts';

/** How far a plan is, as it stands in the row of its job. */
export interface PlanProgressInRow {
  /** `checked`: all is kept, and only the job is not told so yet. */
  readonly phase: 'planning' | 'checking' | 'checked';
  /** The plan that was kept. */
  readonly planId?: string;
  readonly startedAt: number;
  readonly progress: Pick<PlanProgress, 'incumbent' | 'bound' | 'gap' | 'soFar'> | null;
  /** What is to be known of a year that is large. */
  readonly note: string | null;
}

/** Null of a row that nothing was said in. */
export const progressIn = (said: string | null): PlanProgressInRow | null =>
  said === null ? null : (JSON.parse(said) as PlanProgressInRow);

export interface PlanProgressSaid {
  change(to: Partial<PlanProgressInRow>): Promise<void>;
  /** While something is kept nothing else is said, so that what is said with it stands. */
  whileKeeping<T>(keep: (said: (to: Partial<PlanProgressInRow>) => string) => Promise<T>): Promise<T>;
  /** No more of it; waits for what is being written. */
  stop(): Promise<void>;
}

const usuallyEveryMs = 1000;

/** Says in the job's row how far a plan is: at once where a phase begins, else every second, by which the lease is held against the row. */
export function sayProgress(
  lease: Lease,
  startedAt: number,
  {
    saidEveryMs = usuallyEveryMs,
    onError,
  }: {
    readonly saidEveryMs?: number | undefined;
    readonly onError?: ((cause: unknown) => void) | undefined;
  },
): PlanProgressSaid {
  let at: PlanProgressInRow = { phase: 'planning', startedAt, progress: null, note: null };
  let isKeeping = false;
  let writing: Promise<void> = Promise.resolve();
  const write = (): Promise<void> => {
    if (isKeeping) return Promise.resolve();
    writing = writing.then(() => lease.say(JSON.stringify(at))).catch((cause: unknown) => onError?.(cause));
    return writing;
  };
  void write();
  const timer = setInterval(() => void write(), saidEveryMs);
  timer.unref();
  return {
    change: async (to) => {
      const isNew = (to.phase ?? at.phase) !== at.phase || (at.progress === null && to.progress != null);
      at = { ...at, ...to };
      if (isNew) await write();
    },
    whileKeeping: async (keep) => {
      isKeeping = true;
      try {
        await writing;
        return await keep((to) => {
          at = { ...at, ...to };
          return JSON.stringify(at);
        });
      } finally {
        isKeeping = false;
      }
    },
    stop: async () => {
      clearInterval(timer);
      await writing;
    },
  };
}
