import type { ItemId } from '../../../shared/ids.ts';
import type { Entry } from '../../../src/household/ledger.ts';
import type { SuspectJarProps } from '../../../views/pages/shelf/suspect-jar.tsx';
import type { UndoBarProps } from '../../../views/pages/shelf/undo-bar.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { ItemPart } from '../../../views/parts/item-parts.tsx';
import { presentUndoAction, undoable } from '../../words/ledger-lines.ts';
import { presentSuspect } from './present-suspect-jar.ts';
import type { ShelfPicture } from './shelf-picture.ts';

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
