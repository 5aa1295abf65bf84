import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { resolve } from 'node:path';
import { sql } from 'kysely';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { openDatabase } from '../../server/database/database.ts';
import { lotsOf } from '../../server/queries/shelf/shelf.ts';
import { plumJam, quinceYard, quinceYardHousehold, shelve } from '../builders/quince-yard.ts';

// Clients take jars from a server that is killed with SIGKILL at random; afterwards the file is held against what the
// clients were told. Everything stays on the loopback address of this machine.

export interface KillProtocol {
  readonly file: string;
  readonly kills: number;
  readonly clients: number;
  readonly seed: number;
  /** The whole run ends after this even if not all kills were made. */
  readonly atMostMs: number;
}

export interface KillReport {
  readonly kills: number;
  readonly acknowledged: number;
  /** Acknowledged, but not in the ledger. */
  readonly lost: number;
  /** In the ledger more than once. */
  readonly doubled: number;
  /** In the ledger without having been acknowledged: the answer died on the way. */
  readonly unacknowledged: number;
  readonly integrity: string;
  readonly stock: number;
  readonly replayed: number;
}

/** More than are ever taken. */
export const jarsAtFirst = 100_000;
const root = resolve(import.meta.dirname, '../..');

export interface Server {
  readonly process: ChildProcess;
  readonly address: string;
}

/** The pages of the file in a process of their own. */
export async function startServer(
  file: string,
  mode: '' | 'planning' = '',
  environment: Readonly<Record<string, string>> = {},
): Promise<Server> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'tests/bench/pages-of-file.ts', file, mode], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, ...environment },
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  while (!said.includes('\n')) {
    if (child.exitCode !== null) throw new Error(`the server ended by itself with code ${child.exitCode}`);
    await Promise.race([once(child.stdout, 'data'), once(child, 'exit')]);
  }
  return { process: child, address: `http://127.0.0.1:${/port (\d+)/.exec(said)?.[1] ?? ''}` };
}

/** Stops a server as the system would. */
export async function stopServer({ process: child }: Server): Promise<void> {
  const exit = once(child, 'exit');
  child.kill('SIGTERM');
  await exit;
}

/** What a browser holds after it looked at a page with a form: cookies and token. */
export interface FormSecrets {
  readonly cookie: string;
  readonly csrf: string;
}

export async function lookAtShelf(address: string): Promise<FormSecrets> {
  const page = await fetch(`${address}/shelf/${plumJam}`, { signal: AbortSignal.timeout(10_000) });
  const cookies = page.headers.getSetCookie().map((one) => one.split(';')[0]);
  return {
    cookie: cookies.join('; '),
    csrf: /name="_csrf" value="([^"]+)"/.exec(await page.text())?.[1] ?? '',
  };
}

/** Takes one jar of the batch `jam` under a key; answers the status. */
export async function takeOne(address: string, { cookie, csrf }: FormSecrets, key: string): Promise<number> {
  const answer = await fetch(`${address}/shelf/${plumJam}/takes`, {
    method: 'POST',
    redirect: 'manual',
    headers: { cookie },
    body: new URLSearchParams({ _csrf: csrf, key, outcome: 'took-one', lotId: 'jam' }),
    signal: AbortSignal.timeout(10_000),
  });
  await answer.arrayBuffer();
  return answer.status;
}

/** Quince Yard in a file, with more jars of the batch `jam` than are ever taken. */
export async function yardOfJam(file: string): Promise<void> {
  const { db } = await quinceYardHousehold(file);
  await shelve(db, {
    id: 'jam',
    itemId: plumJam,
    units: jarsAtFirst,
    madeOn: '2026-08-01',
    bestQualityUntil: '2099-01-01',
  });
  await db.destroy();
}

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

export async function killWhileTaking(protocol: KillProtocol): Promise<KillReport> {
  await yardOfJam(protocol.file);
  const began = Date.now();
  const acknowledged = new Set<string>();
  let server: Server | null = await startServer(protocol.file);
  let ended = false;

  const client = async (): Promise<void> => {
    let secrets: FormSecrets | null = null;
    let key = randomUUID();
    while (!ended) {
      const at = server?.address;
      if (at === undefined) {
        await pause(5);
        continue;
      }
      try {
        secrets ??= await lookAtShelf(at);
        const status = await takeOne(at, secrets, key);
        // What was not acknowledged is sent again under its key until it is, whichever server answers.
        if (status !== 303) continue;
        acknowledged.add(key);
        key = randomUUID();
      } catch {
        await pause(5);
      }
    }
  };

  const clients = Array.from({ length: protocol.clients }, client);
  const random = congruential32(protocol.seed);
  let kills = 0;
  while (kills < protocol.kills && Date.now() - began < protocol.atMostMs) {
    const before = acknowledged.size;
    const waited = Date.now();
    while (acknowledged.size === before && Date.now() - waited < 20_000) await pause(5);
    await pause(uniformInt(random, 0, 300));
    const victim = server;
    server = null;
    const exit = once(victim.process, 'exit');
    victim.process.kill('SIGKILL');
    await exit;
    kills += 1;
    server = await startServer(protocol.file);
  }
  await pause(300);
  ended = true;
  await Promise.all(clients);
  await stopServer(server);
  return { kills, ...(await holdAgainst(protocol.file, acknowledged)) };
}

/** Holds the takes that clients were told of against the ledger of the file. */
export async function holdAgainst(
  file: string,
  acknowledged: ReadonlySet<string>,
): Promise<Omit<KillReport, 'kills'>> {
  const db = await openDatabase(file);
  const kept = await db
    .selectFrom('idempotency')
    .select(['key', 'answer_json'])
    .where('household_id', '=', quinceYard)
    .execute();
  const events = await db
    .selectFrom('jar_event')
    .select(['entry_id', 'kind', 'units'])
    .where('household_id', '=', quinceYard)
    .orderBy('seq')
    .execute();
  const jarsOf = new Map<string, number>();
  for (const { entry_id, kind, units } of events)
    if (kind === 'taken') jarsOf.set(entry_id, (jarsOf.get(entry_id) ?? 0) - units);
  const entryOf = new Map(
    kept.map(({ key, answer_json }) => [
      key,
      (JSON.parse(answer_json) as { value: { entryId: string } }).value.entryId,
    ]),
  );
  const named = new Set(entryOf.values());
  const health = await sql<{ integrity_check: string }>`PRAGMA integrity_check`.execute(db);
  const [lot] = await lotsOf(db, quinceYard, { itemId: plumJam });
  await db.destroy();
  return {
    acknowledged: acknowledged.size,
    lost: [...acknowledged].filter((key) => !jarsOf.has(entryOf.get(key) ?? '')).length,
    doubled: [...jarsOf].filter(([entry, jars]) => jars !== 1 || !named.has(entry)).length,
    unacknowledged: [...entryOf.keys()].filter((key) => !acknowledged.has(key)).length,
    integrity: health.rows.map((row) => row.integrity_check).join(', '),
    stock: lot?.unitsLeft ?? 0,
    replayed: events.reduce((total, { units }) => total + units, 0),
  };
}
