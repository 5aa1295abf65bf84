import { counted } from '../../../shared/counting.ts';
import type { Season } from '../../../src/harvest/season.ts';
import type { Source } from '../../../src/household/source.ts';
import type {
  ItemAhead,
  ItemWithout,
  YearWithout,
} from '../../../src/planning/explanation/without-harvest.ts';
import type { WithoutPageProps } from '../../../views/pages/harvest/without-page.tsx';
import { formatMoney } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf } from '../../words/shelf-units.ts';

/** The year beside the year without a harvest; why there is no answer where there is none. */
export function presentWithout(
  source: Source,
  season: Season | null,
  answer: YearWithout | null,
  reading: Reading,
): Omit<WithoutPageProps, 'frame'> {
  const title = season === null ? source.name : `If you get nothing from ${source.name} in ${season.year}`;
  const own = { title, newSource: `/harvest/new?crop=${encodeURIComponent(source.crop)}` };
  if (answer === null)
    return {
      ...own,
      words:
        season === null
          ? 'No season of it is known, so the plan does not count on it.'
          : 'There is no plan of today to compare with, or none could be made without it. Plan again on This week, then ask once more.',
      rows: [],
    };
  return { ...own, words: wordsOf(answer, reading), rows: answer.items.map((one) => rowOf(one, reading)) };
}

/** Fewer cents than this are no difference worth saying. */
const fewCents = 100;

function wordsOf({ items, spend }: YearWithout, reading: Reading): string {
  const barer = items.filter(({ now, instead }) => instead.weeksWithout > now.weeksWithout).length;
  const cents = spend.instead - spend.now;
  const money =
    Math.abs(cents) < fewCents
      ? 'and the year would cost about the same'
      : `and the year would cost about ${formatMoney(Math.abs(cents) as typeof spend.now, reading, true)} ${cents > 0 ? 'more' : 'less'}`;
  if (items.length === 0) return `Nothing you eat would change, ${money}.`;
  const bare =
    barer === 0
      ? 'No food would be missing for longer than it is now'
      : `${counted(barer, 'food')} would be missing for longer than now`;
  return `${bare}, ${money}. We planned the year anew without it, to within 2% of the best, so another food may differ by a batch. Your own plan stays as it is.`;
}

const rowOf = ({ item, now, instead }: ItemWithout, reading: Reading): WithoutPageProps['rows'][number] => {
  const units = (of: (ahead: ItemAhead) => number) =>
    change(of(now), of(instead), (x) => amountOf(item, x, reading));
  return {
    key: item.id,
    item: { name: item.name, family: item.family, href: `/year/${item.id}` },
    putUp: units(({ putUp }) => putUp),
    bought: units(({ bought }) => bought),
    without: change(now.weeksWithout, instead.weeksWithout, (weeks) => counted(weeks, 'week')),
  };
};

/** `18 pints instead of 27`, or what stays. */
function change(now: number, instead: number, words: (amount: number) => string): string {
  if (now === 0 && instead === 0) return '';
  const [before, after] = [words(now), words(instead)];
  return before === after
    ? after
    : `${instead === 0 ? 'none' : after} instead of ${now === 0 ? 'none' : before}`;
}
