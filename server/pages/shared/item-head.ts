import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Item } from '../../../src/household/item.ts';
import type { ItemHeadProps } from '../../../views/pages/items/item-head.tsx';
import type { ItemPart } from '../../../views/parts/item-parts.tsx';
import { yearOfRequest } from '../../year/year-of-request.ts';
import type { SentBack } from './answer-form.ts';
import { presentAxis, presentBoard } from './present-board.ts';
import { presentStock } from './present-stock.ts';
import { presentTake } from './present-take.ts';
import { presentUndo } from './present-undo.ts';
import type { ShelfPicture } from './shelf-picture.ts';
import { shelfPicture } from './shelf-picture.ts';

/** What was chosen or typed at the jar to take. */
export interface HeadSetting {
  /** The batch a person chose instead of the one whose turn it is. */
  readonly pickedLot?: string | null;
  readonly sentBack?: SentBack | null;
  /** The shelf, where it was read already. */
  readonly shelf?: ShelfPicture;
}

/** What stands on top of a part of an item: its stock, the jar to take, which leads back to that part, and its board. */
export async function itemHead(
  request: FastifyRequest,
  reply: FastifyReply,
  item: Item,
  part: ItemPart,
  { pickedLot = null, sentBack = null, ...read }: HeadSetting = {},
): Promise<ItemHeadProps> {
  const { reference } = request.server;
  const { today, reading } = request;
  const [shelf, picture] = await Promise.all([read.shelf ?? shelfPicture(request), yearOfRequest(request)]);
  // What is no longer kept and all gone stands nowhere.
  const standing = shelf.shelf.find((own) => own.item.id === item.id) ?? { item, lots: [], units: 0 };
  const itemYear = picture.itemYearById.get(item.id);
  const reader = { picture, reading, crops: reference.harvestWindows };
  const keys = () => reply.formKeys();
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family },
    isKept: item.retiredOn === null,
    isMade: item.kind === 'preserve',
    stock: presentStock(standing, shelf.outlookByItem.get(item.id) ?? null, today, reading),
    ...presentTake(standing, {
      today,
      reading,
      keys: keys(),
      answers: part,
      takenBy: shelf.takenBy,
      promised: shelf.promisedByItem.get(item.id) ?? null,
      pickedLot,
      sentBack,
    }),
    undo: presentUndo(shelf, keys, part, item.id),
    picture:
      itemYear === undefined ? null : { axis: presentAxis(reader), board: presentBoard(itemYear, reader) },
  };
}
