import type { HouseholdId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { Database } from '../../database/database.ts';
import { lotsOf } from '../shelf/shelf.ts';
import { itemsOf, retiredItems } from './items.ts';

export interface FoundLot {
  readonly item: Item;
  readonly batchCode: string;
  readonly madeOn: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  readonly jarKind: JarKind | null;
  readonly place: string | null;
  readonly unitsLeft: number;
  readonly isSetAside: boolean;
}

export interface SearchFinding {
  readonly items: readonly { readonly item: Item; readonly isRetired: boolean }[];
  /** Those with something left first, then the newest. */
  readonly lots: readonly FoundLot[];
}

const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/**
 * Items and batches of one household in which every word stands: in an item's name, or in a batch's item, code, day,
 * place or reason it was set aside. Case and accents do not count.
 */
export async function search(db: Database, householdId: HouseholdId, words: string): Promise<SearchFinding> {
  const wanted = plain(words).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return { items: [], lots: [] };
  const [items, retired, all] = await Promise.all([
    itemsOf(db, householdId),
    retiredItems(db, householdId),
    lotsOf(db, householdId, { empty: true }),
  ]);
  const holds = (...texts: readonly (string | null)[]) => {
    const text = plain(texts.filter((one) => one !== null).join(' '));
    return wanted.every((word) => text.includes(word));
  };
  const known = [
    ...items.map((item) => ({ item, isRetired: false })),
    ...retired.map(({ item }) => ({ item, isRetired: true })),
  ];
  const byId = new Map(known.map((one) => [one.item.id, one.item]));
  return {
    items: known.filter(({ item }) => holds(item.name, item.keeping)),
    lots: all
      .flatMap((lot): FoundLot[] => {
        const item = byId.get(lot.itemId);
        if (!item) return [];
        if (
          !holds(item.name, lot.batchCode, lot.madeOn, lot.place?.name ?? null, lot.setAside?.reason ?? null)
        )
          return [];
        return [
          {
            item,
            batchCode: lot.batchCode,
            madeOn: lot.madeOn,
            bestQualityUntil: lot.bestQualityUntil,
            jarKind: lot.jarKind,
            place: lot.place?.name ?? null,
            unitsLeft: lot.unitsLeft,
            isSetAside: lot.setAside !== null,
          },
        ];
      })
      .sort(
        (one, other) =>
          Number(other.unitsLeft > 0) - Number(one.unitsLeft > 0) ||
          (one.madeOn < other.madeOn ? 1 : one.madeOn > other.madeOn ? -1 : 0),
      ),
  };
}
