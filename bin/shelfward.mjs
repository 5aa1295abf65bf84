#!/usr/bin/env node
import { existsSync } from 'node:fs';
import module from 'node:module';

// Starts the program: as it was built, and built anew first where the tree beside it has changed since. A package holds no tree.

const inTree = (path) => new URL(`../${path}`, import.meta.url);

if (existsSync(inTree('server/main.ts'))) {
  const { bringUpToDate } = await import('./build.mjs');
  if (!bringUpToDate()) process.exit(1);
}
// What was compiled is kept between two starts, on a Node that can.
module.enableCompileCache?.();
await import(inTree('built/server/main.js').href);
