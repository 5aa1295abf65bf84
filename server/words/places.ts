import type { Item } from '../../src/household/item.ts';
import type { Place } from '../../src/household/kitchen.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import type { PlaceProps } from '../../views/pages/shelf/places-page.tsx';
import type { FormKeys } from '../../views/parts/form.tsx';
import { formatDate } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { amountOf } from './shelf-units.ts';

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
  const place = (id: string, name: string, inPlace: PlaceProps['lots']): PlaceProps => {
    const others = places.filter((other) => other.id !== id);
    return {
      id,
      name,
      lots: inPlace,
      move: inPlace.length === 0 || others.length === 0 ? null : { keys: keys(), to: placeChoices(others) },
    };
  };
  const nowhere = lotsIn(null);
  return [
    ...places.map(({ id, name }) => place(id, name, lotsIn(id))),
    ...(nowhere.length === 0 ? [] : [place('not-said', 'Place not said', nowhere)]),
  ];
}

export const placeChoices = (places: readonly Place[]) => [
  { value: '', words: 'Choose a place' },
  ...places.map(({ id, name }) => ({ value: id as string, words: name })),
];
