import { counted } from '../../shared/counting.ts';
import { groupedBy } from '../../shared/grouped-by.ts';
import { sizeOf } from '../../shared/jar.ts';
import type { Item } from '../../src/household/item.ts';
import type { Place } from '../../src/household/kitchen.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import { type PlaceRoom, placeRoom } from '../../src/shelf/place-room.ts';
import type { PlaceProps } from '../../views/pages/shelf/places-page.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import { formatDate, formatNumber, formatQuantity } from '../../views/words/format.ts';
import { pageNames } from '../../views/words/page-names.ts';
import type { Reading } from '../../views/words/reading.ts';
import { amountOf, wholeOf } from './shelf-units.ts';

interface PlacesSetting {
  readonly places: readonly Place[];
  readonly lots: readonly LotOnShelf[];
  readonly items: readonly Item[];
  readonly reading: Reading;
  readonly keys: () => FormKeys;
}

/** Every place with its batches; what stands nowhere in particular comes last. */
export function presentPlaces({ places, lots, items, reading, keys }: PlacesSetting): PlaceProps[] {
  const itemById = new Map(items.map((item) => [item.id, item]));
  const lotsIn = (placeId: string | null): PlaceProps['lots'] =>
    lots
      .filter((lot) => (lot.place?.id ?? null) === placeId)
      .flatMap((lot) => {
        const item = itemById.get(lot.itemId);
        return item === undefined
          ? []
          : [
              {
                id: lot.id,
                item: { name: item.name, family: item.family, href: `/shelf/${item.id}` },
                code: lot.batchCode,
                left: amountOf(item, lot.unitsLeft, reading, lot.jarKind),
                bestUntil: formatDate(lot.bestQualityUntil, reading),
              },
            ];
      });
  const place = (id: string | null, name: string, capacityQuarts: number | null): PlaceProps => {
    const others = places.filter((other) => other.id !== id);
    const inPlace = lotsIn(id);
    const standing = lots.flatMap((lot) => {
      const item = itemById.get(lot.itemId);
      return (lot.place?.id ?? null) === id && item !== undefined ? [{ lot, item }] : [];
    });
    const room = placeRoom({ capacityQuarts }, standing);
    return {
      id: id ?? 'not-said',
      name,
      lots: inPlace,
      shelf: {
        standing: drawn(standing),
        roomQuarts: isUnknown(room) ? 0 : Math.min(mostRoomDrawn, Math.floor(room.left ?? 0)),
      },
      room: id === null ? '' : roomWords(room, capacityQuarts, reading),
      move: inPlace.length === 0 || others.length === 0 ? null : { keys: keys(), to: placeChoices(others) },
    };
  };
  return [
    ...places.map(({ id, name, capacityQuarts }) => place(id, name, capacityQuarts)),
    ...(lotsIn(null).length === 0 ? [] : [place(null, 'Place not said', null)]),
  ];
}

/** So many quarts of room are drawn; how much there is stands beside them. */
const mostRoomDrawn = 24;

/** Of an item and jar size all its batches together, in the order in which they are to be eaten. */
const drawn = (
  standing: readonly { readonly lot: LotOnShelf; readonly item: Item }[],
): PlaceProps['shelf']['standing'] =>
  [...groupedBy(standing, ({ lot, item }) => `${item.id} ${lot.jarKind ?? ''}`)].flatMap(([key, own]) => {
    const [first] = own;
    if (first === undefined || first.item.unit === 'lb') return [];
    return [
      {
        key,
        family: first.item.family,
        count: wholeOf(
          first.item,
          own.reduce((sum, { lot }) => sum + lot.unitsLeft, 0),
        ),
        size: first.lot.jarKind === null ? null : sizeOf(first.lot.jarKind),
      },
    ];
  });

/** Nothing that stands there has a size that is known. */
const isUnknown = ({ filled, lotsOfUnknownSize }: PlaceRoom): boolean =>
  filled < 0.5 && lotsOfUnknownSize > 0;

/** `41 of 120 qt. Room for 79 qt more.` */
function roomWords(room: PlaceRoom, capacityQuarts: number | null, reading: Reading): string {
  const { filled, left, lotsOfUnknownSize } = room;
  const quarts = (amount: number) => formatQuantity(Math.round(amount), 'qt', reading);
  if (isUnknown(room))
    return `${capacityQuarts === null ? '' : `Holds ${quarts(capacityQuarts)}. `}How full it is, is not known: the bags, bins or packs in it have no size here.`;
  const besides =
    lotsOfUnknownSize === 0
      ? ''
      : ` Not counted in: ${counted(formatNumber(lotsOfUnknownSize, reading), 'batch', 'batches')} of bags, bins or packs whose size is not known here.`;
  if (capacityQuarts === null || left === null)
    return `${quarts(filled)} in jars. How much fits here is not said; say it under ${pageNames.kitchen}.${besides}`;
  return `${quarts(filled)} of ${quarts(capacityQuarts)}. ${left < 0.5 ? 'No room is left.' : `Room for ${lotsOfUnknownSize > 0 ? 'at most ' : ''}${quarts(left)} more.`}${besides}`;
}

export const placeChoices = (places: readonly Place[]) => [
  { value: '', words: 'Choose a place' },
  ...places.map(({ id, name }) => ({ value: id as string, words: name })),
];
