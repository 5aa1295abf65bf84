import type { Item } from '../household/item.ts';

/** Where nobody wrote down how long an opened jar keeps: fewer days than any published figure. Our own choice. */
const leastKeepColdDays = 3;

/** Days an opened jar keeps cold, and whether they were written down for this item. */
export const keepColdDaysOf = ({ keepColdDays }: Pick<Item, 'keepColdDays'>) => ({
  days: keepColdDays ?? leastKeepColdDays,
  isKnown: keepColdDays !== null,
});
