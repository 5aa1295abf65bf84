import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

// The program runs as it stands in the tree, or as `bin/build.mjs` made it: a few files of JavaScript, which load in a fraction of
// the time. What it reads or brings in by a path is found from here, so that no path depends on where a module came to lie.

const here = fileURLToPath(import.meta.url);

/** The nearest folder above this file that holds a file of that name. */
function above(name: string): string {
  let folder = dirname(here);
  while (!existsSync(join(folder, name)) && folder !== dirname(folder)) folder = dirname(folder);
  return folder;
}

const programFolder = above('package.json');
const isBuilt = here.endsWith('.js');
const modules = isBuilt ? above('made-of.json') : programFolder;

/** A file or folder that the program reads, by its path in the tree: `seed-data/reference/`. */
export const programFile = (path: string): string => join(programFolder, path);

/** How the names of modules end in what runs. */
export const moduleEnd = isBuilt ? '.js' : '.ts';

/** A module brought in by its path in the tree, without its end: `server/solver/highs-process`. */
export const moduleAt = (path: string): URL => pathToFileURL(join(modules, `${path}${moduleEnd}`));

/** The folder of modules brought in one by one: `migrations`. */
export const moduleFolder = (path: string): string => join(modules, path);
