import { counted } from '../../../shared/counting.ts';
import { families } from '../../../shared/family.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { ConflictLine } from '../../../views/pages/shelf/conflicts.tsx';
import type { ShelfFamily } from '../../../views/pages/shelf/shelf-page.tsx';
import type { ShelfRowProps } from '../../../views/pages/shelf/shelf-row.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { familyWords, formatDay, formatNumber } from '../../../views/words/format.ts';
import type { SentBack } from '../shared/answer-form.ts';
import { presentStock } from '../shared/present-stock.ts';
import { presentTake } from '../shared/present-take.ts';
import type { ShelfPicture } from '../shared/shelf-picture.ts';

export function presentRow(
  picture: ShelfPicture,
  item: ItemOnShelf,
  keys: FormKeys,
  sentBack: SentBack | null = null,
): ShelfRowProps {
  const { today, reading, outlookByItem, promisedByItem, takenBy } = picture;
  const { id, name, family } = item.item;
  return {
    itemId: id,
    item: { name, family, href: `/shelf/${id}` },
    stock: presentStock(item, outlookByItem.get(id) ?? null, today, reading),
    ...presentTake(item, {
      today,
      reading,
      keys,
      answers: 'row',
      takenBy,
      promised: promisedByItem.get(id) ?? null,
      pickedLot: null,
      sentBack,
    }),
  };
}

/** Families in the order they stand, each item by name; `find` keeps those whose name holds the words. */
export function presentFamilies(
  picture: ShelfPicture,
  find: string,
  keys: () => FormKeys,
  sentBack: SentBack | null = null,
): readonly ShelfFamily[] {
  const wanted = find.trim().toLowerCase();
  const kept = picture.shelf.filter((item) => item.item.name.toLowerCase().includes(wanted));
  return families.flatMap((family) => {
    const own = kept.filter((item) => item.item.family === family);
    return own.length === 0
      ? []
      : [
          {
            id: family,
            name: familyWords[family],
            rows: own.map((item) => presentRow(picture, item, keys(), sentBack)),
          },
        ];
  });
}

/** "31 of 35 items in stock. With this plan, 3 of your 23 preserves will probably run out before you can make more." */
export function shelfSummary({ shelf, runOutSummary }: ShelfPicture): string {
  const standing = shelf.filter((item) => item.units > 0).length;
  return `${standing} of ${counted(shelf.length, 'item')} in stock. ${runOutSummary}`.trim();
}

/** Takes that the book had no unit for. */
export const presentConflicts = (
  { conflicts, reading }: ShelfPicture,
  keys: () => FormKeys,
): readonly ConflictLine[] =>
  conflicts.map((conflict) => ({
    id: conflict.id,
    itemId: conflict.itemId,
    words: `${conflict.itemName}: ${formatNumber(conflict.units, reading)} ${conflict.kind} on ${formatDay(conflict.occurredOn, reading)}, but the book had none left of it.`,
    keys: keys(),
  }));
