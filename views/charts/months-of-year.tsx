import { round } from './rounding.ts';

export interface MonthOfYear {
  readonly key: string;
  /** `Aug 2026` */
  readonly month: string;
  readonly money: number;
  readonly moneyWords: string;
  readonly minutes: number;
  readonly hoursWords: string;
  /** Of what a store's price is known of; null where of nothing. */
  readonly inStore: {
    readonly own: number;
    readonly asked: number;
    /** `$12 instead of $31` */
    readonly words: string;
  } | null;
}

/** A month a line: money and hours as bars, and beside them what a store would have asked for the same. */
export const MonthsOfYear = ({ months }: { months: readonly MonthOfYear[] }) => {
  const most = (of: (month: MonthOfYear) => number) => Math.max(1e-9, ...months.map(of));
  const [money, minutes] = [most((month) => month.money), most((month) => month.minutes)];
  const asked = most(({ inStore }) => Math.max(inStore?.asked ?? 0, inStore?.own ?? 0));
  const isCompared = months.some(({ inStore }) => inStore !== null);
  return (
    <table class="months-of-year">
      <caption class="heard-only">Money and hours of what was put up, month by month</caption>
      <thead>
        <tr>
          <th scope="col">Month</th>
          <th scope="col">Money</th>
          <th scope="col">Hours</th>
          {isCompared ? <th scope="col">Instead of a store’s</th> : null}
        </tr>
      </thead>
      <tbody>
        {months.map((month) => (
          <tr key={month.key}>
            <th scope="row">{month.month}</th>
            <td>
              <Bar share={month.money / money} kind="money" />
              {month.moneyWords}
            </td>
            <td>
              <Bar share={month.minutes / minutes} kind="hours" />
              {month.hoursWords}
            </td>
            {isCompared ? (
              <td>
                {month.inStore === null ? null : (
                  <>
                    <Bar share={month.inStore.asked / asked} over={month.inStore.own / asked} kind="store" />
                    {month.inStore.words}
                  </>
                )}
              </td>
            ) : null}
          </tr>
        ))}
      </tbody>
    </table>
  );
};

const percent = (share: number): string => `${round(Math.max(0, Math.min(1, share)) * 100)}%`;

const Bar = ({ share, over, kind }: { share: number; over?: number; kind: 'money' | 'hours' | 'store' }) => (
  <svg class="month-bar" aria-hidden="true">
    <rect class={`month-${kind}`} width={percent(share)} height="100%" />
    {over === undefined ? null : <rect class="month-money" width={percent(over)} y="25%" height="50%" />}
  </svg>
);
