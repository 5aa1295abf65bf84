/** Work that is done again and again in the background, never twice at once. */
export interface Repeating {
  /** Does the work now; a second call while it runs waits for that one. A fault is told, never thrown. */
  run(): Promise<void>;
  /** Does it again and again from now on, without keeping the process alive. */
  start(everyMs: number): void;
  /** No more of it; waits for what is running. */
  close(): Promise<void>;
}

/** `work` is asked whether to go on by `goesOn()`, so that a long round can stop early when the server closes. */
export function repeating(
  work: (goesOn: () => boolean) => Promise<void>,
  onError?: (cause: unknown) => void,
): Repeating {
  let running: Promise<void> | null = null;
  let timer: NodeJS.Timeout | undefined;
  let closing = false;

  const run = (): Promise<void> => {
    if (closing) return Promise.resolve();
    running ??= work(() => !closing)
      .catch((cause: unknown) => onError?.(cause))
      .finally(() => {
        running = null;
      });
    return running;
  };
  return {
    run,
    start: (everyMs) => {
      timer = setInterval(() => void run(), everyMs);
      timer.unref();
    },
    close: async () => {
      closing = true;
      clearInterval(timer);
      await running;
    },
  };
}
