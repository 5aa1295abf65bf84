/** The order of texts as a computer sorts them, not a language: -1, 0 or 1. For keys and ISO dates, the same on every machine. */
export const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);
