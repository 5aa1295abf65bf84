/** Names as they are typed, with commas or “and” between; each once, in the order said. */
export const namesIn = (text: string): readonly string[] => [
  ...new Set(
    text
      .split(/[,;&\n]|\band\b/i)
      .map((name) => name.trim())
      .filter((name) => name !== ''),
  ),
];

/** The same as they are kept and shown in a field again. */
export const namesAsTyped = (names: readonly string[]): string => names.join(', ');
