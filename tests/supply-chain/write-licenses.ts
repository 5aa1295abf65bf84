import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { licensesText } from './licenses.ts';

const root = resolve(import.meta.dirname, '../..');
writeFileSync(
  resolve(root, 'LICENSES.md'),
  licensesText(JSON.parse(readFileSync(resolve(root, 'package-lock.json'), 'utf8'))),
);
