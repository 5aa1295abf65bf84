import { counted } from '../../../shared/counting.ts';
import { families } from '../../../shared/family.ts';
import type { ItemId } from '../../../shared/ids.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Entry } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { SuspectJar } from '../../../src/preserving/afterwards/found-unsealed.ts';
import type { ConflictLine } from '../../../views/pages/shelf/conflicts.tsx';
import type { ShelfFamily } from '../../../views/pages/shelf/shelf-page.tsx';
import type { ShelfRowProps } from '../../../views/pages/shelf/shelf-row.tsx';
import type { SuspectJarProps } from '../../../views/pages/shelf/suspect-jar.tsx';
import type { UndoBarProps } from '../../../views/pages/shelf/undo-bar.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { ItemPart } from '../../../views/parts/item-parts.tsx';
import { familyWords, formatDay, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { OpenConflict } from '../../queries/shelf/conflicts.ts';
import type { PromisedUnits } from '../../queries/year/promises.ts';
import { presentUndoAction, undoable } from '../../words/ledger-lines.ts';
import { type ItemOutlook, presentStock } from './present-stock.ts';
import { presentSuspect } from './present-suspect-jar.ts';
import { presentTake, type TakenBy, type TakeTypedText } from './present-take.ts';

/** The shelf as it stands, and how long each item of it lasts. */
export interface ShelfPicture {
  readonly shelf: readonly ItemOnShelf[];
  readonly outlookByItem: ReadonlyMap<ItemId, ItemOutlook>;
  /** `With this plan, 7 of your 23 preserves will probably run out before you can make more.` */
  readonly runOutSummary: string;
  readonly promisedByItem: ReadonlyMap<ItemId, PromisedUnits>;
  /** How acid each item is; null for what is not kept in sealed jars. */
  readonly acidityByItem: ReadonlyMap<ItemId, SuspectJar['acidity'] | null>;
  readonly entries: readonly Entry[];
  readonly conflicts: readonly OpenConflict[];
  readonly takenBy: TakenBy;
  readonly now: number;
  readonly today: CalendarDate;
  readonly reading: Reading;
}

export function presentRow(
  picture: ShelfPicture,
  item: ItemOnShelf,
  keys: FormKeys,
  typed: TakeTypedText | null = null,
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
      typed,
    }),
  };
}

/** A take that was sent back: what was typed and what has to be mended stays in its row. */
export interface TakeSentBack {
  readonly itemId: string;
  readonly typed: TakeTypedText;
}

/** Families in the order they stand, each item by name; `find` keeps those whose name holds the words. */
export function presentFamilies(
  picture: ShelfPicture,
  find: string,
  keys: () => FormKeys,
  sentBack: TakeSentBack | null = null,
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
            rows: own.map((item) =>
              presentRow(picture, item, keys(), sentBack?.itemId === item.item.id ? sentBack.typed : null),
            ),
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

/** The last things done; how a jar found unsealed is handled stands above them while it is the newest of them. */
export function presentUndo(
  picture: ShelfPicture,
  keys: () => FormKeys,
  answers: 'row' | ItemPart = 'row',
  itemId?: ItemId,
): UndoBarProps {
  const { entries, now, today, reading, shelf } = picture;
  const kept = undoable(
    itemId === undefined ? entries : entries.filter((entry) => entry.itemId === itemId),
    now,
  );
  return {
    actions: kept.map((entry) =>
      presentUndoAction(entry, shelf.find(({ item }) => item.id === entry.itemId)?.item, {
        now,
        today,
        reading,
        keys: keys(),
        answers,
      }),
    ),
    suspect: suspectOf(picture, kept[0]),
  };
}

/** Long enough to carry it out with the page beside the pot. */
const handlingShownMs = 2 * 3_600_000;

/** Handling stands there while the newest thing said is a jar that lost its seal; what is not in jars has no seal. */
function suspectOf(
  { shelf, acidityByItem, now }: ShelfPicture,
  newest: Entry | undefined,
): SuspectJarProps | null {
  if (newest?.reason !== 'not-sealed' || now - newest.recordedAt > handlingShownMs) return null;
  const item = shelf.find((own) => own.item.id === newest.itemId)?.item;
  const acidity = acidityByItem.get(newest.itemId) ?? 'unknown';
  return presentSuspect(newest.itemName, { acidity, tomato: item?.family === 'tomatoes' });
}
