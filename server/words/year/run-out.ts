import { counted, wordFor } from '../../../shared/counting.ts';
import type { WeekKey } from '../../../shared/week.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import { weekWords } from '../../../src/shelf/run-out-words.ts';
import { formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import type { YearPicture } from '../../year/year-picture.ts';

/** An item's gap as its week and length. */
export interface GapAhead {
  readonly begins: WeekKey;
  readonly weeks: number;
  /** Nothing ends it within the year ahead. */
  readonly isOpen: boolean;
}

export const gapsAhead = ({ gaps, projection }: Pick<ItemYear, 'gaps' | 'projection'>): readonly GapAhead[] =>
  gaps.flatMap(({ from, until }) => {
    const begins = projection?.weeks[from]?.week;
    return begins === undefined
      ? []
      : [{ begins, weeks: until - from, isOpen: until === projection?.weeks.length }];
  });

/** `9 weeks`, `1 week`; `24 weeks or more` where nothing ends it within the year. */
const gapLength = ({ weeks, isOpen }: GapAhead): string =>
  `${counted(weeks, 'week')}${isOpen ? ' or more' : ''}`;

const gapFrom = (gap: GapAhead, asOf: YearPicture['asOf']): string =>
  `for ${gapLength(gap)} from ${weekWords(asOf, gap.begins).to}`;

/**
 * `then none for 9 weeks` after the words of how long it lasts; the week is named where the gap does not begin with it:
 * `none for 9 weeks from mid April`. Null for what never runs out.
 */
export function gapWords(itemYear: ItemYear, asOf: YearPicture['asOf']): string | null {
  const [first, ...later] = gapsAhead(itemYear);
  if (first === undefined) return null;
  const follows = itemYear.unitsToEat > 0 && first.begins === itemYear.runOut?.p50;
  const words = follows
    ? `then none for ${gapLength(first)}`
    : itemYear.unitsToEat <= 0 && itemYear.gaps[0]?.from === 0
      ? `none for ${gapLength(first)}`
      : `none ${gapFrom(first, asOf)}`;
  return listed([words, ...later.map((gap) => gapFrom(gap, asOf))]);
}

/** `none for 9 weeks from mid April and for 3 weeks or more from early July`, whatever goes before; null for what never runs out. */
export function bareWords(
  itemYear: Pick<ItemYear, 'gaps' | 'projection'>,
  asOf: YearPicture['asOf'],
): string | null {
  const gaps = gapsAhead(itemYear);
  return gaps.length === 0 ? null : `none ${listed(gaps.map((gap) => gapFrom(gap, asOf)))}`;
}

/** `Likely none from the week of Apr 18, for 9 weeks`: a gap in the picture of the year. */
export const gapInPicture = (gap: GapAhead, reading: Reading): string =>
  `Likely none from the ${formatWeek(gap.begins, reading)}, for ${gapLength(gap)}`;

/** `Likely none now, for 9 weeks`: the same where the shelf is bare today. */
export const gapFromNow = (gap: GapAhead): string => `Likely none now, for ${gapLength(gap)}`;

/** `none 9 weeks`, `none 24 weeks or more`: what stands where the board is gone. */
export const gapInHole = (gap: GapAhead): string => `none ${gapLength(gap)}`;

export const runsOut = ({ gaps }: ItemYear): boolean => gaps.length > 0;

/** `With this plan, 7 of your 23 preserves will probably run out before you can make more.` */
export function runOutSummary({ items, plan }: Pick<YearPicture, 'items' | 'plan'>): string {
  const under = plan === null ? 'With what is on the shelf' : 'With this plan';
  const preserves = items.filter(({ item }) => item.kind === 'preserve');
  const staples = items.filter(({ item }) => item.kind === 'staple');
  const made = preserves.filter(runsOut).length;
  const bought = staples.filter(runsOut).length;
  const ofPreserves = someOf(made, preserves.length, { whose: 'your', one: 'preserve', rest: '' });
  const ofStaples = someOf(bought, staples.length, { whose: 'the', one: 'thing', rest: ' you buy' });
  if (made + bought === 0)
    return `${under}, ${preserves.length === 0 ? 'everything you buy' : 'every preserve'} will probably last until there is more.`;
  if (bought === 0) return `${under}, ${ofPreserves} will probably run out before you can make more.`;
  return made === 0
    ? `${under}, ${ofStaples} will probably run out before you get more.`
    : `${under}, ${ofPreserves} and ${ofStaples} will probably run out before you can make or get more.`;
}

/** `3 of your 23 preserves`, `all 7 of your preserves`, `the only thing you buy`. */
function someOf(
  some: number,
  all: number,
  { whose, one, rest }: { readonly whose: string; readonly one: string; readonly rest: string },
): string {
  if (some < all) return `${some} of ${whose} ${counted(all, one)}${rest}`;
  if (all < 2) return `${whose} only ${one}${rest}`;
  return `all ${all} of ${whose} ${wordFor(all, one)}${rest}`;
}
