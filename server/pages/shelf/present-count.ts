import { families } from '../../../shared/family.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { clearNumberFrom } from '../../../shared/typed-number.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { CountOfItem } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type {
  CountDifference,
  CountItemProps,
  CountOverviewProps,
  CountState,
} from '../../../views/pages/shelf/count-pages.tsx';
import { formatDate, readersUnit } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { reasonInWords } from '../../words/ledger-lines.ts';
import { figureOf, pieceWords } from '../../words/shelf-units.ts';
import { type AsCounted, asCounted } from '../shared/produce/own-units.ts';

/** The order in which a person walks the shelf: family by family, by name. */
export const walkingOrder = (shelf: readonly ItemOnShelf[]): readonly ItemOnShelf[] =>
  families.flatMap((family) => shelf.filter(({ item }) => item.family === family));

/** Pieces the book has, of any jar size; lots set aside stand apart and are not counted. */
export const piecesInBook = ({ lots }: ItemOnShelf): number =>
  lots.filter((lot) => lot.setAside === null).reduce((total, lot) => total + lot.unitsLeft, 0);

/**
 * A number that was counted, in what the item is counted in. What is weighed is read to a tenth: who types the figure the book
 * shows counts what the book has.
 */
export function countedAs(units: string, shelf: ItemOnShelf, reading: Reading): AsCounted {
  const { item } = shelf;
  const said = asCounted({ units }, item.unit, ['units'], reading);
  const book = piecesInBook(shelf);
  const counted = clearNumberFrom(said.values.units ?? '');
  const isAsShown =
    readersUnit(item.unit, reading) !== item.unit &&
    counted !== null &&
    figureOf(item, counted, reading) === figureOf(item, book, reading);
  return isAsShown ? { ...said, values: { units: String(book) } } : said;
}

/** Address of the next item not counted today, after `from` in walking order and then from the start; null when none is. */
export function nextToCount(
  walk: readonly ItemOnShelf[],
  counts: ReadonlyMap<ItemId, CountOfItem>,
  today: CalendarDate,
  from: string | null,
): string | null {
  const at = walk.findIndex(({ item }) => item.id === from);
  const next = [...walk.slice(at + 1), ...walk.slice(0, Math.max(at, 0))].find(
    ({ item }) => counts.get(item.id)?.countedOn !== today,
  );
  return next === undefined ? null : `/shelf/count?item=${next.item.id}`;
}

const fewer = ['taken-unrecorded', 'miscount', 'breakage', 'gift'] as const;
const more = ['found', 'miscount'] as const;
const explanationWords: Readonly<Record<string, string>> = {
  'taken-unrecorded': 'Eaten, and not written down',
  miscount: 'The book was wrong: miscounted before',
  breakage: 'Broken or spoiled',
  gift: 'Given away',
  found: 'Found again',
};

/** What the book says against what was counted, with the explanations that fit; null when they agree. */
export function presentDifference(
  shelf: ItemOnShelf,
  counted: number,
  reading: Reading,
): CountDifference | null {
  const book = piecesInBook(shelf);
  const difference = counted - book;
  if (Math.abs(difference) < 1e-9) return null;
  const fitting: readonly string[] = difference < 0 ? fewer : more;
  const figure = (units: number) => figureOf(shelf.item, units, reading);
  return {
    words: `The book says ${figure(book)}; you counted ${figure(counted)}: ${figure(Math.abs(difference))} ${difference < 0 ? 'fewer' : 'more'}.`,
    explanations: fitting.map((value) => ({ value, words: explanationWords[value] ?? value })),
  };
}

export interface CountSetting {
  readonly walk: readonly ItemOnShelf[];
  readonly counts: ReadonlyMap<ItemId, CountOfItem>;
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly form: CountState;
  readonly difference: CountDifference | null;
}

export function presentCountItem(shelf: ItemOnShelf, setting: CountSetting): CountItemProps {
  const { item, lots } = shelf;
  const { walk, counts, today, reading } = setting;
  const places = [...new Set(lots.flatMap((lot) => (lot.place === null ? [] : [lot.place.name])))];
  const place = walk.findIndex((other) => other.item.id === item.id) + 1;
  return {
    form: setting.form,
    itemId: item.id,
    item: { name: item.name, family: item.family },
    progress: `${place} of ${walk.length}`,
    how:
      item.unit === 'jar'
        ? 'Every jar counts as one, whatever its size. Leave out what is set aside.'
        : 'Leave out what is set aside.',
    unit: pieceWords(item, reading),
    places: places.length === 0 ? '' : `Look in: ${places.join(', ')}.`,
    difference: setting.difference,
    skip: nextToCount(walk, counts, today, item.id) ?? '/shelf/count',
  };
}

export function presentCountOverview(
  walk: readonly ItemOnShelf[],
  counts: ReadonlyMap<ItemId, CountOfItem>,
  today: CalendarDate,
  reading: Reading,
  learnt: string | null,
): Omit<CountOverviewProps, 'frame'> {
  const done = walk.filter(({ item }) => counts.get(item.id)?.countedOn === today);
  return {
    next: nextToCount(walk, counts, today, null),
    begun: done.length > 0,
    learnt,
    counted: done.flatMap(({ item }) => {
      const count = counts.get(item.id);
      if (!count) return [];
      const agrees = Math.abs(count.bookUnits - count.countedUnits) < 1e-9;
      return [
        {
          itemId: item.id,
          item: { name: item.name, family: item.family, href: `/shelf/${item.id}` },
          counted: figureOf(item, count.countedUnits, reading),
          book: figureOf(item, count.bookUnits, reading),
          explained: agrees ? 'as the book says' : reasonInWords(count.explainedAs),
        },
      ];
    }),
    waiting: walk
      .filter(({ item }) => counts.get(item.id)?.countedOn !== today)
      .map(({ item }) => {
        const last = counts.get(item.id)?.countedOn;
        return {
          itemId: item.id,
          item: { name: item.name, family: item.family, href: `/shelf/count?item=${item.id}` },
          lastCounted: last === undefined ? 'never counted' : `last counted ${formatDate(last, reading)}`,
        };
      }),
  };
}
