import { oneOrMore, wordFor } from '../../../shared/counting.ts';
import type { Item } from '../../../src/household/item.ts';
import { formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** "1 jar more than fits: fill one less, or keep it in the refrigerator and eat it within 30 days." Null where none is set aside. */
export function asideWords(
  jars: number | undefined,
  { keepColdDays }: Pick<Item, 'keepColdDays'>,
  reading: Reading,
): string | null {
  if (jars === undefined || jars === 0) return null;
  const less = oneOrMore(jars, 'less', 'less');
  const it = wordFor(jars, 'it', 'them');
  const within = keepColdDays === null ? 'first' : `within ${formatQuantity(keepColdDays, 'day', reading)}`;
  return `${formatQuantity(jars, 'jar', reading)} more than fits, and no load for that: fill ${less}, or keep ${it} in the refrigerator and eat ${it} ${within}.`;
}
