import type { Household } from '../../src/household/household.ts';
import type { LetterProps } from '../../views/mail/letter.tsx';
import { sealed } from '../records/notices/address-letters.ts';
import type { NewLetter } from '../records/notices/letters.ts';

/** A letter that tells nothing but that letters arrive; one for each time it is asked for. */
export function trialLetter(
  { name, locale }: Pick<Household, 'name' | 'locale'>,
  recipient: string,
  key: string,
): NewLetter {
  const letter: LetterProps = {
    locale,
    title: `${name}: letters arrive here`,
    opening:
      'Somebody of the household asked for this letter to see whether letters arrive. Nothing is to be done.',
    parts: [],
    links: [],
  };
  return { about: `trial ${key}`, recipient, ...sealed(letter), noticeIds: [] };
}
