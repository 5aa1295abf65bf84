import type { Tables } from '../database/tables.ts';
import { buyingColumns } from './buying.ts';
import { canningColumns } from './canning.ts';
import type { CarriedTable } from './carried-table.ts';
import { itemColumns } from './items.ts';
import { kitchenColumns } from './kitchen.ts';
import { recipeColumns } from './recipes.ts';
import { settingColumns } from './settings.ts';
import { shelfColumns } from './shelf.ts';

// What a household file may hold, column by column: the bounds of the forms that fill them. One test holds the declaration
// against the schema of the database, another against the forms, so that a column added there cannot be forgotten here.

/** Tables a household takes along, each after those it points to. */
export const carried = {
  ...kitchenColumns,
  ...itemColumns,
  ...recipeColumns,
  ...shelfColumns,
  ...canningColumns,
  ...buyingColumns,
  ...settingColumns,
} as const satisfies Partial<Record<keyof Tables, CarriedTable>>;

export type CarriedName = keyof typeof carried;
export const carriedTables = Object.keys(carried) as readonly CarriedName[];

/** Numbered by the household in the order of writing. */
export const numbered: ReadonlySet<string> = new Set(
  Object.entries(carried as Readonly<Record<string, CarriedTable>>)
    .filter(([, { key: own }]) => own[0] === 'seq')
    .map(([name]) => name),
);
