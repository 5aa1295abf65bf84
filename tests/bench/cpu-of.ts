import { readdirSync, readFileSync } from 'node:fs';

// What processes have used of the processor, and how long they were ready and had to wait for it, as Linux tells it: on a machine
// that others use too, the first says what the work costs, and the second how much of its time was not its own. What a process used
// that ended meanwhile is told by the one that began it; how long it waited, nobody tells.

export interface CpuUsed {
  readonly ms: number;
  readonly waitedMs: number;
}

/** Those that were left out or have ended say nothing; NaN where this is no Linux. */
const nothingTold: CpuUsed = { ms: Number.NaN, waitedMs: Number.NaN };

interface Told extends CpuUsed {
  readonly pid: number;
  readonly parent: number;
  /** What those below it used that have ended, and those below them. */
  readonly endedMs: number;
}

/** Linux tells of those that ended in hundredths of a second, whatever its own clock. */
const msOfTick = 10;

/** A process by itself, all of its threads. */
function toldOf(pid: number): Told | null {
  try {
    const line = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name before may hold anything, brackets too.
    const fields = line
      .slice(line.lastIndexOf(')') + 2)
      .split(' ')
      .map(Number);
    const [parent = Number.NaN] = fields.slice(1);
    const [userTicks = Number.NaN, systemTicks = Number.NaN] = fields.slice(13);
    const threads = readdirSync(`/proc/${pid}/task`).map((thread) =>
      readFileSync(`/proc/${pid}/task/${thread}/schedstat`, 'utf8').split(' ').map(Number),
    );
    const sumOf = (at: number) => threads.reduce((sum, each) => sum + (each[at] ?? Number.NaN), 0) / 1e6;
    const endedMs = (userTicks + systemTicks) * msOfTick;
    return { pid, parent, ms: sumOf(0), waitedMs: sumOf(1), endedMs };
  } catch {
    // It has ended, or this is no Linux.
    return null;
  }
}

/** Of these and all below them, until now. */
function toldOfAll(pids: readonly (number | undefined)[]): CpuUsed {
  if (toldOf(process.pid) === null) return nothingTold;
  const all = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => toldOf(Number(name)) ?? []);
  const withBelow = (pid: number): readonly Told[] => [
    ...all.filter((one) => one.pid === pid),
    ...all.filter((one) => one.parent === pid).flatMap((one) => withBelow(one.pid)),
  ];
  const told = pids.flatMap((pid) => (pid === undefined ? [] : withBelow(pid)));
  return {
    ms: told.reduce((sum, { ms, endedMs }) => sum + ms + endedMs, 0),
    waitedMs: told.reduce((sum, { waitedMs }) => sum + waitedMs, 0),
  };
}

/** What each of some groups of processes used from now on, when it is asked for; one that is asked of itself is asked of nobody below. */
export function cpuSince<Name extends string>(
  groups: Readonly<Record<Name, () => readonly (number | undefined)[]>>,
): () => Readonly<Record<Name, CpuUsed>> {
  const names = Object.keys(groups) as Name[];
  const told = () =>
    names.map((name) => {
      const pids = groups[name]();
      const own = pids.includes(process.pid) ? (toldOf(process.pid) ?? nothingTold) : toldOfAll(pids);
      return [name, own] as const;
    });
  const before = new Map(told());
  return () =>
    Object.fromEntries(
      told().map(([name, { ms, waitedMs }]) => {
        const { ms: msThen, waitedMs: waitedThen } = before.get(name) ?? nothingTold;
        return [name, { ms: ms - msThen, waitedMs: waitedMs - waitedThen }];
      }),
    ) as Readonly<Record<Name, CpuUsed>>;
}
