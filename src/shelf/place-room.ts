import { nominalMl, sizeOf } from '../../shared/jar.ts';
import type { Item } from '../household/item.ts';
import type { Place } from '../household/kitchen.ts';
import type { LotOnShelf } from '../household/lot.ts';

/** How full a place is, quarts. */
export interface PlaceRoom {
  /** What stands there, as far as its size is known. */
  readonly filled: number;
  /** Batches of bags, bins or packs whose size nobody has said. */
  readonly lotsOfUnknownSize: number;
  /** What still fits; 0 where more stands there than was said to fit. Null where nobody has said how much fits. */
  readonly left: number | null;
}

/** What one unit of a lot takes, quarts: a jar by its nominal volume, what is frozen by what was said of it; null where unknown. */
const quartsEach = (lot: LotOnShelf, item: Item): number | null =>
  lot.jarKind === null ? item.freezerQuarts : nominalMl[sizeOf(lot.jarKind)] / nominalMl.quart;

/** How much of a place the lots in it fill, and what is left of it. */
export function placeRoom(
  { capacityQuarts }: Pick<Place, 'capacityQuarts'>,
  standing: readonly { readonly lot: LotOnShelf; readonly item: Item }[],
): PlaceRoom {
  let filled = 0;
  let lotsOfUnknownSize = 0;
  for (const { lot, item } of standing) {
    const each = quartsEach(lot, item);
    if (each === null) lotsOfUnknownSize += 1;
    else filled += each * lot.unitsLeft;
  }
  return {
    filled,
    lotsOfUnknownSize,
    left: capacityQuarts === null ? null : Math.max(0, capacityQuarts - filled),
  };
}
