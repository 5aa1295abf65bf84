import { uniformInt } from 'pure-rand/distribution/uniformInt';
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator';
import type { DiskEntry } from './disk-log.ts';

// What a disk holds after a power cut, made again from what programs asked of it. Nothing is kept for sure but what was
// synced: bytes of a file by a sync of that file, names in a folder by a sync of that folder. Of the rest any part may have
// arrived, in any order, down to the sector.

/** What became of the things that were not synced. */
export const fates = ['nothing', 'all', 'first part', 'some', 'torn 512', 'torn 4096'] as const;
export type Fate = (typeof fates)[number];

type Change =
  | { readonly kind: 'written'; readonly at: number; readonly bytes: Buffer }
  | { readonly kind: 'cut'; readonly length: number };

interface File {
  bytes: Buffer;
  length: number;
  unsynced: Change[];
}

/** A name in a folder came to mean a file or folder, or nothing. */
interface Naming {
  readonly of: readonly (readonly [name: string, node: File | Folder | null])[];
}

interface Folder {
  readonly synced: Map<string, File | Folder>;
  readonly now: Map<string, File | Folder>;
  unsynced: Naming[];
}

const newFile = (bytes: Buffer = Buffer.alloc(0)): File => ({ bytes, length: bytes.length, unsynced: [] });
const newFolder = (): Folder => ({ synced: new Map(), now: new Map(), unsynced: [] });
const isFolder = (node: File | Folder | undefined | null): node is Folder =>
  node !== undefined && node !== null && 'now' in node;

/** Files by path below the root, `backups/pantry.sqlite`. */
export type Image = ReadonlyMap<string, Buffer>;

export interface Disk {
  /** Takes one more entry of the list. */
  apply(entry: DiskEntry): void;
  /** The files after a cut now. */
  afterCut(fate: Fate, random: RandomGenerator | null): Image;
  /** Everything as the programs saw it. */
  asSeen(): Image;
  /** Paths of files, and of folders (ending with a slash), with anything that is not synced. */
  unsynced(): readonly string[];
}

export function openDisk(root: string, before: Image): Disk {
  const top = newFolder();
  const opened = new Map<string, File | Folder>();
  for (const [path, bytes] of before) {
    const { folder, name } = placeOf(path, true);
    const file = newFile(bytes);
    folder.now.set(name, file);
    folder.synced.set(name, file);
  }

  function placeOf(path: string, makes = false): { folder: Folder; name: string } {
    const parts = path.split('/');
    const name = parts.pop() ?? '';
    let folder = top;
    for (const part of parts) {
      const next = folder.now.get(part);
      if (isFolder(next)) folder = next;
      else if (makes) {
        const made = newFolder();
        folder.now.set(part, made);
        folder.synced.set(part, made);
        folder = made;
      } else throw new Error(`disk: expected a folder ${part} on the way to ${path}`);
    }
    return { folder, name };
  }
  const below = (path: string): string => path.slice(root.length).replace(/^\//, '');
  const nodeAt = (path: string): File | Folder | undefined => {
    if (below(path) === '') return top;
    const { folder, name } = placeOf(below(path));
    return folder.now.get(name);
  };
  const named = (path: string, node: File | Folder | null): Naming => {
    const { folder, name } = placeOf(below(path));
    if (node === null) folder.now.delete(name);
    else folder.now.set(name, node);
    const naming = { of: [[name, node]] } as const;
    folder.unsynced.push(naming);
    return naming;
  };
  const renamed = (from: string, to: string): void => {
    const node = nodeAt(from);
    if (node === undefined) throw new Error(`disk: ${from} was renamed and is not known`);
    const one = placeOf(below(from));
    const other = placeOf(below(to));
    if (one.folder !== other.folder) throw new Error('disk: only renames within a folder are known');
    one.folder.now.delete(one.name);
    one.folder.now.set(other.name, node);
    one.folder.unsynced.push({
      of: [
        [one.name, null],
        [other.name, node],
      ],
    });
  };

  return {
    apply(entry) {
      const handle = `${entry.pid} ${entry.fd}`;
      switch (entry.kind) {
        case 'opened': {
          let node = nodeAt(entry.path);
          if (node === undefined) {
            node = newFile();
            named(entry.path, node);
          }
          opened.set(handle, node);
          if (entry.emptied && !isFolder(node) && node.length > 0) change(node, { kind: 'cut', length: 0 });
          break;
        }
        case 'written':
        case 'cut': {
          const file = opened.get(handle);
          if (file === undefined || isFolder(file)) throw new Error('disk: a write to no known file');
          change(
            file,
            entry.kind === 'cut'
              ? { kind: 'cut', length: entry.at }
              : { kind: 'written', at: entry.at, bytes: entry.bytes },
          );
          break;
        }
        case 'synced': {
          const node = opened.get(handle);
          if (isFolder(node)) {
            for (const naming of node.unsynced) take(node.synced, naming);
            node.unsynced = [];
          } else if (node !== undefined) {
            node.bytes = changed(node.bytes, node.unsynced);
            node.unsynced = [];
          }
          break;
        }
        case 'renamed':
          renamed(entry.path, entry.bytes.toString());
          break;
        case 'removed':
        case 'folder removed':
          named(entry.path, null);
          break;
        case 'linked': {
          const node = nodeAt(entry.path);
          if (node !== undefined) named(entry.bytes.toString(), node);
          break;
        }
        case 'folder made':
          named(entry.path, newFolder());
          break;
      }
    },
    afterCut: (fate, random) => imageOf(top, fate, random),
    asSeen: () => imageOf(top, 'all', null),
    unsynced: () => unsyncedIn(top, ''),
  };
}

function change(file: File, made: Change): void {
  file.unsynced.push(made);
  file.length = made.kind === 'cut' ? made.length : Math.max(file.length, made.at + made.bytes.length);
}

/** New bytes with the changes made in order; what lies between the end and a later write reads as zero. */
function changed(bytes: Buffer, changes: readonly Change[]): Buffer {
  if (changes.length === 0) return bytes;
  const room = changes.reduce(
    (most, made) => Math.max(most, made.kind === 'cut' ? made.length : made.at + made.bytes.length),
    bytes.length,
  );
  const after = Buffer.alloc(room);
  bytes.copy(after);
  let length = bytes.length;
  for (const made of changes) {
    if (made.kind === 'cut') {
      if (made.length < length) after.fill(0, made.length, length);
      length = made.length;
    } else {
      made.bytes.copy(after, made.at);
      length = Math.max(length, made.at + made.bytes.length);
    }
  }
  return after.subarray(0, length);
}

const take = (names: Map<string, File | Folder>, { of }: Naming): void => {
  for (const [name, node] of of) {
    if (node === null) names.delete(name);
    else names.set(name, node);
  }
};

function imageOf(top: Folder, fate: Fate, random: RandomGenerator | null): Image {
  const image = new Map<string, Buffer>();
  const bytesOf = new Map<File, Buffer>();
  const walk = (folder: Folder, path: string): void => {
    const names = new Map(folder.synced);
    for (const naming of arrived(folder.unsynced, fate, random)) take(names, naming);
    for (const [name, node] of names) {
      if (isFolder(node)) {
        walk(node, `${path}${name}/`);
        continue;
      }
      let bytes = bytesOf.get(node);
      if (bytes === undefined) {
        bytes = changed(node.bytes, arrived(torn(node.unsynced, fate), fate, random));
        bytesOf.set(node, bytes);
      }
      image.set(`${path}${name}`, bytes);
    }
  };
  walk(top, '');
  return image;
}

/** Which of the changes arrived; they keep their order, as a disk writes a place once. */
function arrived<T>(changes: readonly T[], fate: Fate, random: RandomGenerator | null): readonly T[] {
  if (changes.length === 0 || fate === 'nothing') return [];
  if (fate === 'all' || random === null) return changes;
  if (fate === 'first part') return changes.slice(0, uniformInt(random, 0, changes.length));
  return changes.filter(() => uniformInt(random, 0, 1) === 1);
}

/** Writes cut into sectors, each of which arrives or does not. */
function torn(changes: readonly Change[], fate: Fate): readonly Change[] {
  const sector = fate === 'torn 512' ? 512 : fate === 'torn 4096' ? 4096 : 0;
  if (sector === 0) return changes;
  return changes.flatMap((made): readonly Change[] => {
    if (made.kind === 'cut') return [made];
    const parts: Change[] = [];
    for (let from = 0; from < made.bytes.length; ) {
      const to = Math.min(made.bytes.length, from + sector - ((made.at + from) % sector));
      parts.push({ kind: 'written', at: made.at + from, bytes: made.bytes.subarray(from, to) });
      from = to;
    }
    return parts;
  });
}

function unsyncedIn(folder: Folder, path: string): readonly string[] {
  const own = folder.unsynced.length > 0 ? [`${path === '' ? './' : path}`] : [];
  return [
    ...own,
    ...[...folder.now].flatMap(([name, node]) =>
      isFolder(node)
        ? unsyncedIn(node, `${path}${name}/`)
        : node.unsynced.length > 0
          ? [`${path}${name}`]
          : [],
    ),
  ];
}
