import { isOrAre } from '../../../shared/counting.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { ItemOnShelf, LotOnShelf } from '../../../src/household/lot.ts';
import { isKeptTooLong } from '../../../src/shelf/best-quality.ts';
import type { TakeFormProps } from '../../../views/pages/shelf/take-form.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { ItemPart } from '../../../views/parts/item-parts.tsx';
import { formatDate, formatDay, formatWeekday } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { type PromisedUnits, unpromisedUnits } from '../../queries/year/promises.ts';
import { amountOf, figureAndUnit, pieceWords } from '../../words/shelf-units.ts';
import { fieldsFrom, type SentBack } from './answer-form.ts';

/** Whose shelf a page shows and who looks at it: a take that waits on a device stays theirs. */
export interface TakenBy {
  readonly household: string;
  /** Empty when nobody is signed in. */
  readonly person: string;
  /** "Quince Yard, Ida" */
  readonly words: string;
  /** Other members, each a tap away; nobody where the household does not say who took a jar. */
  readonly others: readonly string[];
}

/** What a take form needs to know besides the shelf. */
export interface TakeSetting {
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly keys: FormKeys;
  readonly answers: 'row' | ItemPart;
  readonly takenBy: TakenBy;
  readonly promised: PromisedUnits | null;
  /** The lot a person chose instead of the one whose turn it is. */
  readonly pickedLot: string | null;
  /** The form of a take that was sent back. */
  readonly sentBack: SentBack | null;
}

/** The jar to take, or why none is offered. */
export function presentTake(
  shelf: ItemOnShelf,
  setting: TakeSetting,
): { readonly take: TakeFormProps | null; readonly whyNot: string } {
  const { item } = shelf;
  const { today, reading, pickedLot, promised } = setting;
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
      isSealed: lot.jarKind !== null,
      isSorted: item.keeping === 'cellar',
      oneTouch: lot.setAside === null && !isAllPromised(shelf, promised),
      promise: promised === null ? null : promiseWords(shelf, promised, reading),
      takenBy: setting.takenBy,
      which: whichOne(shelf, lot, setting),
      unit: pieceWords(item, reading),
      answers: setting.answers,
      days: dayChoices(today, reading),
      form: {
        ...fieldsFrom(setting.sentBack)(item.id, {
          units: '1',
          day: 'today',
          date: '',
          forPromise: isAllPromised(shelf, promised),
        }),
        keys: setting.keys,
      },
      open: setting.sentBack?.formId === item.id,
    },
  };
}

/**
 * The lot a person picked, otherwise the first to pass its best quality among those ready and not set aside; one that is kept too long
 * only where there is no other.
 */
function lotToTake(shelf: ItemOnShelf, { today, pickedLot }: TakeSetting): LotOnShelf | null {
  const picked = shelf.lots.find((lot) => lot.id === pickedLot);
  if (picked) return picked;
  const ready = shelf.lots.filter((lot) => lot.setAside === null && lot.readyFrom <= today);
  return ready.find((lot) => !isKeptTooLong(lot, today)) ?? ready[0] ?? null;
}

/** Nothing of it may be taken but for what was promised. */
const isAllPromised = (shelf: ItemOnShelf, promised: PromisedUnits | null): boolean =>
  promised !== null && unpromisedUnits(shelf.item, shelf.lots, promised) < 1e-9;

function promiseWords(
  shelf: ItemOnShelf,
  promised: PromisedUnits,
  reading: Reading,
): TakeFormProps['promise'] {
  const day = formatDate(promised.until, reading);
  const spare = unpromisedUnits(shelf.item, shelf.lots, promised);
  const kept = amountOf(shelf.item, promised.units, reading);
  const short = amountOf(shelf.item, -spare, reading);
  return {
    tick: `It is for the promise of ${day}`,
    remark:
      spare < -1e-9
        ? `${kept} ${isOrAre(promised.units)} promised for ${day}: ${short} short.`
        : spare < 1e-9
          ? `All that is left is promised for ${day}.`
          : `${kept} ${isOrAre(promised.units)} promised for ${day}.`,
  };
}

function whichOne(
  shelf: ItemOnShelf,
  lot: LotOnShelf,
  { reading, today }: TakeSetting,
): TakeFormProps['which'] {
  const one = figureAndUnit(amountOf(shelf.item, 1, reading, lot.jarKind)).unit || 'one';
  const where = lot.place === null ? '' : `, ${lot.place.name}`;
  const tooLong = isKeptTooLong(lot, today) ? ' You keep none so long: throw it away.' : '';
  const aside = lot.setAside === null ? tooLong : ` Set aside: ${lot.setAside.reason}. Not to be eaten.`;
  // A pound is weighed out of its batch; it bears no mark of its own.
  const which = shelf.item.unit === 'lb' ? 'Take it from the batch marked' : `Take the ${one} marked`;
  return { one: which, code: lot.batchCode, where: `${where}.${aside}` };
}

function whyNothing(shelf: ItemOnShelf, { reading }: TakeSetting): string {
  const free = shelf.lots.filter((lot) => lot.setAside === null);
  const [curing] = [...free].sort((one, other) => (one.readyFrom < other.readyFrom ? -1 : 1));
  if (curing) return `Not ready before ${formatDate(curing.readyFrom, reading)}.`;
  if (shelf.lots.length > 0) return 'What is left is set aside. Open the item to decide about it.';
  return '';
}

/** Today, yesterday, last Sunday, or a day picked from the calendar. */
function dayChoices(today: CalendarDate, reading: Reading): TakeFormProps['days'] {
  const yesterday = addDays(today, -1);
  const sunday = lastSunday(today);
  const named = [
    { value: 'today', words: 'today' },
    { value: 'yesterday', words: `yesterday, ${formatWeekday(yesterday, reading)}` },
    { value: 'sunday', words: `last Sunday, ${formatDay(sunday, reading)}` },
    { value: 'other', words: 'another day' },
  ];
  return named.filter((choice) => choice.value !== 'sunday' || sunday !== yesterday);
}

/** The Sunday before today; on a Sunday the one a week ago. */
export function lastSunday(today: CalendarDate): CalendarDate {
  const weekday = new Date(`${today}T12:00:00Z`).getUTCDay();
  return addDays(today, weekday === 0 ? -7 : -weekday);
}
