import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Face {
  readonly family: string;
  readonly ranges: readonly (readonly [from: number, to: number])[];
}

const faces = (): readonly Face[] =>
  [...readFileSync('views/assets/tokens.css', 'utf8').matchAll(/@font-face \{([^}]*)\}/g)].map(
    ([, body = '']) => ({
      family: /font-family: "([^"]+)"/.exec(body)?.[1] ?? '',
      ranges: [
        ...(/unicode-range:([^;]*);/.exec(body)?.[1] ?? '').matchAll(/U\+([0-9A-F]+)(?:-([0-9A-F]+))?/g),
      ].map(([, from = '', to = from]) => [Number.parseInt(from, 16), Number.parseInt(to, 16)] as const),
    }),
  );

test('each letter of a family comes from one file, so that waiting for it fetches no other', () => {
  const known = faces();
  expect(known.length).toBeGreaterThanOrEqual(4);
  for (const [at, face] of known.entries()) {
    expect(face.ranges.length).toBeGreaterThan(0);
    for (const other of known.slice(at + 1).filter(({ family }) => family === face.family))
      for (const [from, to] of face.ranges)
        expect(other.ranges.filter(([first, last]) => first <= to && last >= from)).toEqual([]);
  }
});
