import type { Reason } from '../../../src/planning/explanation/batch-reasons.ts';
import type { WishReason } from '../../../src/planning/explanation/wish-reasons.ts';
import { formatDate, formatNumber, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** Why a batch is made and why in its week, in a sentence. */
export function reasonWords(reason: Reason, reading: Reading): string {
  const week = (key: Parameters<typeof formatWeek>[0]) => `the ${formatWeek(key, reading)}`;
  switch (reason.code) {
    case 'pinned':
      return 'You asked for it in this week.';
    case 'begun':
      return `It was begun on ${formatDate(reason.on, reading)}${mayBeFilled(reason.may, week)}.`;
    case 'wanted':
      return reason.shortIn === null
        ? `It makes ${reason.item} last past the end of the year, until more comes.`
        : `Without it ${reason.item} would run short by ${week(reason.shortIn)}.`;
    case 'only-weeks':
      return `It can be ${reason.isBegunBefore ? 'begun' : 'made'} only ${spanOf(reason, week)}.`;
    case 'cheapest-week':
      return `Its produce costs least in ${reason.isBegunBefore ? 'the week in which it is begun' : 'this week'}.`;
    case 'garden-crop':
      return `It uses what our own garden gives in ${reason.isBegunBefore ? 'the week in which it is begun' : 'this week'}.`;
    case 'by-product':
      return `It works up ${reason.material}, which would be lost otherwise.`;
    case 'hours-full-before':
    case 'hours-full-after':
      return `The kitchen is full in ${week(reason.week)}.`;
  }
}

type Weeks = Extract<Reason, { readonly code: 'begun' }>['may'];
type WeekWords = (key: Parameters<typeof formatWeek>[0]) => string;

const mayBeFilled = (may: Weeks, week: WeekWords): string =>
  may === null
    ? ''
    : `, and its jars may be filled ${may.from === may.until ? 'only ' : ''}${spanOf(may, week)}`;

const spanOf = ({ from, until }: NonNullable<Weeks>, week: WeekWords): string =>
  from === until ? `in ${week(from)}` : `from ${week(from)} to ${week(until)}`;

/** Why a wish could not be met, in a sentence. */
export function wishReasonWords(reason: WishReason, reading: Reading): string {
  switch (reason.code) {
    case 'cannot-be-made':
      return `You can neither make nor buy ${reason.item} this year.`;
    case 'before-supply':
      return `Too little is left to reach the ${formatWeek(reason.first, reading)}, when you can first make more.`;
    case 'hours':
      return `The kitchen is full in every week in which ${reason.item} can be made.`;
    case 'produce':
      return `All the produce that could become ${reason.item} is already used.`;
    case 'money':
      return 'For much of the year the season fund is spent as fast as it fills.';
    case 'not-worth-a-batch':
      return `One more batch makes ${formatNumber(reason.batchUnits, reading)}, and most of it would be left over: too seldom needed for the work.`;
    case 'other-wishes':
      return 'The time, money and produce go to things that matter more.';
  }
}
