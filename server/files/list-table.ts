import { parse } from 'csv-parse/sync';
import { counted } from '../../shared/counting.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { problem } from '../records/record.ts';
import { withoutMark } from './csv-text.ts';

export interface ParsedList {
  readonly header: readonly string[];
  readonly rows: readonly { readonly line: number; readonly cells: readonly string[] }[];
}

const mostRows = 10_000;
export const mostColumns = 100;
const longestRecord = 100_000;
const longestHeading = 80;

/** Reads CSV text with commas, semicolons or tabs; the first row names the columns. */
export function parseList(text: string): Outcome<ParsedList> {
  const firstLine = text.replace(/^\uFEFF/, '').split(/\r?\n/, 1)[0] ?? '';
  const delimiter = [',', ';', '\t'].reduce((best, sign) =>
    firstLine.split(sign).length > firstLine.split(best).length ? sign : best,
  );
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(text, {
      bom: true,
      delimiter,
      info: true,
      max_record_size: longestRecord,
      relax_column_count: true,
      skip_empty_lines: true,
      to: mostRows + 2,
      trim: true,
    }) as unknown as typeof records;
  } catch (cause) {
    return refused(
      problem(
        'list-unreadable',
        'file',
        `This file is not a CSV table: ${whyNoTable(cause)}. Save the list as CSV and send it again.`,
      ),
    );
  }
  const widest = records.find(({ record }) => record.length > mostColumns);
  if (widest !== undefined)
    return refused(
      problem(
        'list-too-wide',
        'file',
        `A list may have ${mostColumns} columns; line ${widest.info.lines.toLocaleString('en-US')} has ${widest.record.length.toLocaleString('en-US')}. Take out the columns that do not belong to the list.`,
      ),
    );
  const [header, ...rows] = records;
  if (header === undefined || rows.length === 0)
    return refused(
      problem(
        'list-empty',
        'file',
        'A list needs a row of headings and at least one row under it; this one has less. Choose another file.',
      ),
    );
  if (rows.length > mostRows)
    return refused(
      problem(
        'list-too-long',
        'file',
        `A list may have ${counted(mostRows.toLocaleString('en-US'), 'row')}; this one has more. Send it in parts.`,
      ),
    );
  return found({
    header: header.record.map((heading) => heading.slice(0, longestHeading)),
    rows: rows.map(({ record, info }) => ({
      line: info.lines,
      // A mark before what looks like a formula is the spreadsheet's, not part of the text.
      cells: record.map(withoutMark),
    })),
  });
}

/** Why a text is no table, in words of ours. */
function whyNoTable(cause: unknown): string {
  const code = cause instanceof Error && 'code' in cause ? String(cause.code) : '';
  const line = cause instanceof Error && 'lines' in cause ? ` near line ${Number(cause.lines)}` : '';
  if (code === 'CSV_MAX_RECORD_SIZE')
    return `a row is longer than ${longestRecord.toLocaleString('en-US')} letters${line}; perhaps a quotation mark is never closed`;
  if (code === 'CSV_QUOTE_NOT_CLOSED') return `a quotation mark is never closed${line}`;
  if (code.includes('QUOTE')) return `a quotation mark stands within a cell${line}`;
  return `it could not be read${line}`;
}
