import { parse } from 'csv-parse/sync';
import type { z } from 'zod';
import { wordFor } from '../../shared/counting.ts';
import { found, type Outcome, type Problem, refused } from '../../shared/problems.ts';

const broken = (name: string, message: string): Outcome<never> =>
  refused({ code: 'table-broken', path: [name], message });

const columnsOf = (schema: z.ZodType): readonly string[] => {
  // A row schema is an object, possibly refined and piped into a rename; walk inwards to its columns.
  let inner: unknown = schema;
  while (inner && typeof inner === 'object') {
    if ('shape' in inner && inner.shape && typeof inner.shape === 'object') return Object.keys(inner.shape);
    inner = 'in' in inner ? inner.in : undefined;
  }
  return [];
};

/** The good rows of a table and the faults of the others, each with its line. */
export interface TableRows<Row> {
  readonly rows: readonly Row[];
  readonly problems: readonly Problem[];
}

/**
 * Reads a table from CSV text through its row schema. Every fault is listed with the line of the file, the column, what
 * was expected and what was found; a table with a fault gives no rows at all.
 */
export const readTable = <Row>(
  name: string,
  text: string,
  schema: z.ZodType<Row>,
): Outcome<readonly Row[]> => {
  const outcome = readRows(name, text, schema);
  if (!outcome.ok) return outcome;
  const { rows, problems } = outcome.value;
  return problems.length > 0 ? refused(...problems) : found(rows);
};

/** As readTable, but keeps the good rows beside the faults; refuses only text that is no table of these columns. */
export const readRows = <Row>(
  name: string,
  text: string,
  schema: z.ZodType<Row>,
): Outcome<TableRows<Row>> => {
  let records: readonly { record: Record<string, string>; info: { lines: number } }[];
  try {
    records = parse(text, { columns: true, bom: true, skip_empty_lines: true, info: true, trim: true });
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    return broken(
      name,
      `${name} could not be read as comma-separated text: ${reason}. Mend that line and try again.`,
    );
  }
  const first = records[0];
  if (!first)
    return broken(name, `${name} has no rows. Expected a header line and at least one row below it.`);
  const missing = columnsOf(schema).filter((column) => !(column in first.record));
  if (missing.length > 0) {
    return broken(
      name,
      `${name} lacks the ${wordFor(missing.length, 'column')} ${missing.join(', ')}; found ${Object.keys(first.record).join(', ')}. Add ${wordFor(missing.length, 'it', 'them')} to the header line.`,
    );
  }

  const rows: Row[] = [];
  const problems: Problem[] = [];
  for (const { record, info } of records) {
    const parsed = schema.safeParse(record);
    if (parsed.success) rows.push(parsed.data);
    else {
      for (const issue of parsed.error.issues) {
        const column = String(issue.path[0] ?? '');
        problems.push({
          code: 'table-row-broken',
          path: [name, info.lines, column],
          message: `${name}, line ${info.lines}, ${column || 'row'}: ${issue.message}; found ${JSON.stringify(record[column] ?? '')}.`,
        });
      }
    }
  }
  return found({ rows, problems });
};
