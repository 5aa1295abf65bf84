import type { NoticesListProps } from '../../views/pages/notices/notices-page.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import { formatDay } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { NoticeOnRecord } from '../queries/notices.ts';
import { presentNotice } from './notice-lines.ts';

/** Notices that wait now, and those put off. */
export const presentNotices = (
  notices: readonly NoticeOnRecord[],
  reading: Reading,
  keys: () => FormKeys,
): NoticesListProps => ({
  open: notices
    .filter((notice) => notice.snoozedUntil === null)
    .map((notice) => ({ notice: presentNotice(notice, reading), keys: keys() })),
  later: notices.flatMap((notice) =>
    notice.snoozedUntil === null
      ? []
      : [
          {
            notice: presentNotice(notice, reading),
            until: formatDay(notice.snoozedUntil, reading),
            keys: keys(),
          },
        ],
  ),
});

export const noticesSummary = ({ open, later }: NoticesListProps): string => {
  const waiting =
    open.length === 0
      ? 'Nothing needs attention now.'
      : open.length === 1
        ? 'One thing needs attention.'
        : `${open.length} things need attention, the soonest first.`;
  return later.length === 0 ? waiting : `${waiting} ${later.length} put off.`;
};
