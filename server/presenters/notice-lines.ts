import type { NoticeKind } from '../../src/notices/notice.ts';
import type { NoticeLine } from '../../views/parts/notice-list.tsx';
import { formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { NoticeOnRecord } from '../queries/notices.ts';

/** A notice's kind in a word or two, and the one thing to do about it. `id` is what its subject names after the colon. */
const wordsByKind: Readonly<
  Record<NoticeKind, { readonly words: string; readonly action: (id: string) => NoticeLine['action'] }>
> = {
  'best by near': {
    words: 'Eat soon',
    action: (id) => ({ words: 'See this batch', href: `/shelf/lots/${id}` }),
  },
  'runs out': { words: 'Runs out', action: (id) => ({ words: 'See its year', href: `/year/${id}` }) },
  'harvest opens': { words: 'Harvest opens', action: () => ({ words: 'See the harvest', href: '/harvest' }) },
  'harvest closes': {
    words: 'Harvest closes',
    action: () => ({ words: 'See the harvest', href: '/harvest' }),
  },
  'buy for a session': {
    words: 'To buy',
    action: () => ({ words: 'See the buying list', href: '/buying' }),
  },
  'target not met': { words: 'Not enough', action: () => ({ words: 'See the targets', href: '/targets' }) },
  'set aside': {
    words: 'Set aside',
    action: (id) => ({ words: 'See this batch', href: `/shelf/lots/${id}` }),
  },
  'gauge check': { words: 'Gauge check', action: () => ({ words: 'Record the check', href: '/kitchen' }) },
  'altitude unknown': {
    words: 'Altitude',
    action: () => ({ words: 'Enter the altitude', href: '/kitchen' }),
  },
};

/** The subject without its kind: `lot:260801-a` names `260801-a`. */
const idIn = (subject: string): string => subject.split(':')[1] ?? subject;

export const presentNotice = (notice: NoticeOnRecord, reading: Reading): NoticeLine => {
  const { words, action } = wordsByKind[notice.kind];
  return {
    id: notice.id,
    kind: words,
    reason: notice.reason,
    due: notice.dueOn === null ? null : `by ${formatWeekday(notice.dueOn, reading)}`,
    action: action(encodeURIComponent(idIn(notice.subject))),
  };
};
