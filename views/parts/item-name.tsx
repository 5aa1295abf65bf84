import type { Family } from '../../shared/family.ts';

export interface ItemLabel {
  readonly name: string;
  readonly family: Family;
  readonly href?: string;
}

/** The name of an item behind the stripe of its family. The stripe never stands without the name. */
export const ItemName = ({ item }: { item: ItemLabel }) => (
  <span class={`item-name family-${item.family}`}>
    {item.href === undefined ? item.name : <a href={item.href}>{item.name}</a>}
  </span>
);
