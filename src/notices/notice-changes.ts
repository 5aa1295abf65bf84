import { addDays, type CalendarDate } from '../../shared/week.ts';
import type { Notice, NoticeKind } from './notice.ts';

/** A notice as it was kept, and what the person did about it. */
export interface NoticeBefore {
  readonly kind: NoticeKind;
  readonly subject: string;
  readonly reason: string;
  readonly dueOn: CalendarDate | null;
  readonly state: 'open' | 'snoozed' | 'done' | 'gone';
  readonly snoozedUntil: CalendarDate | null;
  /** What a notice of several was about when it was last told; empty or missing for one thing. */
  readonly about?: readonly string[];
}

export interface NoticeChanges {
  /** Not kept yet, or kept and gone before: to be opened. */
  readonly opened: readonly Notice[];
  /** Snoozed until today or earlier, or done and now due much sooner or about something new: to be opened again, with these words. */
  readonly reopened: readonly Notice[];
  /** Stays as it is, open or snoozed; only its words or date differ. */
  readonly reworded: readonly Notice[];
  /** The reason has gone: nothing left in the lot, bought, mended. */
  readonly gone: readonly NoticeBefore[];
}

/** A notice that was done comes back only when its date has moved forward by at least this many days. */
const muchSoonerDays = 14;

/**
 * What became of the notices since they were kept. `kept` holds the newest record of each kind and subject.
 *
 * A snoozed notice sleeps until its day. One that is done stays done while its reason lasts, unless it becomes due much
 * sooner, or speaks of several things and a new one is among them; once its reason has gone, the same subject may be opened anew. Applying the changes and asking again on the same
 * day gives no changes.
 */
export function noticeChanges(
  kept: readonly NoticeBefore[],
  current: readonly Notice[],
  asOf: CalendarDate,
): NoticeChanges {
  const keptByKey = new Map(kept.map((notice) => [keyOf(notice), notice]));
  const currentKeys = new Set(current.map(keyOf));
  const opened: Notice[] = [];
  const reopened: Notice[] = [];
  const reworded: Notice[] = [];
  for (const notice of current) {
    const before = keptByKey.get(keyOf(notice));
    if (before === undefined || before.state === 'gone') opened.push(notice);
    else if (wakes(before, notice, asOf)) reopened.push(notice);
    else if (before.state !== 'done' && (before.reason !== notice.reason || before.dueOn !== notice.dueOn)) {
      reworded.push(notice);
    }
  }
  return {
    opened,
    reopened,
    reworded,
    gone: kept.filter((notice) => notice.state !== 'gone' && !currentKeys.has(keyOf(notice))),
  };
}

function wakes(before: NoticeBefore, notice: Notice, asOf: CalendarDate): boolean {
  if (before.state === 'snoozed') return before.snoozedUntil !== null && before.snoozedUntil <= asOf;
  if (before.state !== 'done') return false;
  const known = new Set(before.about);
  if (notice.about?.some((thing) => !known.has(thing))) return true;
  if (notice.dueOn === null) return false;
  return before.dueOn !== null && addDays(notice.dueOn, muchSoonerDays) <= before.dueOn;
}

const keyOf = ({ kind, subject }: { readonly kind: NoticeKind; readonly subject: string }): string =>
  `${kind} ${subject}`;
