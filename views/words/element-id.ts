/** An element's id from the words that name it: same words, same id, valid in HTML and in CSS. */
export const elementId = (...words: readonly (string | number)[]): string =>
  words
    .join('-')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .replace(/^(\d)/, 'n$1');
