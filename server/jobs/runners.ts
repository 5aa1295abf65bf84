import { type DueJobs, doDueJobs } from './job-table.ts';

/** Several runners of one rule in this process. */
export interface Runners {
  /** Something may be due: whoever has nothing to do looks. */
  wake(): void;
  /** Looks again and again from now on, without keeping the process alive. */
  start(everyMs: number): void;
  /** No more of it; waits for what is running. */
  close(): Promise<void>;
}

export type RunnersParts = Omit<DueJobs, 'goesOn'> & {
  /** So many at most have a job at once. */
  readonly atOnce: number;
  readonly onError?: ((cause: unknown) => void) | undefined;
};

export function openRunners({ atOnce, onError, ...parts }: RunnersParts): Runners {
  const running = new Set<Promise<void>>();
  let isWoken = false;
  let closing = false;
  let timer: NodeJS.Timeout | undefined;

  const wake = (): void => {
    isWoken = true;
    if (closing || running.size >= atOnce) return;
    const looking = look()
      .catch((cause: unknown) => onError?.(cause))
      .finally(() => running.delete(looking));
    running.add(looking);
  };
  const look = async (): Promise<void> => {
    while (isWoken && !closing) {
      isWoken = false;
      await doDueJobs({
        ...parts,
        // Where one job is, there may be others.
        work: (kind) => {
          const work = parts.work(kind);
          return (subject, forOn, lease) => {
            wake();
            return work(subject, forOn, lease);
          };
        },
        goesOn: () => !closing,
      });
    }
  };
  return {
    wake,
    start: (everyMs) => {
      timer = setInterval(wake, everyMs);
      timer.unref();
      wake();
    },
    close: async () => {
      closing = true;
      clearInterval(timer);
      while (running.size > 0) await Promise.all(running);
    },
  };
}
