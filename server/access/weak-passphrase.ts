import { readFileSync } from 'node:fs';
import type { Problem } from '../../shared/problems.ts';
import { programFile } from '../program.ts';

/** Words of the program itself, beside the names of the person and the household, that make no passphrase. */
const ownWords = ['shelfward', 'pantry', 'household', 'passphrase', 'password'] as const;
/** So many characters have to be left when those names and words are taken out. */
const leastBeside = 8;
/** So many different characters at least. */
const leastDifferent = 5;
/** A name shorter than this says too little to be looked for. */
const shortestName = 3;

let common: ReadonlySet<string> | null = null;

/** The most used passphrases of at least twelve characters; `seed-data/passphrases/` says where they come from. */
const commonPassphrases = (): ReadonlySet<string> => {
  common ??= new Set(
    readFileSync(programFile('seed-data/passphrases/common-passphrases.txt'), 'utf8')
      .split('\n')
      .map(plainly),
  );
  return common;
};

/** Why a new passphrase is too easy to guess, or null; `names` are those of the person and of the household. */
export function weakness(passphrase: string, names: readonly string[]): Problem | null {
  const said = passphrase.toLowerCase();
  const refuse = (because: string): Problem => ({
    code: 'passphrase-weak',
    path: ['passphrase'],
    message: `This passphrase would be easy to guess: ${because}. Choose a few words in a row that nobody would connect with you.`,
  });
  const plain = plainly(said);
  if (commonPassphrases().has(plain) || commonPassphrases().has(plainly(said.replace(/[^a-z]+$/, ''))))
    return refuse('this one is among the ten thousand most used and the first that is tried');
  if (/^(.{1,6})\1+$/s.test(said) || new Set(said).size < leastDifferent)
    return refuse('this one repeats the same few characters');
  if (runsOn(said)) return refuse('this one runs along the alphabet, the digits or the keyboard');
  const words = [...ownWords, ...names.flatMap((name) => [name, ...name.split(/\s+/)])]
    .map(plainly)
    .filter((word) => word.length >= shortestName)
    .toSorted((one, other) => other.length - one.length);
  const beside = words.reduce((left, word) => left.replaceAll(word, ''), plain);
  if (beside !== plain && beside.replaceAll(/\s/g, '').length < leastBeside)
    return refuse('little of this one is left without your name, the household’s and this program’s words');
  return null;
}

/** Signs that are put in place of letters, as whoever guesses knows too: `p@ssw0rd` is read as `password`. */
const inPlaceOf: Readonly<Record<string, string>> = {
  '@': 'a',
  '4': 'a',
  '8': 'b',
  '(': 'c',
  '3': 'e',
  '9': 'g',
  '1': 'i',
  '!': 'i',
  '|': 'i',
  l: 'i',
  '0': 'o',
  $: 's',
  '5': 's',
  '7': 't',
  '+': 't',
  '2': 'z',
};
const plainly = (text: string): string =>
  [...text.toLowerCase()].map((sign) => inPlaceOf[sign] ?? sign).join('');

const rows = ['abcdefghijklmnopqrstuvwxyz', '01234567890', 'qwertyuiop', 'asdfghjkl', 'zxcvbnm'];

/** At least three quarters of the steps go to the neighbour in one of the rows, forwards or backwards. */
function runsOn(said: string): boolean {
  const pairs = Array.from({ length: said.length - 1 }, (_, at) => said.slice(at, at + 2));
  const neighbours = pairs.filter((pair) => {
    const back = [...pair].reverse().join('');
    return rows.some((row) => row.includes(pair) || row.includes(back));
  });
  return neighbours.length >= 0.75 * pairs.length;
}
