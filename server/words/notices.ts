import { oneOrMore } from '../../shared/counting.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { NoticeGroup, NoticesListProps } from '../../views/pages/notices/notices-page.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { NoticeLine } from '../../views/parts/notice-list.tsx';
import { elementId } from '../../views/words/element-id.ts';
import { formatDay } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { sentenceCase } from '../../views/words/sentences.ts';
import type { NoticeOnRecord } from '../queries/notices/notices.ts';
import { noticeKindsInOrder, noticeTitle, presentNotice } from './notice-lines.ts';

/** Notices that wait now, and those put off. */
export const presentNotices = (
  notices: readonly NoticeOnRecord[],
  today: CalendarDate,
  reading: Reading,
  keys: () => FormKeys,
): NoticesListProps => ({
  groups: noticeKindsInOrder.flatMap((kind): NoticeGroup[] => {
    const own = notices.filter((notice) => notice.state === 'open' && notice.kind === kind);
    return own.length === 0
      ? []
      : [
          {
            key: elementId(kind),
            title: noticeTitle(kind),
            notices: own.map((notice) => ({ notice: underItsKind(notice, today, reading), keys: keys() })),
          },
        ];
  }),
  later: notices.flatMap((notice) =>
    notice.snoozedUntil === null
      ? []
      : [
          {
            notice: presentNotice(notice, today, reading),
            until: formatDay(notice.snoozedUntil, reading),
            keys: keys(),
          },
        ],
  ),
});

/** Under a heading that says the kind, a reason need not begin with it: `Eat soon: 2 jars` reads `2 jars`. */
const underItsKind = (notice: NoticeOnRecord, today: CalendarDate, reading: Reading): NoticeLine => {
  const line = presentNotice(notice, today, reading);
  return { ...line, reason: line.reason.replace(`${line.kind}: `, '') };
};

export const noticesSummary = ({ groups, later }: NoticesListProps): string => {
  const open = groups.reduce((count, group) => count + group.notices.length, 0);
  const waiting =
    open === 0
      ? 'Nothing needs attention now.'
      : `${sentenceCase(oneOrMore(open, 'thing needs', 'things need'))} attention${open > 1 ? ', the most pressing first' : ''}.`;
  return later.length === 0 ? waiting : `${waiting} ${later.length} put off.`;
};

/** The few that matter on the week's page, the most pressing kind first; what is eaten first stands beside them. */
export const presentPressing = (
  notices: readonly NoticeOnRecord[],
  today: CalendarDate,
  reading: Reading,
  howMany: number,
): { readonly notices: readonly NoticeLine[]; readonly more: number } => {
  const open = notices.filter((notice) => notice.state === 'open');
  const pressing = noticeKindsInOrder
    .filter((kind) => kind !== 'best by near')
    .flatMap((kind) => open.filter((notice) => notice.kind === kind));
  const shown = pressing.slice(0, howMany).map((notice) => presentNotice(notice, today, reading));
  return { notices: shown, more: Math.max(0, pressing.length - howMany) };
};
