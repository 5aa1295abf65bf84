import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

// What a person is told when something does not fit is a sentence one would say across the table: what is wrong with what was
// typed, and what to do. No message names what was "expected" and "found"; only errors that nobody but a programmer sees do.

/** Tables that are read at the start, whose faults their maker reads; and schemas whose reasons no page repeats. */
const forMakers =
  /^(shared\/schemas\/reference|server\/reference|server\/demo|shared\/(week|ids|jar|money)\.ts)/;

test('no message to a person says what was expected', () => {
  const told = ['server', 'src', 'shared', 'views'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .map((path) => `${folder}/${path}`)
      .filter((path) => /\.tsx?$/.test(path) && !forMakers.test(path))
      .flatMap((path) =>
        readFileSync(path, 'utf8')
          .split('\n')
          .filter(
            (line) =>
              /['"`][^'"`]*\bExpected [^'"`]*; ?(found|\$\{|none|it|this|there)/.test(line) ||
              /['"`]Expected [a-z]/.test(line),
          )
          .map((line) => `${path}: ${line.trim()}`),
      ),
  );

  expect(told).toEqual([]);
});
