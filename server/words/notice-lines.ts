import type { CalendarDate } from '../../shared/week.ts';
import type { NoticeKind } from '../../src/notices/notice.ts';
import { nearBestId, pastBestId } from '../../src/notices/rules/best-by-near.ts';
import { pastLimitId } from '../../src/notices/rules/kept-too-long.ts';
import { noneLeftId, soonGoneId } from '../../src/notices/rules/runs-out.ts';
import type { NoticeLine } from '../../views/parts/notice-list.tsx';
import { formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { NoticeOnRecord } from '../queries/notices/notices.ts';

interface KindWords {
  readonly words: string;
  /** Heading over several. */
  readonly title: string;
  /** The one thing to do; `id` is what the subject names after the colon. */
  readonly action: (id: string) => NoticeLine['action'];
}

const to = (words: string, href: string) => () => ({ words, href });
const toBatch = (id: string) => ({ words: 'See this batch', href: `/shelf/lots/${id}` });

/** In the order they are read: what stops the work, what hurries, what is good to know. */
const wordsByKind: Readonly<Record<NoticeKind, KindWords>> = {
  'set aside': { words: 'Set aside', title: 'Set aside', action: toBatch },
  'kept too long': {
    words: 'Throw away',
    title: 'Throw away',
    action: (id) => (id === pastLimitId ? { words: 'See the shelf', href: '/shelf' } : toBatch(id)),
  },
  'altitude unknown': {
    words: 'Altitude',
    title: 'Altitude not known',
    action: to('Enter the altitude', '/kitchen'),
  },
  'gauge check': {
    words: 'Gauge check',
    title: 'Gauge checks',
    action: to('Record the check', '/kitchen#canners'),
  },
  'upkeep due': {
    words: 'Upkeep',
    title: 'Upkeep',
    action: to('Write it down', '/upkeep'),
  },
  'load held back': {
    words: 'Load held back',
    title: 'Loads that can’t be canned on their day',
    action: to('See what you began', '/stages'),
  },
  'stage due': {
    words: 'Before the canner',
    title: 'To do before a canner load',
    action: to('Write it down', '/stages'),
  },
  'may be canned': {
    words: 'Ready for the canner',
    title: 'Ready for the canner',
    action: to('See the canning day', '/canning-day'),
  },
  'buy for a session': {
    words: 'To buy',
    title: 'To buy for a canning day',
    action: to('See the shopping list', '/buying'),
  },
  'harvest closes': {
    words: 'Harvest closes',
    title: 'Harvests about to end',
    action: to('See the harvest', '/harvest'),
  },
  'harvest opens': {
    words: 'Harvest opens',
    title: 'Harvests about to start',
    action: to('See the harvest', '/harvest'),
  },
  'not on record': {
    words: 'Shelf',
    title: 'Not written down yet',
    action: to('Count the shelf', '/shelf/count'),
  },
  'runs out': {
    words: 'Runs out',
    title: 'Running out',
    action: (id) =>
      id === noneLeftId || id === soonGoneId
        ? { words: 'See the year', href: '/year' }
        : { words: 'See its year', href: `/year/${id}` },
  },
  'best by near': {
    words: 'Eat soon',
    title: 'Eat soon',
    action: (id) =>
      id === pastBestId || id === nearBestId
        ? { words: 'See what to eat first', href: '/#eat-first' }
        : toBatch(id),
  },
  'target not met': {
    words: 'Doesn’t fit',
    title: 'What doesn’t fit into the plan',
    action: to('See what doesn’t fit', '/year#gave-way'),
  },
  'clock was wrong': {
    words: 'Clock',
    title: 'The clock was wrong',
    action: to('See what was written down', '/shelf'),
  },
  'appetite changed': {
    words: 'A question',
    title: 'Eaten differently than before',
    action: (id) => ({ words: 'Answer', href: `/targets/${id}#appetite` }),
  },
};

export const noticeKindsInOrder = Object.keys(wordsByKind) as readonly NoticeKind[];
export const noticeWords = (kind: NoticeKind): string => wordsByKind[kind].words;
export const noticeTitle = (kind: NoticeKind): string => wordsByKind[kind].title;

/** The subject without its kind: `lot:260801-a` names `260801-a`. */
const idIn = (subject: string): string => subject.split(':')[1] ?? subject;

/** A day that is past is no day to do something by; the reason names it. */
export const presentNotice = (notice: NoticeOnRecord, today: CalendarDate, reading: Reading): NoticeLine => {
  const { words, action } = wordsByKind[notice.kind];
  return {
    id: notice.id,
    kind: words,
    reason: notice.reason,
    due: notice.dueOn === null || notice.dueOn < today ? null : `by ${formatWeekday(notice.dueOn, reading)}`,
    action: action(encodeURIComponent(idIn(notice.subject))),
  };
};
