import { readFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { sweepEarlier } from '../../server/memory.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import type { Serving, Told } from './served-file.ts';

// The pages of one file in a process of its own that watches itself: how long its serving thread worked without a pause, in
// time of the processor, so that a busy machine is not taken for slow work, and how much memory the process held.

const { file, began, tickMs, publicAddress } = JSON.parse(process.argv[2] ?? '{}') as Serving;
const lookEveryMs = 5;
const tell = (told: Told) => process.send?.(told);

/** What the serving thread has worked so far, ms; of the whole process where the system does not tell it of a thread. */
const worked = (): number => {
  try {
    return (
      Number(readFileSync(`/proc/${process.pid}/task/${process.pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6
    );
  } catch {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  }
};

/** The most the process has held since its start, MB: the system's own mark, the present size where it keeps none. */
const mostMemoryInMb = (): number => {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1]) / 1024;
  } catch {
    return process.memoryUsage.rss() / 1_048_576;
  }
};

sweepEarlier();
const db = await openDatabase(file);
let clock = began;
const app = await buildApp({
  db,
  reference: loadReferenceTables(),
  now: () => {
    clock += tickMs;
    return clock;
  },
  requestsPerMinute: 100_000_000,
  publicAddress,
  logger: { level: 'error', stream: { write: (line: string) => void tell({ kind: 'log', line }) } },
});
await app.listen({ host: '127.0.0.1', port: 0 });

let longestWorkMs = 0;
let last = worked();
const look = setInterval(() => {
  const now = worked();
  longestWorkMs = Math.max(longestWorkMs, now - last);
  last = now;
}, lookEveryMs);

process.on('message', (asked: 'seen' | 'end' | { readonly now: number }) => {
  if (asked === 'seen') {
    tell({ kind: 'seen', longestWorkMs, mostMemoryInMb: mostMemoryInMb() });
    longestWorkMs = 0;
    last = worked();
  } else if (asked === 'end') {
    clearInterval(look);
    void app.close().then(() => db.destroy().then(() => process.exit(0)));
  } else {
    clock = asked.now;
    tell({ kind: 'set' });
  }
});
// Whoever started it is gone.
process.once('disconnect', () => process.exit());
tell({ kind: 'serving', port: (app.server.address() as AddressInfo).port, routes: app.servedRoutes });
