import { addDays, type CalendarDate } from '../../shared/week.ts';
import type { TakeFormProps } from '../../views/pages/shelf/take-form.tsx';
import type { FieldProblems, FormKeys } from '../../views/parts/form.tsx';
import { noProblems } from '../../views/parts/form.tsx';
import { formatDate, formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { ItemOnShelf, LotOnShelf } from '../queries/shelf.ts';
import { amountOf, figureAndUnit, pieceWords } from './shelf-units.ts';

/** Units of an item that were promised to somebody and are kept back until a day. */
export interface KeptBack {
  readonly units: number;
  readonly until: CalendarDate;
}

/** What a take form needs to know besides the shelf. */
export interface TakeSetting {
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly keys: FormKeys;
  readonly answers: 'row' | 'page';
  readonly promised: KeptBack | null;
  /** The lot a person chose instead of the one whose turn it is. */
  readonly pickedLot: string | null;
  readonly typed: TakeTypedText | null;
}

export interface TakeTypedText {
  readonly units: string;
  readonly day: string;
  readonly date: string;
  readonly problems: FieldProblems;
}

/** The jar to take, or why none is offered. */
export function presentTake(
  shelf: ItemOnShelf,
  setting: TakeSetting,
): { readonly take: TakeFormProps | null; readonly whyNot: string } {
  const { item } = shelf;
  const { today, reading, pickedLot } = setting;
  const lot = lotToTake(shelf, setting);
  if (lot === null) return { take: null, whyNot: whyNothing(shelf, setting) };
  return {
    whyNot: '',
    take: {
      itemId: item.id,
      itemName: item.name,
      lotId: lot.id,
      picked: pickedLot === lot.id,
      mayBeEaten: lot.setAside === null,
      which: whichOne(shelf, lot, setting),
      unit: pieceWords(item, reading),
      answers: setting.answers,
      days: dayChoices(today, reading),
      keys: setting.keys,
      typed: setting.typed ?? { units: '1', day: 'today', date: '', problems: noProblems },
      open: setting.typed !== null,
    },
  };
}

/** The lot a person picked, otherwise the first to pass its best quality among those ready and not set aside. */
function lotToTake(shelf: ItemOnShelf, { today, pickedLot, promised }: TakeSetting): LotOnShelf | null {
  const picked = shelf.lots.find((lot) => lot.id === pickedLot);
  if (picked) return picked;
  const free = shelf.lots.filter((lot) => lot.setAside === null && lot.readyFrom <= today);
  const pieces = free.reduce((total, lot) => total + lot.unitsLeft, 0);
  if (promised !== null && pieces <= promised.units) return null;
  return free[0] ?? null;
}

function whichOne(
  shelf: ItemOnShelf,
  lot: LotOnShelf,
  { reading, promised }: TakeSetting,
): TakeFormProps['which'] {
  const one = figureAndUnit(amountOf(shelf.item, 1, reading, lot.jarKind)).unit || 'one';
  const where = lot.place === null ? '' : `, ${lot.place.name}`;
  const aside = lot.setAside === null ? '' : ` Set aside: ${lot.setAside.reason}. Not to be eaten.`;
  const kept =
    promised === null ? '' : ` ${promised.units} stay for ${formatDate(promised.until, reading)}: promised.`;
  return { one: `Take the ${one} marked`, code: lot.batchCode, where: `${where}.${aside}${kept}` };
}

function whyNothing(shelf: ItemOnShelf, { today, reading, promised }: TakeSetting): string {
  const free = shelf.lots.filter((lot) => lot.setAside === null);
  const ready = free.filter((lot) => lot.readyFrom <= today);
  if (ready.length > 0 && promised !== null)
    return `All that is left is promised for ${formatDate(promised.until, reading)}.`;
  const [curing] = [...free].sort((one, other) => (one.readyFrom < other.readyFrom ? -1 : 1));
  if (curing) return `Not ready before ${formatDate(curing.readyFrom, reading)}.`;
  if (shelf.lots.length > 0) return 'What is left is set aside. Open the item to decide about it.';
  return '';
}

/** Today, yesterday, last Sunday, or a day picked from the calendar. */
export function dayChoices(today: CalendarDate, reading: Reading): TakeFormProps['days'] {
  const yesterday = addDays(today, -1);
  const sunday = lastSunday(today);
  const named = [
    { value: 'today', words: 'today' },
    { value: 'yesterday', words: `yesterday, ${formatWeekday(yesterday, reading)}` },
    { value: 'sunday', words: `last Sunday, ${formatWeekday(sunday, reading).replace(/^\w+, /, '')}` },
    { value: 'other', words: 'another day' },
  ];
  return named.filter((choice) => choice.value !== 'sunday' || sunday !== yesterday);
}

/** The Sunday before today; on a Sunday the one a week ago. */
export function lastSunday(today: CalendarDate): CalendarDate {
  const weekday = new Date(`${today}T12:00:00Z`).getUTCDay();
  return addDays(today, weekday === 0 ? -7 : -weekday);
}
