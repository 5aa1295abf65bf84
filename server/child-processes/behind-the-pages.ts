import { readFileSync, writeFileSync } from 'node:fs';
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
    const step = Math.min(lastStep, getPriority() + steps);
    setPriority(pid, step);
    if (pid === process.pid && leadsItsSession()) writeFileSync(sharesOfSession, String(step));
  } catch {
    // It goes on as it is.
  }
}

/**
 * Most Linux shares out a processor among sessions first, and only then within each by how far back its processes stand: a service
 * that is a session of its own steps back as a whole.
 */
const sharesOfSession = '/proc/self/autogroup';

function leadsItsSession(): boolean {
  const line = readFileSync('/proc/self/stat', 'utf8');
  // The name before may hold anything, brackets too.
  const [, , , session] = line.slice(line.lastIndexOf(')') + 2).split(' ');
  return Number(session) === process.pid;
}
