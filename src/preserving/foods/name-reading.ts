import { remembering } from '../../../shared/remembering.ts';
import { type FoodGroup, foodWords, harmlessPhrases } from './food-words.ts';

// What a name says: its words are folded (case, marks, width, look-alike letters), and every word, phrase, glued word or
// misspelling that is a food, a form or a quality is named.

/** A food, form or quality that a name says. */
export interface Named {
  readonly food: string;
  readonly group: FoodGroup;
  /** False where it is only likely: a misspelling, a part of a longer word, somebody's name. It is asked, never refused. */
  readonly sure: boolean;
  /** How it says so where it is not sure: written otherwise (misspelt, a part of a longer word), or a word of several meanings. */
  readonly doubt: 'spelling' | 'meaning' | null;
}

const lookalikes: Readonly<Record<string, string>> = {
  а: 'a',
  е: 'e',
  о: 'o',
  р: 'p',
  с: 'c',
  у: 'y',
  х: 'x',
  і: 'i',
  ј: 'j',
  ѕ: 's',
  к: 'k',
  м: 'm',
  т: 't',
  н: 'h',
  в: 'b',
  α: 'a',
  ο: 'o',
  ρ: 'p',
  ε: 'e',
  ι: 'i',
  κ: 'k',
  ν: 'v',
  τ: 't',
  υ: 'u',
};

const plainLetters: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

const inOneScript = (word: string): string =>
  /\p{Script=Latin}/u.test(word) ? [...word].map((letter) => lookalikes[letter] ?? letter).join('') : word;

/** The words of a text without case and marks: `Kürbis-Mus` is `kurbis mus`; an apostrophe and `s` end as `’s`. */
export const foldedWords = (text: string): readonly string[] =>
  text
    .replaceAll('´', '’') // before NFKC, which makes a space of it
    .normalize('NFKC')
    .replace(/\p{Cf}/gu, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .normalize('NFC')
    .replace(/[ßæœøłđðþı]/g, (letter) => plainLetters[letter] ?? letter)
    .replace(/(\p{L})['’`ʼ]s(?!\p{L})/gu, '$1’s')
    .split(/[^\p{L}’]+/u)
    .map((word) => inOneScript(word).replace(/^’+|’+$/g, ''))
    .filter((word) => word !== '');

const withoutSpaces = /\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Hangul}/u;

interface Entry {
  readonly named: Named | null;
  /** The words of the phrase, folded. */
  readonly phrase: readonly string[];
  readonly anyEnding: boolean;
}

const umlautAsTwo = (word: string): string =>
  word.replace(/[äöü]/g, (letter) => ({ ä: 'ae', ö: 'oe', ü: 'ue' })[letter] ?? letter);

function entriesOf(word: string, named: Named | null): readonly Entry[] {
  const bare = word.replace(/^\?|\*$/g, '');
  const spellings = [...new Set([bare, umlautAsTwo(bare)])];
  return spellings.map((spelling) => ({
    named: named && (word.startsWith('?') ? { ...named, sure: false, doubt: 'meaning' } : named),
    phrase: spelling.split('_').flatMap(foldedWords),
    anyEnding: word.endsWith('*'),
  }));
}

const entries: readonly Entry[] = [
  ...foodWords.flatMap(({ food, group, words }) =>
    words.split(' ').flatMap((word) => entriesOf(word, { food, group, sure: true, doubt: null })),
  ),
  ...harmlessPhrases.split(' ').flatMap((word) => entriesOf(word, null)),
].filter(({ phrase }) => phrase.length > 0);

// Longest phrase first, so that `butter bean` is read before `butter`; then the longest word, so that a stem gives way.
const lengthOf = ({ phrase }: Entry): number => phrase.length * 100 + phrase.join('').length;
const phrases = entries.toSorted((one, other) => lengthOf(other) - lengthOf(one));
const phrasesOfMany = phrases.filter(({ phrase }) => phrase.length > 1);
const single = phrases.filter(({ phrase }) => phrase.length === 1);
const exact = new Map<string, Entry>();
for (const entry of single) {
  const [word = ''] = entry.phrase;
  if (!exact.has(word)) exact.set(word, entry);
}
for (const entry of phrasesOfMany) {
  const glued = entry.phrase.join('');
  if (!exact.has(glued)) exact.set(glued, entry);
}
const stems = byFirstLetter(single.filter(({ anyEnding }) => anyEnding));
const phrasesFrom = byFirstLetter(phrasesOfMany);
function byFirstLetter(list: readonly Entry[]): ReadonlyMap<string, readonly Entry[]> {
  const found = new Map<string, Entry[]>();
  for (const entry of list) {
    const letter = entry.phrase[0]?.[0] ?? '';
    found.set(letter, [...(found.get(letter) ?? []), entry]);
  }
  return found;
}

const unspaced = single.filter(({ phrase: [word = ''] }) => withoutSpaces.test(word));

/** `berries` is a plural of `berry`. */
const singulars = (word: string): readonly string[] => [
  word,
  ...(word.endsWith('ies') ? [`${word.slice(0, -3)}y`] : []),
  ...(word.endsWith('oes') || /(s|x|z|ch|sh)es$/.test(word) ? [word.slice(0, -2)] : []),
  ...(word.endsWith('s') && !word.endsWith('ss') ? [word.slice(0, -1)] : []),
  ...(word.endsWith('x') && word.length > 4 ? [word.slice(0, -1)] : []),
];

function entryOf(word: string): Entry | undefined {
  for (const one of singulars(word)) {
    const known = exact.get(one);
    if (known) return known;
  }
  return stems.get(word[0] ?? '')?.find(({ phrase: [stem = ''] }) => word.startsWith(stem));
}

const sameWord = (word: string, wanted: string, anyEnding: boolean): boolean =>
  singulars(word).includes(wanted) || (anyEnding && word.startsWith(wanted));

/** Words before which a food is only a look or a place: "peach-colored label". */
const onlyLooks = new Set([
  'colored',
  'coloured',
  'color',
  'colour',
  'scented',
  'shaped',
  'sized',
  'tinted',
  'farbig',
  'farben',
]);

/** Everything a name says, in order, each food once; surely said goes before likely said. */
export const namedIn = remembering(readNames);

function readNames(text: string): readonly Named[] {
  const said = new Map<string, Named>();
  const add: Add = (named, doubt = null) => {
    if (named === null) return;
    const before = said.get(named.food);
    if (before?.sure) return;
    said.set(named.food, doubt === null ? named : { ...named, sure: false, doubt });
  };
  const words = joinedLetters(foldedWords(text));
  for (let at = 0; at < words.length; ) at += readAt(words, at, add);
  return [...said.values()];
}

type Add = (named: Named | null, doubt?: Named['doubt']) => void;

/** Reads the longest thing that begins at a word and answers how many words it takes. */
function readAt(words: readonly string[], at: number, add: Add): number {
  const word = words[at] ?? '';
  const next = words[at + 1];
  const many = phrasesFrom.get(word[0] ?? '')?.find(({ phrase, anyEnding }) =>
    phrase.every((wanted, step) => {
      const found = words[at + step];
      return found !== undefined && sameWord(found, wanted, anyEnding && step === phrase.length - 1);
    }),
  );
  if (many) {
    add(many.named);
    return many.phrase.length;
  }
  if (next !== undefined && onlyLooks.has(next)) return 2;
  const together =
    next !== undefined && word.length + next.length >= leastGlued ? exactOf(word + next) : undefined;
  if (together) {
    add(together.named);
    return 2;
  }
  readWord(word, add);
  return 1;
}

const leastGlued = 6;
const exactOf = (word: string): Entry | undefined =>
  singulars(word)
    .map((one) => exact.get(one))
    .find((entry) => entry !== undefined);

function readWord(word: string, add: Add): void {
  if (word.endsWith('’s')) {
    add(entryOf(word.slice(0, -2))?.named ?? null, 'meaning');
    return;
  }
  const plain = word.replaceAll('’', ' ').split(' ');
  if (plain.length > 1) {
    for (const part of plain) readWord(part, add);
    return;
  }
  const known = entryOf(word);
  if (known) {
    add(known.named);
    readRest(word, known, add);
    return;
  }
  if (withoutSpaces.test(word)) {
    for (const entry of unspaced) if (word.includes(entry.phrase[0] ?? '')) add(entry.named);
    return;
  }
  const parts = partsOf(word);
  if (parts) {
    for (const part of parts) add(part.named);
    return;
  }
  const within = longWords.find(({ phrase: [part = ''] }) => word.startsWith(part) || word.endsWith(part));
  if (within) {
    add(within.named, 'spelling');
    return;
  }
  if (word.length >= leastMisspelt)
    add(longWords.find(({ phrase: [known = ''] }) => isMisspelling(word, known))?.named ?? null, 'spelling');
}

/** What follows a stem in a glued word: `kurbis` and then `mus`. */
function readRest(word: string, { phrase: [stem = ''], anyEnding }: Entry, add: Add): void {
  if (!anyEnding || !word.startsWith(stem)) return;
  const rest = word.slice(stem.length);
  for (const from of [0, 1, 2]) {
    const parts = rest.length - from >= 2 ? partsOf(rest.slice(from), 2) : null;
    if (parts) {
      for (const part of parts) add(part.named);
      return;
    }
  }
}

const leastLong = 6;
const leastMisspelt = 6;
const longWords = single.filter(
  ({ phrase: [word = ''], named }) => word.length >= leastLong && named !== null && named.group !== 'quality',
);

/** Letters between the parts of a glued word, and parts that name nothing by themselves. */
const joints =
  'and und et y e i n en s es in in de di au a the jam jelly gelee konfiture marmelade confiture mermelada confettura dzem saft juice sauce suppe soße sosse sirup syrup pickle kompott kompot chips schmalz home made canned eingelegt aufstrich'
    .split(' ')
    .map((word) => foldedWords(word)[0] ?? '');

/** The known words a glued word falls into without a letter left over; `null` where it does not. */
function partsOf(word: string, least: number = leastGlued): readonly Entry[] | null {
  const best: (readonly Entry[] | null)[] = [[]];
  for (let end = 1; end <= word.length; end += 1) {
    best[end] = null;
    for (let from = 0; from < end; from += 1) {
      const before = best[from];
      if (!before) continue;
      const part = word.slice(from, end);
      const known =
        part.length >= 2 && (part.length >= 4 || from > 0 || end === word.length) ? exactOf(part) : undefined;
      if (known) best[end] = [...before, known];
      else if (joints.includes(part) && best[end] === null) best[end] = before;
      if (known) break;
    }
  }
  const parts = best[word.length];
  const longest = Math.max(0, ...(parts ?? []).map(({ phrase }) => phrase.join('').length));
  return parts && parts.length > 0 && longest >= Math.min(3, least) && word.length >= least ? parts : null;
}

/** `p u m p k i n` is one word. */
function joinedLetters(words: readonly string[]): readonly string[] {
  const joined: string[] = [];
  let letters = '';
  for (const word of [...words, '']) {
    if (word.length === 1 && !withoutSpaces.test(word)) {
      letters += word;
      continue;
    }
    if (letters !== '') joined.push(letters);
    letters = '';
    if (word !== '') joined.push(word);
  }
  return joined;
}

/** One letter wrong, missing, added, or two changed about; the first letter stands. */
function isMisspelling(word: string, known: string): boolean {
  if (Math.abs(word.length - known.length) > 1 || word[0] !== known[0]) return false;
  let at = 0;
  while (at < word.length && word[at] === known[at]) at += 1;
  const [restOfWord, restOfKnown] = [word.slice(at), known.slice(at)];
  return (
    restOfWord.slice(1) === restOfKnown.slice(1) ||
    restOfWord.slice(1) === restOfKnown ||
    restOfWord === restOfKnown.slice(1) ||
    (restOfWord[0] === restOfKnown[1] &&
      restOfWord[1] === restOfKnown[0] &&
      restOfWord.slice(2) === restOfKnown.slice(2))
  );
}
