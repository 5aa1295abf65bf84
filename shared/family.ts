import { z } from 'zod';

export const families = [
  'stone-fruit',
  'berries',
  'apples-pears',
  'tomatoes',
  'greens-beans',
  'roots',
  'pickles',
  'dry-goods',
  'meat-stock',
] as const;
/** Family of produce an item belongs to; sets its stripe and curve, and the order in which boards stand. */
export const family = z.enum(families);
export type Family = z.output<typeof family>;
