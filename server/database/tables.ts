import type { AccountsTables } from './tables/accounts.ts';
import type { BuyingTables } from './tables/buying.ts';
import type { CanningDaysTables } from './tables/canning-days.ts';
import type { ExchangeTables } from './tables/exchange.ts';
import type { HarvestTables } from './tables/harvest.ts';
import type { ItemsTables } from './tables/items.ts';
import type { JarsTables } from './tables/jars.ts';
import type { JobsTables } from './tables/jobs.ts';
import type { KitchenTables } from './tables/kitchen.ts';
import type { NoticesTables } from './tables/notices.ts';
import type { PlansTables } from './tables/plans.ts';
import type { RecipesTables } from './tables/recipes.ts';
import type { ShelfTables } from './tables/shelf.ts';

// One interface per table, by subject, exactly as SQLite holds it: text, numbers and nothing else. Rows stay inside
// server/queries and server/records; everything else works with the values those return.

export type * from './tables/accounts.ts';
export type * from './tables/buying.ts';
export type * from './tables/canning-days.ts';
export type * from './tables/exchange.ts';
export type * from './tables/harvest.ts';
export type * from './tables/items.ts';
export type * from './tables/jars.ts';
export type * from './tables/jobs.ts';
export type * from './tables/kitchen.ts';
export type * from './tables/notices.ts';
export type * from './tables/plans.ts';
export type * from './tables/recipes.ts';
export type * from './tables/shelf.ts';

/** Every table of the program by its name. */
export interface Tables
  extends AccountsTables,
    BuyingTables,
    CanningDaysTables,
    ExchangeTables,
    HarvestTables,
    ItemsTables,
    JarsTables,
    JobsTables,
    KitchenTables,
    NoticesTables,
    PlansTables,
    RecipesTables,
    ShelfTables {}
