import type { JarKind } from '../../../shared/jar.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';

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

interface Searched {
  readonly items: readonly Item[];
  /** Whether anything of them still stands or not. */
  readonly retired: readonly { readonly item: Item }[];
  /** Empty ones too. */
  readonly lots: readonly LotOnShelf[];
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
export function search({ items, retired, lots: all }: Searched, words: string): SearchFinding {
  const wanted = plain(words).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return { items: [], lots: [] };
  const holds = (...texts: readonly (string | null)[]) => {
    const text = plain(texts.filter((one) => one !== null).join(' '));
    return wanted.every((word) => text.includes(word));
  };
  const known = [
    ...items.filter(({ retiredOn }) => retiredOn === null).map((item) => ({ item, isRetired: false })),
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
