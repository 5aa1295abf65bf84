import { entry, orNone } from '../lookup.ts';
/**
 * A mixed-integer linear model as plain data: named columns with bounds, costs and whole-number marks, named rows with
 * sparse entries. It knows nothing of pantries and nothing of any solver. Minimisation; `Infinity` is no bound.
 */
export interface Model {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Added to the objective whatever is chosen. */
  readonly constant: number;
}

export interface Column {
  readonly name: string;
  readonly lower: number;
  readonly upper: number;
  readonly integer: boolean;
  readonly cost: number;
}

/** `lower <= sum(coefficient × column) <= upper`. */
export interface Row {
  readonly name: string;
  readonly lower: number;
  readonly upper: number;
  readonly entries: readonly Entry[];
}

/** Index of a column and its coefficient. */
export type Entry = readonly [column: number, coefficient: number];

export interface ColumnBounds {
  readonly lower: number;
  readonly upper?: number;
  readonly integer?: boolean;
}

/** Grows a model column by column and row by row; an index once given out keeps its meaning. */
export interface ModelWriter {
  column(name: string, bounds: ColumnBounds): number;
  /** Drops zero coefficients and sums repeated columns; an empty row that cannot hold is an error of ours. */
  row(name: string, lower: number, entries: readonly Entry[], upper: number): void;
  /** Adds to the cost of a column under a named term of the objective, cents per unit of the column. */
  price(term: string, column: number, cents: number): void;
  constant(term: string, cents: number): void;
  finish(): { readonly model: Model; readonly terms: Readonly<Record<string, ObjectiveTerm>> };
}

export interface ObjectiveTerm {
  readonly constant: number;
  readonly entries: readonly Entry[];
}

export function createModelWriter(): ModelWriter {
  const columns: { name: string; lower: number; upper: number; integer: boolean; cost: number }[] = [];
  const rows: Row[] = [];
  const terms = new Map<string, { constant: number; entries: Entry[] }>();
  const termOf = (name: string) => {
    const term = terms.get(name) ?? { constant: 0, entries: [] };
    terms.set(name, term);
    return term;
  };
  return {
    column(name, { lower, upper = Number.POSITIVE_INFINITY, integer = false }) {
      columns.push({ name, lower, upper, integer, cost: 0 });
      return columns.length - 1;
    },
    row(name, lower, entries, upper) {
      const merged = mergeEntries(entries);
      if (merged.length === 0) {
        if (lower > 1e-9 || upper < -1e-9)
          throw new Error(`row ${name}: expected an entry, found none and bounds ${lower}..${upper}`);
        return;
      }
      rows.push({ name, lower, upper, entries: merged });
    },
    price(term, column, cents) {
      const target = columns[column];
      if (target === undefined) throw new Error(`price ${term}: no column ${column}`);
      if (cents === 0) return;
      target.cost += cents;
      termOf(term).entries.push([column, cents]);
    },
    constant(term, cents) {
      termOf(term).constant += cents;
    },
    finish() {
      const constant = [...terms.values()].reduce((sum, term) => sum + term.constant, 0);
      return { model: { columns, rows, constant }, terms: Object.fromEntries(terms) };
    },
  };
}

function mergeEntries(entries: readonly Entry[]): Entry[] {
  const sums = new Map<number, number>();
  for (const [column, coefficient] of entries) sums.set(column, orNone(sums.get(column)) + coefficient);
  return [...sums]
    .filter(([, coefficient]) => coefficient !== 0)
    .map(([column, sum]): Entry => [column, sum]);
}

/** Objective of given column values, constant included, whether or not they keep the rows. */
export function objectiveOf(model: Model, values: ArrayLike<number>): number {
  return model.columns.reduce(
    (sum, column, at) => sum + column.cost * entry(values, at, 'values'),
    model.constant,
  );
}

/** Names of the bounds, rows and whole-number marks that given values break by more than `tolerance`. */
export function violations(model: Model, values: ArrayLike<number>, tolerance = 1e-6): string[] {
  const value = (at: number) => entry(values, at, 'values');
  const off = (amount: number, lower: number, upper: number) =>
    amount < lower - tolerance * Math.max(1, Math.abs(lower)) ||
    amount > upper + tolerance * Math.max(1, Math.abs(upper));
  const brokenColumns = model.columns
    .filter(({ lower, upper, integer }, at) => {
      const amount = value(at);
      return off(amount, lower, upper) || (integer && Math.abs(amount - Math.round(amount)) > tolerance);
    })
    .map(({ name }) => name);
  const brokenRows = model.rows
    .filter(({ entries, lower, upper }) =>
      off(
        entries.reduce((sum, [column, coefficient]) => sum + coefficient * value(column), 0),
        lower,
        upper,
      ),
    )
    .map(({ name }) => name);
  return [...brokenColumns, ...brokenRows];
}
