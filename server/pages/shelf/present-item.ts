import { counted } from '../../../shared/counting.ts';
import type { JarEvent } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { OpenJarsHere } from '../../../src/shelf/open-jars-here.ts';
import type { ShelfItemPageProps } from '../../../views/pages/shelf/shelf-item-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import { presentHistory, presentLots } from '../../words/ledger-lines.ts';
import type { ShelfPicture } from '../shared/shelf-picture.ts';
import { presentOpenJars } from './present-open-jars.ts';

/** Lines of history on one page. */
const historyLines = 10;

export interface ShelfItemSetting {
  /** The batch that is offered. */
  readonly offeredLot: string | null;
  /** Only history before this event; null from the newest on. */
  readonly before: number | null;
  readonly keys: () => FormKeys;
  readonly open: readonly OpenJarsHere[];
}

export function presentShelfItem(
  { today, reading }: ShelfPicture,
  shelf: ItemOnShelf,
  events: readonly JarEvent[],
  { offeredLot, before, keys, open }: ShelfItemSetting,
): Omit<ShelfItemPageProps, 'frame' | 'head'> {
  const { item } = shelf;
  const newestFirst = [...events].reverse().filter((event) => before === null || event.seq < before);
  const shown = newestFirst.slice(0, historyLines);
  const last = shown.at(-1);
  return {
    opened:
      item.keepColdDays === null
        ? null
        : `Once opened it keeps ${counted(formatNumber(item.keepColdDays, reading), 'day')} in the refrigerator.`,
    openJars: presentOpenJars(open, keys, reading),
    lots: presentLots(shelf, offeredLot, today, reading),
    history: presentHistory(item, shown, reading),
    earlier:
      last !== undefined && newestFirst.length > shown.length
        ? `/shelf/${item.id}?before=${last.seq}#history`
        : null,
  };
}
