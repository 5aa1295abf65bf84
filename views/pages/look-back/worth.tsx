import { type StoreBar, StoreBars } from '../../charts/store-bars.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState } from '../../parts/part.tsx';

export interface WorthProps {
  /** `$469 saved` */
  readonly heading: string;
  /** In all, and of the shelf as it is today. */
  readonly words: readonly string[];
  readonly bars: readonly StoreBar[];
  /** Put up, and no store price is known. */
  readonly unknown: readonly ItemLabel[];
}

/** Store and home side by side. */
export const WorthBesideStore = ({ heading, words, bars, unknown }: WorthProps) => (
  <details>
    <summary>{`Beside the store: ${heading}`}</summary>
    {words.map((sentence) => (
      <p key={sentence}>{sentence}</p>
    ))}
    {bars.length === 0 ? (
      <EmptyState text="Write down what a store asks for a food, on its page under “Make it or buy it”, and this says what your own is worth." />
    ) : (
      <>
        <p class="small quiet">
          The upper line is the store, the filled one below it your own: produce, supplies and lids at today’s
          prices; jars are used again. Hours are apart.
        </p>
        <StoreBars bars={bars} />
      </>
    )}
    {unknown.length === 0 ? null : (
      <details>
        <summary>{`No store price yet: ${unknown.length}`}</summary>
        <ul class="plain-list">
          {unknown.map((item) => (
            <li key={item.href}>
              <ItemName item={item} />
            </li>
          ))}
        </ul>
      </details>
    )}
  </details>
);
