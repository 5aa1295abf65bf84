import { entry } from '../../lookup.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { purchasePrices } from '../purchase-prices.ts';
import { terms } from '../terms.ts';

/**
 * Money set aside so far covers what is spent; the fund never goes below zero.
 *
 * `fund[w] = fund[w-1] + set aside in w - sum(price × bought in w)`, cents. When whole packs are asked for, an overdraft
 * `fund_over[w]` is possible at a price, and said.
 */
export function seasonFund({ sets, spans, columns, writer }: Draft): void {
  sets.weekIndexes.forEach((week) => {
    const setAside =
      (week === 0 ? sets.year.fund.opening : 0) +
      entry(sets.year.fund.setAsideByWeek, week, 'setAsideByWeek');
    writer.row(
      `season_fund[${sets.year.weeks[week]}]`,
      setAside,
      [
        [entry(columns.fund, week, 'fund'), 1],
        ...(week === 0 ? [] : terms([entry(columns.fund, week - 1, 'fund')], -1)),
        ...purchasePrices({ sets, spans, columns }, week).map(({ column, cents }): Entry => [column, cents]),
        ...terms([entry(columns.fundOver, week, 'fundOver')], -1),
      ],
      setAside,
    );
  });
}
