import { sentenceCase } from '../words/sentences.ts';

/** A notice as it is read: the reason, by when, one thing to do. */
export interface NoticeLine {
  readonly id: string;
  /** `Near its best-by`, `Runs out`: what kind of notice, in a word or two. */
  readonly kind: string;
  readonly reason: string;
  /** `by Aug 22`; null when it matters until mended. */
  readonly due: string | null;
  readonly action: { readonly words: string; readonly href: string };
}

export const NoticeList = ({ notices }: { notices: readonly NoticeLine[] }) => (
  <ul class="notice-list">
    {notices.map((notice) => (
      <li key={notice.id}>
        <NoticeWords notice={notice} />
      </li>
    ))}
  </ul>
);

export const NoticeWords = ({ notice }: { notice: NoticeLine }) => (
  <p class="notice">
    <span class="notice-kind">
      {notice.kind}
      {notice.due === null ? null : <span class="notice-due">{notice.due}</span>}
    </span>
    <span class="notice-reason">{notice.reason}</span> <a href={notice.action.href}>{notice.action.words}</a>
  </p>
);

/** A notice under a heading that already says its kind. */
export const NoticeReason = ({ notice }: { notice: NoticeLine }) => (
  <p class="notice">
    <span class="notice-reason">{notice.reason}</span>{' '}
    {notice.due === null ? null : <span class="notice-due">{`${sentenceCase(notice.due)}. `}</span>}
    <a href={notice.action.href}>{notice.action.words}</a>
  </p>
);
