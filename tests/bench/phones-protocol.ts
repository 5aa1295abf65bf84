import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { quantileSorted } from 'simple-statistics';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { asDate } from '../../shared/week.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve } from '../builders/quince-yard.ts';
import { holdAgainst, jarsAtFirst, type KillReport, startServer } from './kill-protocol.ts';

// Phones take jars of one household from a real server over HTTP, each at its own pace; now and then one sends the same take
// twice, as a thumb does. Meanwhile the server plans the year of the demo household, or does not. Everything stays on the
// loopback address of this machine.

export interface PhonesProtocol {
  readonly file: string;
  readonly phones: number;
  readonly seconds: number;
  /** A phone waits up to twice this between takes. */
  readonly pauseMs: number;
  readonly solving: boolean;
  readonly seed: number;
}

export interface PhonesReport extends Omit<KillReport, 'kills'> {
  readonly requests: number;
  /** Requests that were not answered as a take is. */
  readonly errors: number;
  /** What came of them instead, each once. */
  readonly failures: readonly string[];
  readonly medianMs: number;
  readonly p99Ms: number;
  readonly slowestMs: number;
  /** Plans of the demo household that were made meanwhile. */
  readonly plans: number;
}

/** A file with jars to take and a household to plan. */
export async function prepareFile(file: string): Promise<void> {
  const { db } = await quinceYardHousehold(file);
  await shelve(db, {
    id: 'jam',
    itemId: plumJam,
    units: jarsAtFirst,
    madeOn: '2026-08-01',
    bestQualityUntil: '2099-01-01',
  });
  await makeDemoHousehold(db, asDate('2026-08-12'));
  await db.destroy();
}

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

export async function takeWithPhones(protocol: PhonesProtocol): Promise<PhonesReport> {
  const server = await startServer(protocol.file, protocol.solving ? 'planning' : '');
  let said = '';
  server.process.stdout?.on('data', (text: string) => {
    said += text;
  });
  const acknowledged = new Set<string>();
  const times: number[] = [];
  let requests = 0;
  let errors = 0;
  const failures = new Set<string>();
  let ends = Number.POSITIVE_INFINITY;

  const phone = async (number: number): Promise<void> => {
    const random = congruential32(protocol.seed + number);
    const household = `household=${quinceYard}`;
    const page = await fetch(`${server.address}/shelf/${plumJam}`, { headers: { cookie: household } });
    const given = page.headers.getSetCookie().map((one) => one.split(';')[0]);
    const cookie = [household, ...given].join('; ');
    const csrf = /name="_csrf" value="([^"]+)"/.exec(await page.text())?.[1] ?? '';
    const take = async (key: string): Promise<void> => {
      const began = performance.now();
      requests += 1;
      try {
        const answer = await fetch(`${server.address}/shelf/${plumJam}/takes`, {
          method: 'POST',
          redirect: 'manual',
          headers: { cookie },
          body: new URLSearchParams({ _csrf: csrf, key, outcome: 'took-one', lotId: 'jam' }),
        });
        await answer.arrayBuffer();
        if (answer.status === 303) acknowledged.add(key);
        else {
          errors += 1;
          failures.add(`answered ${answer.status}`);
        }
      } catch (fault) {
        errors += 1;
        const { message, cause } = fault instanceof Error ? fault : new Error(String(fault));
        failures.add(cause instanceof Error ? `${message}: ${cause.message}` : message);
      }
      times.push(performance.now() - began);
    };
    started += 1;
    while (started < protocol.phones) await pause(5);
    ends = Math.min(ends, Date.now() + protocol.seconds * 1000);
    await pause(uniformInt(random, 0, 2 * protocol.pauseMs));
    while (Date.now() < ends) {
      const key = randomUUID();
      await (uniformInt(random, 0, 9) === 0 ? Promise.all([take(key), take(key)]) : take(key));
      await pause(uniformInt(random, 0, 2 * protocol.pauseMs));
    }
  };
  let started = 0;
  await Promise.all(Array.from({ length: protocol.phones }, (_, number) => phone(number)));

  const exit = once(server.process, 'exit');
  server.process.kill('SIGTERM');
  await exit;
  const sorted = times.toSorted((one, other) => one - other);
  return {
    requests,
    errors,
    failures: [...failures],
    medianMs: quantileSorted(sorted, 0.5),
    p99Ms: quantileSorted(sorted, 0.99),
    slowestMs: sorted.at(-1) ?? 0,
    plans: Number(/plans (\d+)/.exec(said)?.[1] ?? 0),
    ...(await holdAgainst(protocol.file, acknowledged)),
  };
}
