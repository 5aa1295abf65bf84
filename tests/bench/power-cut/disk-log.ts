import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';

// The list that disk-log.c writes, and how it is compiled.

const kinds = [
  'opened',
  'written',
  'cut',
  'synced',
  'renamed',
  'removed',
  'linked',
  'folder made',
  'folder removed',
] as const;

export interface DiskEntry {
  readonly kind: (typeof kinds)[number];
  readonly pid: number;
  readonly fd: number;
  /** Place of a write, or the length a file was cut to. */
  readonly at: number;
  /** Opened anew, without what was in it. */
  readonly emptied: boolean;
  readonly path: string;
  readonly bytes: Buffer;
  /** Where the entry ends in the list. */
  readonly end: number;
}

const headLength = 56;
const emptyingFlag = 0o1000;

/** Compiles the part that is preloaded; null where there is no compiler for it, or another system than Linux. */
export function compileDiskLog(folder: string): string | null {
  if (process.platform !== 'linux') return null;
  const to = join(folder, 'disk-log.so');
  const source = join(import.meta.dirname, 'disk-log.c');
  for (const compiler of ['cc', 'gcc', 'clang']) {
    const made = spawnSync(compiler, ['-O1', '-fPIC', '-shared', '-o', to, source, '-ldl', '-lpthread'], {
      encoding: 'utf8',
    });
    if (made.status === 0) return to;
  }
  return null;
}

/** The environment of a process whose asks of the disk below a folder are written down. */
export const writtenDown = (shim: string, root: string, list: string): Record<string, string> => ({
  LD_PRELOAD: shim,
  DISK_ROOT: root,
  DISK_LOG: list,
});

/** Bytes written down so far: what a client was told of by now stands before. */
export const lengthOf = (list: string): number => (existsSync(list) ? statSync(list).size : 0);

export function readDiskLog(list: string): readonly DiskEntry[] {
  if (!existsSync(list)) return [];
  const all = readFileSync(list);
  const entries: DiskEntry[] = [];
  for (let from = 0; from < all.length; ) {
    const number = (index: number): number => Number(all.readBigInt64LE(from + index * 8));
    const pathLength = all.readInt32LE(from + 40);
    const length = number(6);
    const kind = kinds[number(0) - 1];
    if (kind === undefined) throw new Error(`disk-log: entry of unknown kind ${number(0)} at ${from}`);
    const pathEnd = from + headLength + pathLength;
    const end = pathEnd + length;
    entries.push({
      kind,
      pid: number(1),
      fd: number(2),
      at: kind === 'opened' ? 0 : number(3),
      emptied: kind === 'opened' && (number(4) & emptyingFlag) !== 0,
      path: all.subarray(from + headLength, pathEnd).toString(),
      bytes: all.subarray(pathEnd, end),
      end,
    });
    from = end;
  }
  return entries;
}

/** Every file below a folder with its bytes. */
export function filesBelow(folder: string, under = ''): Map<string, Buffer> {
  const root = realpathSync(folder);
  const files = new Map<string, Buffer>();
  for (const one of readdirSync(join(root, under), { withFileTypes: true })) {
    const path = under === '' ? one.name : `${under}/${one.name}`;
    if (one.isDirectory()) for (const [name, bytes] of filesBelow(root, path)) files.set(name, bytes);
    else files.set(path, readFileSync(join(root, path)));
  }
  return files;
}
