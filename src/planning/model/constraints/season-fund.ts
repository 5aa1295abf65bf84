import { entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { purchasePrices } from '../purchase-prices.ts';

/**
 * Money set aside so far covers what is spent; the fund never goes below zero.
 *
 * `fund[w] = fund[w-1] + set aside in w - sum(price × bought in w)`, cents. When whole packs are asked for, an overdraft
 * `fund_over[w]` is possible at a price, and said.
 */
export function seasonFund({ sets, spans, columns, writer }: Draft): void {
  sets.weekIndexes.forEach((week) => {
    const entries: Entry[] = [[entry(columns.fund, week, 'fund'), 1]];
    if (week > 0) entries.push([entry(columns.fund, week - 1, 'fund'), -1]);
    for (const { column, cents } of purchasePrices({ sets, spans, columns }, week))
      entries.push([column, cents]);
    const over = columns.fundOver[week];
    if (over != null) entries.push([over, -1]);
    const setAside =
      (week === 0 ? sets.year.fund.opening : 0) +
      entry(sets.year.fund.setAsideByWeek, week, 'setAsideByWeek');
    writer.row(`season_fund[${sets.year.weeks[week]}]`, setAside, entries, setAside);
  });
}
