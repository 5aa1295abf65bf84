import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { SteadyReading } from '../src/preserving/day/process-clock.ts';

/** A clock that nobody sets: it counts while the machine is on and awake. */
export type SteadyClock = () => SteadyReading;

/** The run of this machine; where the system does not name it, of this program. */
const ownRun = (): { readonly run: string; readonly sinceBoot: boolean } => {
  try {
    return { run: readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim(), sinceBoot: true };
  } catch {
    return { run: randomUUID(), sinceBoot: false };
  }
};

/** The machine's own; goes on over a restart of the program where the system names its run. */
export const steadyClock = (): SteadyClock => {
  const { run, sinceBoot } = ownRun();
  return () => ({
    run,
    ms: Math.floor(sinceBoot ? Number(process.hrtime.bigint() / 1_000_000n) : performance.now()),
  });
};
