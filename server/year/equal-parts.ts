import { isDeepStrictEqual } from 'node:util';

/**
 * What was read anew, each part that says what it said before being the very same object again: whatever is worked out from such parts
 * alone is remembered by them (`whileTheSame`). A jar taken leaves nearly all of a household's facts as they were.
 */
export function withEqualParts<Parts extends object>(before: Parts | undefined, now: Parts): Parts {
  if (before === undefined) return now;
  const names = Object.keys(now) as (keyof Parts)[];
  return Object.fromEntries(
    names.map((name) => [name, isDeepStrictEqual(before[name], now[name]) ? before[name] : now[name]]),
  ) as Parts;
}
