import type { SearchPageProps } from '../../../views/pages/search/search-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf } from '../../words/shelf-units.ts';
import type { FoundLot, SearchFinding } from './search.ts';

/** More batches than these are not listed; another word narrows the search. */
const lotsShown = 60;

export function presentSearch(
  words: string,
  { items, lots }: SearchFinding,
  reading: Reading,
): Omit<SearchPageProps, 'frame'> {
  return {
    words,
    items: items.map(({ item, isRetired }) => ({
      itemId: item.id,
      item: {
        name: item.name,
        family: item.family,
        href: isRetired ? `/items/${item.id}` : `/shelf/${item.id}`,
      },
      note: isRetired ? 'no longer kept' : item.kind === 'preserve' ? 'put up here' : 'bought',
    })),
    lots: lots.slice(0, lotsShown).map((lot, at) => ({
      key: `${lot.item.id}-${lot.batchCode}-${at}`,
      item: { name: lot.item.name, family: lot.item.family, href: `/shelf/${lot.item.id}` },
      batch: `${lot.batchCode}, ${formatDate(lot.madeOn, reading)}`,
      left: leftWords(lot, reading),
      where: lot.place ?? '',
      until: formatDate(lot.bestQualityUntil, reading),
    })),
    moreLots: Math.max(0, lots.length - lotsShown),
  };
}

const leftWords = ({ item, unitsLeft, jarKind, isSetAside }: FoundLot, reading: Reading): string => {
  if (unitsLeft === 0) return 'none left';
  const left = amountOf(item, unitsLeft, reading, jarKind);
  return isSetAside ? `${left}, set aside` : left;
};
