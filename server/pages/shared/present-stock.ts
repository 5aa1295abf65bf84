import { isOrAre, wordFor } from '../../../shared/counting.ts';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import { keptForEmergency } from '../../../src/household/item.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import { isKeptTooLong } from '../../../src/shelf/best-quality.ts';
import { runOutWords, weekWords } from '../../../src/shelf/run-out-words.ts';
import type { RunOutWeek } from '../../../src/shelf/shelf-projection.ts';
import type { ShelfStockProps } from '../../../views/pages/shelf/shelf-row.tsx';
import { formatMonthOfWeek, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { amountOf, figureAndUnit, figureOf, mixedJars } from '../../words/shelf-units.ts';

/** How long an item is expected to last, and when it can be had again. */
export interface ItemOutlook {
  readonly runOut: RunOutWeek;
  /** `then none for 9 weeks`; null for what never runs out. */
  readonly gap: string | null;
  readonly nextSupplyWeek: WeekKey | null;
  readonly nextSupplyBy: 'made' | 'bought';
}

/** What stands of an item, and how long it lasts. */
export function presentStock(
  shelf: ItemOnShelf,
  outlook: ItemOutlook | null,
  today: CalendarDate,
  reading: Reading,
): ShelfStockProps {
  const { figure, unit } = figureAndUnit(amountOf(shelf.item, shelf.units, reading));
  const mixed = mixedJars(shelf.lots, reading);
  return {
    left: figure,
    unit: mixed === null ? unit : `${unit} in all: ${mixed}`,
    lasts: lastsSentence(shelf, outlook, today, reading),
    brief: briefly(shelf, outlook, today),
    urgency: urgencyOf(shelf, outlook),
    remark: remarkOf(shelf, today, reading),
  };
}

type Urgency = ShelfStockProps['urgency'];

/** Over: none is left. Short: it likely runs out before more comes. */
function urgencyOf(shelf: ItemOnShelf, outlook: ItemOutlook | null): Urgency {
  if (shelf.units <= 0) return 'over';
  return outlook === null || outlook.gap === null ? 'calm' : 'short';
}

const eatenDown = 'No longer kept: what is on the shelf is there to be eaten, and no more is made or bought.';

function lastsSentence(
  shelf: ItemOnShelf,
  outlook: ItemOutlook | null,
  today: CalendarDate,
  reading: Reading,
): string {
  if (shelf.item.retiredOn !== null && shelf.units > 0)
    return outlook === null ? eatenDown : `${runOutWords(today, outlook.runOut, shelf.units)} ${eatenDown}`;
  if (outlook === null)
    return shelf.units <= 0 ? 'None on the shelf.' : 'How long it lasts is not known yet.';
  const gap = outlook.gap === null ? '' : ` ${sentenceCase(outlook.gap)}.`;
  return `${stockWords(shelf, outlook, today, reading)}${gap}${nextSupply(outlook, reading)}`;
}

/** How long it lasts, without what is kept for an emergency, which is said beside it. */
function stockWords(
  { item, units }: ItemOnShelf,
  { runOut }: ItemOutlook,
  today: CalendarDate,
  reading: Reading,
): string {
  const kept = Math.min(units, keptForEmergency(item));
  if (kept <= 0) return runOutWords(today, runOut, units);
  if (units <= kept) return 'All of it is kept for an emergency.';
  return `${runOutWords(today, runOut, units - kept)} ${figureOf(item, kept, reading)} more ${isOrAre(kept)} kept for an emergency.`;
}

/** The same in the few words a phone's row has room for; empty where it is not known. */
function briefly(shelf: ItemOnShelf, outlook: ItemOutlook | null, today: CalendarDate): string {
  if (shelf.units <= 0 || outlook === null) return '';
  if (outlook.runOut.p50 === null) return 'the whole year';
  const { to } = weekWords(today, outlook.runOut.p50);
  return to.endsWith('week') ? to : `to ${to}`;
}

/** What is bought can be had any week; only a harvest is worth waiting for in words. */
function nextSupply({ nextSupplyWeek, nextSupplyBy }: ItemOutlook, reading: Reading): string {
  if (nextSupplyBy === 'bought') return '';
  if (nextSupplyWeek === null) return ' No date for more yet.';
  return ` Made again in ${formatMonthOfWeek(nextSupplyWeek, reading)}.`;
}

/** Their jar is named only where it is not the one the row counts in. */
const pastBest = (
  { item }: ItemOnShelf,
  jarKind: ItemOnShelf['item']['usualJar'],
  pieces: number,
  reading: Reading,
): string =>
  jarKind === item.usualJar
    ? formatNumber(pieces, reading)
    : amountOf({ ...item, usualJar: jarKind }, pieces, reading);

const piecesIn = (lots: ItemOnShelf['lots']): number =>
  lots.reduce((total, { unitsLeft }) => total + unitsLeft, 0);

function remarkOf(shelf: ItemOnShelf, today: CalendarDate, reading: Reading): string | null {
  const eaten = shelf.lots.filter((lot) => lot.setAside === null);
  const over = eaten.filter((lot) => isKeptTooLong(lot, today));
  const past = eaten.filter((lot) => lot.bestQualityUntil < today && !over.includes(lot));
  const amount = (lots: typeof past): string =>
    pastBest(shelf, lots[0]?.jarKind ?? null, piecesIn(lots), reading);
  const remarks = [
    ...(over.length === 0
      ? []
      : [
          `Throw away: ${amount(over)} kept too long${shelf.item.keeping === 'refrigerated' ? ' in the refrigerator' : ', by your own limit'}.`,
        ]),
    ...(past.length === 0
      ? []
      : [`Eat first: ${amount(past)} past ${wordFor(piecesIn(past), 'its', 'their')} best.`]),
  ];
  if (remarks.length > 0) return remarks.join(' ');
  const aside = shelf.lots.filter((lot) => lot.setAside !== null);
  return aside.length > 0 ? 'Some are set aside and not counted.' : null;
}
