import { remembering } from '../../shared/remembering.ts';

/** An element's id from the words that name it: same words, same id, valid in HTML and in CSS. */
export const elementId = (...words: readonly (string | number)[]): string => idOf(words.join('-'));

const idOf = remembering(
  (words: string) =>
    words
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .replace(/^(\d)/, 'n$1'),
  { most: 5000 },
);
