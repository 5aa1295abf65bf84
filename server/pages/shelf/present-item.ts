import { counted } from '../../../shared/counting.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { OpenJarsHere } from '../../../src/shelf/open-jars-here.ts';
import type { ShelfItemPageProps } from '../../../views/pages/shelf/shelf-item-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import { presentHistory, presentLots } from '../../words/ledger-lines.ts';
import { presentOpenJars } from './present-open-jars.ts';
import { presentUndo, type ShelfPicture } from './present-shelf.ts';
import { presentStock } from './present-stock.ts';
import { presentTake, type TakeTypedText } from './present-take.ts';

/** Lines of history on one page. */
const historyLines = 10;

export interface ShelfItemSetting {
  readonly pickedLot: string | null;
  /** Only history before this event; null from the newest on. */
  readonly before: number | null;
  readonly keys: () => FormKeys;
  readonly typed?: TakeTypedText | null;
  readonly open: readonly OpenJarsHere[];
}

export function presentShelfItem(
  picture: ShelfPicture,
  shelf: ItemOnShelf,
  events: readonly JarEvent[],
  { pickedLot, before, keys, open, typed = null }: ShelfItemSetting,
): Omit<ShelfItemPageProps, 'frame'> {
  const { today, reading, outlookByItem, promisedByItem, takenBy } = picture;
  const { item } = shelf;
  const offered = presentTake(shelf, {
    today,
    reading,
    keys: keys(),
    answers: 'page',
    takenBy,
    promised: promisedByItem.get(item.id) ?? null,
    pickedLot,
    typed,
  });
  const newestFirst = [...events].reverse().filter((event) => before === null || event.seq < before);
  const shown = newestFirst.slice(0, historyLines);
  const last = shown.at(-1);
  return {
    itemId: item.id,
    isKept: item.retiredOn === null,
    isMade: item.kind === 'preserve',
    item: { name: item.name, family: item.family },
    stock: presentStock(shelf, outlookByItem.get(item.id) ?? null, today, reading),
    ...offered,
    undo: presentUndo(picture, keys, 'page', item.id),
    opened:
      item.keepColdDays === null
        ? null
        : `Once opened it keeps ${counted(formatNumber(item.keepColdDays, reading), 'day')} in the refrigerator.`,
    openJars: presentOpenJars(open, keys, reading),
    lots: presentLots(shelf, offered.take?.lotId ?? null, today, reading),
    history: presentHistory(shown, reading),
    earlier:
      last !== undefined && newestFirst.length > shown.length
        ? `/shelf/${item.id}?before=${last.seq}#history`
        : null,
  };
}
