import { getPriority, setPriority } from 'node:os';

/** Pages go first on a machine that has too little for both. */
export const usualSteps = 5;
/** Further back nothing stands. */
export const lastStep = 19;

/**
 * Puts a process so many steps behind this one, or this one behind where it stands, in what it gets of a processor that others want
 * too; one that may not be put there has what every process has.
 */
export function putBehindThePages(pid: number | undefined, steps = usualSteps): void {
  if (pid === undefined || steps === 0) return;
  try {
    setPriority(pid, Math.min(lastStep, getPriority() + steps));
  } catch {
    // It goes on as it is.
  }
}
