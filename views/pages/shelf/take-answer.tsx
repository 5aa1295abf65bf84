import type { Message } from '../../layout/frame.ts';
import { NoticeCount } from '../../layout/navigation.tsx';
import { Banner } from '../../parts/banner.tsx';
import { ShelfRow, type ShelfRowProps } from './shelf-row.tsx';
import { UndoBar, type UndoBarProps } from './undo-bar.tsx';

export interface TakeAnswerProps {
  readonly row: ShelfRowProps;
  readonly undo: UndoBarProps;
  readonly openNotices: number;
  readonly message: Message | null;
}

/** What a touch on the shelf changes: the item's row, the way back, the notices, and a word when it was not as expected. */
export const TakeAnswer = ({ row, undo, openNotices, message }: TakeAnswerProps) => (
  <>
    <ShelfRow {...row} {...(undo.suspect === null ? {} : { suspect: undo.suspect })} />
    <UndoBar actions={undo.actions} suspect={null} beside />
    <NoticeCount open={openNotices} beside />
    <div id="message" aria-live="polite" hx-swap-oob="true">
      {message === null ? null : <Banner message={message} />}
    </div>
  </>
);
