import { spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { backUpFile } from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { worked } from '../builders/outcomes.ts';
import { quinceYard } from '../builders/quince-yard.ts';
import { acts, stages } from './act-stages.ts';
import { holdAgainst, lookAtShelf, startServer, stopServer, takeOne, yardOfJam } from './kill-protocol.ts';
import { type Fate, fates, type Image, openDisk } from './power-cut/disk.ts';
import { type DiskEntry, filesBelow, lengthOf, readDiskLog, writtenDown } from './power-cut/disk-log.ts';

// An act runs once, and everything it asks of the disk is written down. Then the power is cut at many places of that list: the
// disk is made again as it may then be, and held against what had been acknowledged by that place.

/** Acts the power is cut in: takes of a server, put-ups and takes by the records, and those of `acts`. */
export const cutActs = ['taking', 'entries', ...acts] as const;
export type CutAct = (typeof cutActs)[number];

export interface CutReport {
  readonly cuts: number;
  /** Of them, those with nothing acknowledged yet. */
  readonly beforeAny: number;
  /** Acknowledgements held against a disk, over all cuts. */
  readonly held: number;
  /** Entries of the list, and syncs among them. */
  readonly asks: number;
  readonly syncs: number;
  readonly amiss: readonly string[];
}

export interface CutProtocol {
  readonly folder: string;
  readonly shim: string;
  readonly cuts: number;
  readonly seed: number;
  /** Takes, or put-ups and takes, of the acts that have several. */
  readonly entries: number;
  /** As if nothing had ever been synced: then what was acknowledged must be missed, or the cuts prove nothing. */
  readonly unsynced?: boolean;
}

interface Acknowledged {
  readonly what: string;
  /** How long the list was by then. */
  readonly at: number;
}

/** One run of an act, written down. */
export interface Recorded {
  readonly root: string;
  readonly scene: Scene;
  readonly before: Image;
  readonly entries: readonly DiskEntry[];
  readonly acknowledged: readonly Acknowledged[];
}

interface Scene {
  readonly run: (
    environment: Readonly<Record<string, string>>,
    list: string,
  ) => Promise<readonly Acknowledged[]>;
  readonly look: (acknowledged: readonly string[]) => Promise<string | null>;
}

export async function cutThePower(act: CutAct, protocol: CutProtocol): Promise<CutReport> {
  const { cuts, seed } = protocol;
  const { root, scene, before, acknowledged, ...recorded } = await recordAct(act, protocol);
  const entries =
    protocol.unsynced === true ? recorded.entries.filter(({ kind }) => kind !== 'synced') : recorded.entries;

  const random = congruential32(seed);
  const places = Array.from({ length: cuts }, (_, cut) =>
    placeOfCut(cut, entries, acknowledged, random),
  ).sort((one, other) => one - other);
  const disk = openDisk(root, before);
  const amiss: string[] = [];
  let next = 0;
  let held = 0;
  let beforeAny = 0;
  for (const place of places) {
    for (; next < place; next += 1) disk.apply(entries[next] as DiskEntry);
    const end = entries[place - 1]?.end ?? 0;
    const told = acknowledged.filter(({ at }) => at <= end).map(({ what }) => what);
    const fate = fates[uniformInt(random, 0, fates.length - 1)] as Fate;
    putImage(root, disk.afterCut(fate, random));
    held += told.length;
    if (told.length === 0) beforeAny += 1;
    const found = await scene.look(told).catch((cause: unknown) => String(cause));
    if (found !== null)
      amiss.push(`${act}, cut after ${place} of ${entries.length}, ${fate} of the rest: ${found}`);
  }
  return {
    cuts,
    beforeAny,
    held,
    asks: entries.length,
    syncs: entries.filter(({ kind }) => kind === 'synced').length,
    amiss,
  };
}

/** Runs the act with everything written down; what is made again from the list must be what is there. */
export async function recordAct(
  act: CutAct,
  { folder, shim, entries: howMany }: Pick<CutProtocol, 'folder' | 'shim' | 'entries'>,
): Promise<Recorded> {
  const root = join(folder, 'disk');
  mkdirSync(root, { recursive: true });
  const scene = await sceneOf(act, root, howMany);
  const before = filesBelow(root);
  const list = join(folder, 'list');
  writeFileSync(list, '');
  const acknowledged = await scene.run(writtenDown(shim, root, list), list);
  const entries = readDiskLog(list);
  requireWholeList(root, before, entries);
  return { root, scene, before, entries, acknowledged };
}

/** The list is worth something only if it has everything: what SQLite shares in memory apart. */
function requireWholeList(root: string, before: Image, entries: readonly DiskEntry[]): void {
  const disk = openDisk(root, before);
  for (const entry of entries) disk.apply(entry);
  const seen = disk.asSeen();
  const there = filesBelow(root);
  for (const path of new Set([...seen.keys(), ...there.keys()]))
    if (!path.endsWith('-shm') && there.get(path)?.equals(seen.get(path) ?? Buffer.of()) !== true)
      throw new Error(`power cut: ${path} is not what was written down`);
}

/** A third right at an acknowledgement or a little later, a third around the syncs, a third anywhere. */
function placeOfCut(
  cut: number,
  entries: readonly DiskEntry[],
  acknowledged: readonly Acknowledged[],
  random: ReturnType<typeof congruential32>,
): number {
  const anywhere = uniformInt(random, 0, entries.length);
  const near = (place: number, upTo: number): number =>
    Math.min(entries.length, place + uniformInt(random, 0, upTo));
  if (cut % 3 === 0 && acknowledged.length > 0) {
    const { at } = acknowledged[uniformInt(random, 0, acknowledged.length - 1)] as Acknowledged;
    return near(entries.filter(({ end }) => end <= at).length, cut % 2 === 0 ? 0 : 6);
  }
  if (cut % 3 === 1) {
    const syncs = entries.flatMap(({ kind }, at) => (kind === 'synced' ? [at] : []));
    return near(syncs[uniformInt(random, 0, Math.max(0, syncs.length - 1))] ?? anywhere, 2);
  }
  return anywhere;
}

function putImage(root: string, image: Image): void {
  rmSync(root, { recursive: true, force: true });
  mkdirSync(root);
  for (const [path, bytes] of image) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), bytes);
  }
}

const top = resolve(import.meta.dirname, '../..');

/** Runs an act of one-act.ts to its end; answers what it acknowledged, and when. */
async function runOneAct(
  args: readonly string[],
  environment: Readonly<Record<string, string>>,
): Promise<readonly Acknowledged[]> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'tests/bench/one-act.ts', ...args], {
    cwd: top,
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, ...environment },
  });
  let said = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  const [code] = await once(child, 'close');
  const acknowledged = [...said.matchAll(/^listed (\d+)\ndone (.*)$/gm)].map(([, at, what = '']) => ({
    at: Number(at),
    what,
  }));
  if (code !== 0 || acknowledged.length === 0)
    throw new Error(`${args[0]}: expected it to be done; it said ${said}`);
  return acknowledged;
}

async function sceneOf(act: CutAct, root: string, entries: number): Promise<Scene> {
  const file = join(root, 'pantry.sqlite');
  if (act === 'taking') {
    await settledYard(file);
    return {
      run: (environment, list) => takeFromServer(file, entries, environment, list),
      look: (told) => lookAtTakes(file, told),
    };
  }
  if (act === 'entries') {
    await settledYard(file);
    return {
      run: (environment) => runOneAct(['entries', file, String(entries)], environment),
      look: (told) => lookAtEntries(file, told),
    };
  }
  const stage = await stages[act](root);
  const args = stage.set();
  return {
    run: (environment) => runOneAct([act, ...args], environment),
    look: (told) => stage.look(told[0] ?? null),
  };
}

async function settledYard(file: string): Promise<void> {
  const making = `${file}.making`;
  await yardOfJam(making);
  worked(await backUpFile(making, file));
  for (const end of ['', '-wal', '-shm']) rmSync(`${making}${end}`, { force: true });
}

/** Four people take jars, each one after the other. */
async function takeFromServer(
  file: string,
  takes: number,
  environment: Readonly<Record<string, string>>,
  list: string,
): Promise<readonly Acknowledged[]> {
  const server = await startServer(file, '', environment);
  const acknowledged: Acknowledged[] = [];
  let left = takes;
  const person = async (): Promise<void> => {
    const secrets = await lookAtShelf(server.address);
    while (left > 0) {
      left -= 1;
      const what = randomUUID();
      const status = await takeOne(server.address, secrets, what);
      if (status !== 303) throw new Error(`taking: expected 303, found ${status}`);
      acknowledged.push({ what, at: lengthOf(list) });
    }
  };
  try {
    await Promise.all(Array.from({ length: 4 }, person));
  } finally {
    await stopServer(server);
  }
  return acknowledged;
}

async function lookAtTakes(file: string, told: readonly string[]): Promise<string | null> {
  if (!existsSync(file)) return 'the file is gone';
  const { lost, doubled, integrity, stock, replayed } = await holdAgainst(file, new Set(told));
  const isWhole = lost === 0 && doubled === 0 && integrity === 'ok' && stock === replayed;
  return isWhole
    ? null
    : `${lost} of ${told.length} lost, ${doubled} doubled, ${integrity}, ${stock} against ${replayed}`;
}

/** Each acknowledged key has its answer, and the answer's entry its events. */
async function lookAtEntries(file: string, told: readonly string[]): Promise<string | null> {
  if (!existsSync(file)) return 'the file is gone';
  const db = await openDatabase(file);
  try {
    const answers = await db
      .selectFrom('idempotency')
      .select(['key', 'answer_json'])
      .where('household_id', '=', quinceYard)
      .execute();
    const events = await db.selectFrom('jar_event').select(['entry_id', 'units']).execute();
    const unitsOf = new Map<string, number>();
    for (const { entry_id, units } of events)
      unitsOf.set(entry_id, (unitsOf.get(entry_id) ?? 0) + Math.abs(units));
    const entryOf = new Map(
      answers.map(({ key, answer_json }) => [
        key,
        (JSON.parse(answer_json) as { value: { entryId: string } }).value.entryId,
      ]),
    );
    const wanted = (key: string): number => (Number(key.split('-')[1]) % 2 === 0 ? 3 : 1);
    const lost = told.filter((key) => unitsOf.get(entryOf.get(key) ?? '') !== wanted(key));
    const halfDone = [...entryOf].filter(([key, entry]) => unitsOf.get(entry) !== wanted(key));
    return lost.length + halfDone.length === 0 ? null : `${lost.length} lost, ${halfDone.length} half done`;
  } finally {
    await db.destroy();
  }
}
