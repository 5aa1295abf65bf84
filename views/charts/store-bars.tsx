import { type ItemLabel, ItemName } from '../parts/item-name.tsx';

export interface StoreBar {
  readonly key: string;
  readonly item: ItemLabel;
  /** `saved $23` */
  readonly words: string;
  /** `12 half-pints: $14 here, $37 in a store` */
  readonly told: string;
  /** Money here and in a store, as shares of the longest of all bars. */
  readonly home: number;
  readonly store: number;
}

/** For each food what a store asks, as a line, and what it took here, filled in below: the gap is what was saved. */
export const StoreBars = ({ bars }: { bars: readonly StoreBar[] }) => (
  <ul class="store-bars">
    {bars.map(({ key, item, words, told, home, store }) => (
      <li key={key}>
        <ItemName item={item} />
        <span>{words}</span>
        <svg role="img" aria-label={told}>
          <title>{told}</title>
          <rect class="store-bar" width={percent(store)} height="40%" />
          <rect class="home-bar" y="50%" width={percent(home)} height="50%" />
        </svg>
        <span class="small quiet">{told}</span>
      </li>
    ))}
  </ul>
);

const percent = (share: number): string => `${Math.round(share * 1000) / 10}%`;
