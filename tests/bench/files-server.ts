import { readFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';

// The pages of one file in a process of its own that watches itself: how long its serving thread worked without a pause, in
// time of the processor, so that a busy machine is not taken for slow work, and how much memory the process held.

const [file = '', clock = '0'] = process.argv.slice(2);
const lookEveryMs = 5;

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

const db = await openDatabase(file);
const began = Number(clock);
let ticks = 0;
const app = await buildApp({
  db,
  reference: loadReferenceTables(),
  now: () => began + ++ticks,
  requestsPerMinute: 100_000_000,
});
await app.listen({ host: '127.0.0.1', port: 0 });

let longestWorkMs = 0;
let mostMemoryInMb = 0;
let last = worked();
const look = setInterval(() => {
  const now = worked();
  longestWorkMs = Math.max(longestWorkMs, now - last);
  mostMemoryInMb = Math.max(mostMemoryInMb, process.memoryUsage.rss() / 1_048_576);
  last = now;
}, lookEveryMs);

process.on('message', (asked: 'seen' | 'end') => {
  if (asked === 'seen') {
    process.send?.({ longestWorkMs, mostMemoryInMb });
    longestWorkMs = 0;
    last = worked();
    return;
  }
  clearInterval(look);
  void app.close().then(() => db.destroy().then(() => process.exit(0)));
});
process.send?.({ port: (app.server.address() as AddressInfo).port });
