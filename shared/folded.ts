/**
 * A text as it is compared: without marks, case and width, so that `Pêches`, `PECHES` and `ｐｅｃｈｅｓ` are one word. Never
 * shown, and never kept in place of what was written.
 */
export const folded = (text: string): string =>
  isPlain.test(text) ? text.toLowerCase().trim() : foldedWhole(text);

/** In letters, digits and signs of the first typewriters alone there is nothing to fold but case. */
const isPlain = /^[ -~]*$/;

const foldedWhole = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll('ı', 'i')
    .replaceAll('ł', 'l')
    .replaceAll('ø', 'o')
    .replaceAll('æ', 'ae')
    .replaceAll('œ', 'oe')
    .normalize('NFC')
    .trim();
