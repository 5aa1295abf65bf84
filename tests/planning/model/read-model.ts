import { type BuiltModel, buildModel, canningStage } from '../../../src/planning/model/build-model.ts';
import type { Column, Row } from '../../../src/planning/model/model.ts';
import type { PlanningStage } from '../../../src/planning/model/planning-stage.ts';
import type { PlanningRules } from '../../../src/planning/model/rules.ts';
import type { PlanningYear } from '../../../src/planning/planning-year.ts';

/** A row as a person writes it: what each column counts for, and what they come to at least and at most. */
export interface Statement {
  readonly counts: Readonly<Record<string, number>>;
  readonly least: number;
  readonly most: number;
}

const rounded = (amount: number): number => Math.round(amount * 1e6) / 1e6 + 0;

/** The weeks of a year are written w0, w1, … in the names of rows and columns. */
const shortened = (name: string, weeks: readonly string[]): string =>
  weeks.reduce((text, week, at) => text.replaceAll(week, `w${at}`), name);

/**
 * A statement written by hand, such as `stock[jam,w1] - stock[jam,w0] - 5 batches[plums,w1] = -3`: columns with what they count
 * for on the left, a number on the right.
 */
export function says(text: string): Statement {
  const [, left = '', relation, right] = /^(.*?)\s(=|<=|>=)\s(-?[\d.]+)$/.exec(text.trim()) ?? [];
  if (relation === undefined) throw new Error(`expected a statement, found ${text}`);
  const bound = Number(right);
  const counts = Object.fromEntries(
    [...left.matchAll(/([+-]?)\s*([\d.]*)\s*([a-z_]+\[[^\]]*\])/g)].map(([, sign, amount, column]) => [
      column,
      (sign === '-' ? -1 : 1) * (amount === '' ? 1 : Number(amount)),
    ]),
  );
  return {
    counts,
    least: relation === '<=' ? Number.NEGATIVE_INFINITY : bound,
    most: relation === '>=' ? Number.POSITIVE_INFINITY : bound,
  };
}

export interface ReadModel {
  readonly built: BuiltModel;
  /** The row of that name; undefined where the model has none. Throws where it has several. */
  row(name: string): Statement | undefined;
  /** Names of the rows that begin so, in their order. */
  rows(beginning: string): readonly string[];
  /** The column of that name; undefined where the model has none. */
  column(name: string): Omit<Column, 'name'> | undefined;
  columns(beginning: string): readonly string[];
  /** What the columns of one term of the objective cost each, and what is added whatever is chosen, cents. */
  term(name: string): { readonly cents: Readonly<Record<string, number>>; readonly always: number };
}

/** Week by week, any amount bought, nothing decided yet. */
export const weekly: PlanningStage = { ...canningStage, joinedWeeks: false };

/** A year's model as its reader sees it: rows and columns by name. */
export function readModel(
  year: PlanningYear,
  stage: PlanningStage = weekly,
  rules?: PlanningRules,
): ReadModel {
  const built = buildModel(year, stage, rules);
  const { model, terms } = built;
  const short = (name: string) => shortened(name, year.weeks);
  const columnAt = (at: number): string => short(model.columns[at]?.name ?? `no column ${at}`);
  const only = <T extends { readonly name: string }>(list: readonly T[], name: string): T | undefined => {
    const found = list.filter((one) => short(one.name) === name);
    if (found.length > 1) throw new Error(`expected one ${name}, found ${found.length}`);
    return found[0];
  };
  const statement = ({ lower, upper, entries }: Row): Statement => ({
    counts: Object.fromEntries(entries.map(([column, amount]) => [columnAt(column), rounded(amount)])),
    least: rounded(lower),
    most: rounded(upper),
  });
  return {
    built,
    row: (name) => {
      const row = only(model.rows, name);
      return row && statement(row);
    },
    rows: (beginning) =>
      model.rows.map(({ name }) => short(name)).filter((name) => name.startsWith(beginning)),
    column: (name) => {
      const column = only(model.columns, name);
      if (column === undefined) return undefined;
      const { name: _name, ...rest } = column;
      return rest;
    },
    columns: (beginning) =>
      model.columns.map(({ name }) => short(name)).filter((name) => name.startsWith(beginning)),
    term: (name) => {
      const term = terms[name] ?? { constant: 0, entries: [] };
      return {
        cents: Object.fromEntries(term.entries.map(([column, cents]) => [columnAt(column), rounded(cents)])),
        always: rounded(term.constant),
      };
    },
  };
}
