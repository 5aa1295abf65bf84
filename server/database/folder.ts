import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { ShelfwardError } from '../../shared/problems.ts';

/**
 * Makes a folder with those above it. Node's own way of doing so never ends below `/proc`, which answers to nothing;
 * this one ends with the first folder that cannot be made.
 */
export function makeFolder(folder: string): void {
  const path = resolve(folder);
  const there = statSync(path, { throwIfNoEntry: false });
  if (there?.isDirectory()) return;
  if (there)
    throw new ShelfwardError(
      'folder-not-made',
      `Expected a folder at ${path}; a file is in its place. Choose another place.`,
    );
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
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
