import type { Notice } from '../notice.ts';
import type { NoticeGaveWay, NoticePicture } from '../notice-picture.ts';
import { amountWords } from '../notice-words.ts';

/**
 * A wish the plan could not meet, one notice for each: which wish gave way, for what, and by how much. Less than one whole
 * unit over a year is nothing a person could act on (judged, no source) and stays on the page of the year; money always
 * counts.
 */
export const targetNotMet = (picture: NoticePicture): Notice[] =>
  picture.gaveWay
    .filter(({ rung, amount }) => (rung === 'cash and hours' ? amount > 0 : amount >= 1))
    .map((wish) => ({
      kind: 'target not met',
      subject: `wish:${wish.rung.replaceAll(' ', '-')}:${wish.key}`,
      reason: words(wish),
      dueOn: null,
      action: { label: 'See the targets', key: 'see targets', of: wish.key },
    }));

function words({ rung, name, amount, unit }: NoticeGaveWay): string {
  const by = amountWords(amount, unit);
  switch (rung) {
    case 'cash and hours':
      return `The plan needs ${by} more for ${name} than the caps on money and time allow.`;
    case 'garden crop':
      return `${by} of ${name} from the garden find no use in the plan: kitchen time, canners or jars are the limit.`;
    case 'family minimum':
      return `${name} falls ${by} short of the family’s minimum over the year.`;
    case 'group':
      return `${name} together fall ${by} short of what the year needs.`;
    case 'use':
      return `${name} falls ${by} short of what would be eaten.`;
    case 'reserve':
      return `${name} can be eaten as planned, but its reserve is ${by} short when the next supply comes.`;
    case 'variety':
      return `${name} has less variety than wished, by ${by}.`;
    case 'freshness':
      return `${by} of ${name} will be eaten past best quality.`;
  }
}
