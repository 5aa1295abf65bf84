import { setTimeout as pause } from 'node:timers/promises';
import type { Look, Looks } from './onlooker.ts';

const look = JSON.parse(process.argv[2] ?? '{}') as Look;
const warmLooks = 5;

let waits: number[] = [];
let others: Record<string, number> = {};

async function once(): Promise<void> {
  const began = performance.now();
  const answer = await fetch(`${look.address}${look.path}`, { headers: look.headers, redirect: 'manual' });
  await answer.text();
  waits.push(performance.now() - began);
  if (answer.status !== 200) others[answer.status] = (others[answer.status] ?? 0) + 1;
  await pause(look.pauseMs);
}

process.on('message', (asked: 'seen' | 'end') => {
  if (asked === 'end') {
    process.exit();
  }
  const sorted = waits.toSorted((one, other) => one - other);
  const looks: Looks = {
    looks: sorted.length,
    others,
    medianMs: sorted[Math.floor(sorted.length / 2)] ?? 0,
    slowestMs: sorted.at(-1) ?? 0,
  };
  process.send?.(looks);
});

for (let warm = 0; warm < warmLooks; warm += 1) await once();
waits = [];
others = {};
process.send?.('warm');
// Whoever started it is gone.
process.once('disconnect', () => process.exit());
for (;;) await once();
