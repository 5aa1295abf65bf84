import type { Message } from '../../../views/layout/frame.ts';

const messages: Readonly<Record<string, Message>> = {
  'put-up': {
    tone: 'done',
    text: 'It is on the shelf now. Write the batch code on the jars, or print their labels.',
    action: { words: 'Labels', href: '/labels' },
  },
  elsewhere: {
    tone: 'problem',
    text: 'Nothing was taken: that page showed the shelf of another household. This is the one that is open now.',
  },
  'by-product-used': {
    tone: 'note',
    text: 'Undone. What that batch left over was used or thrown away already, in part or whole; that stays written down, and only what still waited was taken back.',
    action: { words: 'What waits', href: '/canning-day#waiting' },
  },
  differs: {
    tone: 'note',
    text: 'The book had fewer than that. What it did not have is kept as a difference; count the item to settle it.',
    action: { words: 'Count the shelf', href: '/shelf/count' },
  },
};

/** What a page says after a change made from another; an unknown word says nothing. */
export const shelfMessage = (said: string): Message | null => messages[said] ?? null;
