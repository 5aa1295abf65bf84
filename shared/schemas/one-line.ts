// A name is one line. Signs that break lines, ring bells or turn the reading direction around would change what another
// program (a calendar, a mail reader, a spreadsheet, a log) makes of it, so no one-line text may hold them.

const named: readonly (readonly [pattern: RegExp, words: string])[] = [
  [/[\n\r\u0085\u2028\u2029\v\f]/u, 'a line break'],
  [/\t/u, 'a tab'],
  [/[\u202a-\u202e\u2066-\u2069]/u, 'a sign that turns the direction of reading around'],
  [/\p{Cs}/u, 'half of a character'],
  [/\p{Cc}/u, 'a control character'],
  [/[\ufdd0-\ufdef\ufffe\uffff]/u, 'a sign that stands for no character'],
];
const unfit = /[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069\ufdd0-\ufdef\ufffe\uffff]/u;

/**
 * The first sign that a one-line text may not hold, in words and with the letters before it; null when there is none.
 * Control characters (Unicode category Cc), line and paragraph separators, embeddings, overrides and isolates of the
 * bidirectional algorithm (Unicode Standard Annex 9), unpaired surrogates and noncharacters of the basic plane.
 */
export function unfitSign(text: string): { readonly at: number; readonly words: string } | null {
  const found = unfit.exec(text);
  if (found === null) return null;
  const words = named.find(([pattern]) => pattern.test(found[0]))?.[1] ?? 'a sign that cannot be seen';
  return { at: found.index, words };
}

export const isOneLine = (text: string): boolean => !unfit.test(text);
