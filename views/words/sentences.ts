/** Begins a sentence: `Week of Aug 17`. */
export const sentenceCase = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A name as it stands inside a sentence: `dill pickles`; one that begins in capitals keeps them: `BBQ sauce`. */
export const insideSentence = (name: string): string =>
  /^\p{Lu}{2}/u.test(name) ? name : name.charAt(0).toLowerCase() + name.slice(1);

/** `peaches`, `peaches and plums`, `peaches, plums and pears`; each thing once. */
export const listed = (words: readonly string[]): string => {
  const unique = [...new Set(words)];
  const last = unique.at(-1) ?? '';
  return unique.length < 2 ? last : `${unique.slice(0, -1).join(', ')} and ${last}`;
};

/** Behind what is fetched: `About 1¼ bushels. Pick there`; where it is had alone, of what has no trade measure. */
export const errandWhere = ({ about, where }: { readonly about: string; readonly where: string }): string =>
  about === '' ? where : `${sentenceCase(about)}. ${where}`;
