import { wordFor } from '../../../shared/counting.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';
import { listWords } from '../notice-words.ts';
import { likelyRunsOut } from './runs-out.ts';

/** Names said one by one before the rest is only counted; judged, no source. */
const namesShown = 3;

/**
 * Things that are eaten and of which nothing was ever written down: whether the shelf is bare of them nobody knows. One
 * notice stands for all of them, so that a new household is asked once to look at its shelf instead of being told ten times
 * that something runs out.
 */
export const notOnRecord = (picture: NoticePicture): Notice[] => {
  const names = picture.items
    .filter((item) => !item.isOnRecord && likelyRunsOut(item))
    .map(({ itemName }) => itemName)
    .sort();
  if (names.length === 0) return [];
  const shelfIsBlank = picture.items.every((item) => !item.isOnRecord) && picture.lots.length === 0;
  return [
    {
      kind: 'not on record',
      subject: 'shelf',
      reason: `${
        shelfIsBlank
          ? 'You have not written down yet what is on your shelf'
          : `You have never written down any ${namesWords(names, 'or')}`
      }. Count ${shelfIsBlank ? 'it' : wordFor(names.length, 'it', 'them')}, or put in what you have: until then ${
        shelfIsBlank ? `${namesWords(names)} ${wordFor(names.length, 'looks', 'look')}` : 'it looks'
      } as if there were none.`,
      dueOn: null,
    },
  ];
};

const namesWords = (names: readonly string[], joined: 'and' | 'or' = 'and'): string =>
  listWords(
    names.length <= namesShown + 1
      ? names
      : [...names.slice(0, namesShown), `${names.length - namesShown} more`],
    joined,
  );
