import type { ItemId } from '../../../shared/ids.ts';

/** How often each item lasted when its plan was played, and what was aimed for. */
export interface Reached {
  readonly years: number;
  readonly items: readonly {
    readonly item: ItemId;
    /** Share of years, its standard error, and the share aimed for; 0 to 1. */
    readonly lasts: number;
    readonly standardError: number;
    readonly aim: number;
    /** Every batch that its crop and the kitchen allow is planned already: more reserve could not help. */
    readonly isAllMade: boolean;
  }[];
}
