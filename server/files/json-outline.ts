/** What a JSON text is made of, seen without reading it: reading a text of a few megabytes can take gigabytes. */
export interface JsonOutline {
  /** Lists and objects within each other at most. */
  readonly depth: number;
  /** Lists and objects in all. */
  readonly groups: number;
  /** Named values in all; a name that stands twice in an object counts twice. */
  readonly members: number;
  /** Values between commas, one each. */
  readonly separators: number;
}

const quote = 0x22;
const backslash = 0x5c;
const comma = 0x2c;
const colon = 0x3a;
const opening = new Set([0x5b, 0x7b]);
const closing = new Set([0x5d, 0x7d]);

/** The outline of a text in UTF-8; of a text that is no JSON it says something, but never fails. */
export function outlineOf(bytes: Uint8Array): JsonOutline {
  let depth = 0;
  let deepest = 0;
  let groups = 0;
  let members = 0;
  let separators = 0;
  let inText = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    if (inText) {
      if (byte === backslash) at += 1;
      else if (byte === quote) inText = false;
    } else if (byte === quote) inText = true;
    else if (byte === colon) members += 1;
    else if (byte === comma) separators += 1;
    else if (opening.has(byte)) {
      groups += 1;
      depth += 1;
      deepest = Math.max(deepest, depth);
    } else if (closing.has(byte)) depth -= 1;
  }
  return { depth: deepest, groups, members, separators };
}
