import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import type { Household } from '../../../src/household/household.ts';
import { LetterHtml, type LetterProps, letterPlain } from '../../../views/mail/letter.tsx';
import type { NewLetter } from './letters.ts';

/** Both forms of a letter and its subject. */
export const sealed = (letter: LetterProps): Pick<NewLetter, 'subject' | 'plain' | 'html'> => ({
  subject: letter.title,
  plain: letterPlain(letter),
  html: `<!doctype html>${renderToString(h(LetterHtml, letter))}`,
});

/** What the letter to an address that nobody has confirmed is about; its link is made when it is sent. */
export const aboutConfirming = 'confirm ';
const aboutMoving = 'moved ';

const askTitle = 'Shall letters of a Shelfward pantry come here?';

/** The letter as it waits: without its link. */
export const waitingAskLetter = (id: string, recipient: string): NewLetter => ({
  about: `${aboutConfirming}${id}`,
  recipient,
  subject: askTitle,
  plain: '',
  html: '',
  noticeIds: [],
});

/**
 * The one letter to an address before it is confirmed. It says nothing that anybody of a household typed: whoever gets it did
 * not ask for it.
 */
export const askLetter = (
  { locale }: Pick<Household, 'locale'>,
  link: string,
): Pick<NewLetter, 'subject' | 'plain' | 'html'> =>
  sealed({
    locale,
    title: askTitle,
    opening:
      'Somebody wrote this address down as the one for the letters of a household. Nothing more is sent here unless you say so with the link below, within three days. If you know nothing of it, leave this letter alone.',
    parts: [],
    links: [{ words: 'Yes, letters may come here', href: link }],
  });

/** For the address that letters went to before. */
export const movedLetter = (
  { householdName, locale, address }: { householdName: string; locale: string; address: string },
  recipient: string,
): NewLetter => ({
  about: `${aboutMoving}${recipient} ${address}`,
  recipient,
  ...sealed({
    locale,
    title: `${householdName}: letters go elsewhere now`,
    opening:
      'An owner of the household named another address for its letters, and it was confirmed there. This is the last letter to this one. If nobody of you did that, look under Notices, Letters, and under Sharing, What happened to accounts.',
    parts: [],
    links: [],
  }),
  noticeIds: [],
});

/** Goes to an address that is no longer the household’s, on purpose. */
export const isToFormerAddress = (about: string): boolean => about.startsWith(aboutMoving);
