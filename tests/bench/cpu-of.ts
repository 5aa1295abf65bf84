import { readdirSync, readFileSync } from 'node:fs';

// What processes have used of the processor, as Linux tells it.

/** The kernel counts in hundredths of a second, whatever the machine. */
const tickMs = 10;

interface Told {
  readonly pid: number;
  readonly parent: number;
  /** Its own, and of its children that have ended. */
  readonly ms: number;
}

function toldOf(pid: number): Told | null {
  try {
    const line = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name before may hold anything, brackets too.
    const fields = line
      .slice(line.lastIndexOf(')') + 2)
      .split(' ')
      .map(Number);
    const ticks = fields.slice(11, 15).reduce((sum, each) => sum + each, 0);
    return { pid, parent: fields[1] ?? 0, ms: ticks * tickMs };
  } catch {
    // It has ended, or this is no Linux.
    return null;
  }
}

/** CPU of a process and all below it since they began, ms; null where nothing tells. */
export function cpuMsOf(pid: number | undefined): number | null {
  const own = pid === undefined ? null : toldOf(pid);
  if (own === null) return null;
  const all = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => toldOf(Number(name)) ?? []);
  const below = (parent: number): number =>
    all.filter((one) => one.parent === parent).reduce((sum, { pid: each, ms }) => sum + ms + below(each), 0);
  return own.ms + below(own.pid);
}
