import { accessSync, constants, mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { ShelfwardError } from '../../shared/problems.ts';
import { toDisk } from './to-disk.ts';

/**
 * Makes a folder with those above it. Node's own way of doing so never ends below `/proc`, which answers to nothing;
 * this one ends with the first folder that cannot be made. What is put into a folder is only as safe from a power cut as the
 * folder's own name, so that goes to the disk, too.
 */
export function makeFolder(folder: string): void {
  const path = resolve(folder);
  const there = statSync(path, { throwIfNoEntry: false });
  if (there?.isDirectory()) return;
  if (there)
    throw new ShelfwardError(
      'folder-not-made',
      `${path} is a file, where a folder is needed. Choose another place.`,
    );
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
    if (mayBeRead(dirname(path))) toDisk(dirname(path));
  } catch (cause) {
    const code = cause instanceof Error && 'code' in cause ? cause.code : undefined;
    // Somebody else made it meanwhile.
    if (code === 'EEXIST' && statSync(path).isDirectory()) return;
    throw new ShelfwardError(
      'folder-not-made',
      `The folder ${path} could not be made (${code ?? 'the system refused'}). Choose a place where this user may write.`,
      { cause },
    );
  }
}

/** A folder may be written by somebody who may not read it; its names then go to the disk when the system sees fit. */
function mayBeRead(folder: string): boolean {
  try {
    accessSync(folder, constants.R_OK);
    return true;
  } catch {
    return false;
  }
}
