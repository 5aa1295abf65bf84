import { ShelfwardError } from '../../shared/problems.ts';
import type { SchemaTable } from './engine.ts';

/** A column as the schema lists it, with its table and its place in that table's key, from 1; 0 outside it. */
export interface ListedColumn {
  readonly table: string;
  readonly name: string;
  readonly key: number;
}

/** Rows of the one point to rows of the other. */
export interface Pointing {
  readonly table: string;
  readonly to: string;
}

/** Each table after those it points to, and otherwise in the order they are listed; a table may point to itself. */
export function tablesInOrder(
  columns: readonly ListedColumn[],
  pointing: readonly Pointing[],
): readonly SchemaTable[] {
  const waiting = new Map<string, SchemaTable>();
  for (const name of new Set(columns.map(({ table }) => table))) {
    const own = columns.filter(({ table }) => table === name);
    waiting.set(name, {
      name,
      columns: own.map((column) => column.name),
      key: own
        .filter(({ key }) => key > 0)
        .sort((one, other) => one.key - other.key)
        .map((column) => column.name),
      pointsTo: pointing.filter(({ table, to }) => table === name && to !== name).map(({ to }) => to),
    });
  }
  const ordered: SchemaTable[] = [];
  while (waiting.size > 0) {
    const next = [...waiting.values()].find(({ pointsTo }) => !pointsTo.some((to) => waiting.has(to)));
    if (next === undefined)
      throw new ShelfwardError(
        'tables-in-a-circle',
        `tablesInOrder: expected no circle among ${[...waiting.keys()].join(', ')}`,
      );
    waiting.delete(next.name);
    ordered.push(next);
  }
  return ordered;
}
