import { compare } from '../../../shared/compare.ts';
import { addDays, daysBetween, mondayOf, type WeekKey } from '../../../shared/week.ts';
import { nearsItsDate } from '../../shelf/eat-first.ts';
import { isToEat } from '../eating-pace.ts';
import type { Notice } from '../notice.ts';
import type { NoticeItem, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords, paceWords, weekOfWords } from '../notice-words.ts';

/** So near to its date a food is eaten for it; the usual lead of that notice. */
const soonDays = 42;

/** What the one notice of all that is gone is about, and that of all that soon will be. */
export const noneLeftId = 'none-left';
export const soonGoneId = 'soon-gone';

/**
 * Will likely run out before it can be made or bought again: the week in which it does comes before the next supply, and is at
 * most `leadDays` away. What nobody eats, and what lasts to its supply, is left alone; so is
 * what was never written down, which `notOnRecord` asks about. Three or more of which nothing is left are one notice, three or more that
 * soon run out another; what nothing can bring again has its own, with the step that mends it.
 */
export const runsOut = (picture: NoticePicture, leadDays: number): Notice[] => {
  const gone = picture.items
    .filter((item) => item.isOnRecord && likelyRunsOut(item) && item.onShelf <= 0 && !item.missing)
    .toSorted(
      (one, other) =>
        compare(one.itemName, other.itemName) ||
        compare(one.nextSupplyWeek ?? '9', other.nextSupplyWeek ?? '9') ||
        compare(one.itemId, other.itemId),
    );
  const soon = picture.items
    .filter((item) => item.onShelf > 0 && !item.missing && isDue(item, picture, leadDays))
    .toSorted(
      (one, other) =>
        compare(one.runsOutIn ?? '', other.runsOutIn ?? '') ||
        compare(one.itemName, other.itemName) ||
        compare(one.itemId, other.itemId),
    );
  const together = [gone, soon].filter(({ length }) => length >= fewestTogether).flat();
  return [
    ...(gone.length < fewestTogether ? [] : [noneLeft(picture, gone)]),
    ...(soon.length < fewestTogether ? [] : [soonGone(picture, soon)]),
    ...oneByOne({ ...picture, items: picture.items.filter((item) => !together.includes(item)) }, leadDays),
  ];
};

/** So many of which nothing is left, or soon will be, are said in one line: each asks for the same. */
const fewestTogether = 3;

const noneLeft = ({ weekStartsOn }: NoticePicture, gone: readonly NoticeItem[]): Notice => ({
  kind: 'runs out',
  subject: `items:${noneLeftId}`,
  reason: `None left of ${gone.length}: ${listWords(
    gone.map((item) => `${item.itemName} (${againWords(item, weekStartsOn)})`),
  )}.`,
  dueOn: null,
  about: gone.map(({ itemId }) => itemId),
});

const againWords = (
  { nextSupplyBy, nextSupplyWeek }: NoticeItem,
  weekStartsOn: NoticePicture['weekStartsOn'],
): string =>
  nextSupplyWeek === null
    ? 'nothing planned within the year'
    : `${nextSupplyBy} again in ${weekOfWords(nextSupplyWeek, weekStartsOn)}`;

const soonGone = ({ weekStartsOn }: NoticePicture, soon: readonly NoticeItem[]): Notice => ({
  kind: 'runs out',
  subject: `items:${soonGoneId}`,
  reason: `Likely to run out before more comes: ${soon
    .map((item) => {
      const week = item.runsOutIn === null ? '' : ` in ${weekOfWords(item.runsOutIn, weekStartsOn)}`;
      return `${item.itemName}${week}, ${amountWords(item.onShelf, item.unit)} left (${againWords(item, weekStartsOn)})`;
    })
    .join('; ')}.`,
  dueOn: soon[0]?.runsOutIn == null ? null : mondayOf(soon[0].runsOutIn),
  about: soon.map(({ itemId }) => itemId),
});

/** Eaten, on record, and likely gone within `leadDays` and before it comes again. */
const isDue = (item: NoticeItem, { asOf }: NoticePicture, leadDays: number): boolean =>
  item.runsOutIn !== null &&
  item.isOnRecord &&
  likelyRunsOut(item) &&
  mondayOf(item.runsOutIn) <= addDays(asOf, leadDays);

const oneByOne = (picture: NoticePicture, leadDays: number): Notice[] =>
  picture.items.flatMap((item) => {
    const week = item.runsOutIn;
    if (week === null || !isDue(item, picture, leadDays)) return [];
    const runsOutOn = mondayOf(week);
    const gone = item.onShelf <= 0;
    return [
      {
        kind: 'runs out',
        subject: `item:${item.itemId}`,
        reason: `${gone ? empty(item) : shelf(item, week, picture)} ${supply(item, picture)}`,
        dueOn: gone ? null : runsOutOn,
      },
    ];
  });

/** Eaten, and likely gone before it can be made or bought again. */
export const likelyRunsOut = ({ runsOutIn, usePerWeek, nextSupplyWeek }: NoticeItem): boolean =>
  runsOutIn !== null && usePerWeek > 0 && (nextSupplyWeek === null || runsOutIn < nextSupplyWeek);

const empty = (item: NoticeItem): string =>
  `${item.itemName}: none left, and you would eat about ${paceWords(item.usePerWeek, item.unit)}.`;

/** At the usual pace; where that pace alone would last twice as long, the rest is promised, wanted for a day, or too old by then. */
function shelf(item: NoticeItem, week: WeekKey, { asOf, weekStartsOn }: NoticePicture): string {
  const left = amountWords(item.onShelf, item.unit);
  const weeksToGo = Math.max(0, daysBetween(asOf, mondayOf(week))) / 7 + 1;
  const isEaten = item.onShelf <= 2 * weeksToGo * item.usePerWeek + 1;
  return `${item.itemName} will likely run out in ${weekOfWords(week, weekStartsOn)}: ${left} left, ${
    isEaten
      ? `and you eat about ${paceWords(item.usePerWeek, item.unit)}`
      : 'some promised, wanted for a day, or too old by then'
  }.`;
}

function supply(
  { itemName, onShelf, nextSupplyWeek, nextSupplyBy, missing }: NoticeItem,
  { weekStartsOn, lots, asOf }: NoticePicture,
): string {
  if (missing) return `You can’t get more yet: ${missing}.`;
  if (nextSupplyWeek === null) return 'Nothing in the plan brings more within the year.';
  const again = `You can ${nextSupplyBy === 'made' ? 'make' : 'buy'} more in ${weekOfWords(nextSupplyWeek, weekStartsOn)}`;
  // What is to be eaten soon for its date is not to be eaten more slowly as well.
  const isToEatSoon = lots.some(
    (lot) => lot.itemName === itemName && isToEat(lot) && nearsItsDate(lot, asOf, soonDays),
  );
  return isToEatSoon || onShelf <= 0
    ? `${again}: fill the gap with something else.`
    : `${again}: eat it more slowly, or fill the gap with something else.`;
}
