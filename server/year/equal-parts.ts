import { isDeepStrictEqual } from 'node:util';

/**
 * What was read anew, each part that says what it said before being the very same object again, and so each row of a list in its place:
 * whatever is worked out from such parts alone is remembered by them (`whileTheSame`). A jar taken leaves nearly all of a household's
 * facts as they were.
 */
export function withEqualParts<Parts extends object>(before: Parts | undefined, now: Parts): Parts {
  if (before === undefined) return now;
  const names = Object.keys(now) as (keyof Parts)[];
  return Object.fromEntries(names.map((name) => [name, sharing(before[name], now[name])])) as Parts;
}

function sharing<Part>(before: Part, now: Part): Part {
  if (!Array.isArray(before) || !Array.isArray(now)) return isDeepStrictEqual(before, now) ? before : now;
  const rows = now.map((row: unknown, at) => (isDeepStrictEqual(before[at], row) ? before[at] : row));
  const isSame = rows.length === before.length && rows.every((row, at) => row === before[at]);
  return isSame ? before : (rows as Part);
}
