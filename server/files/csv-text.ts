export type CsvCell = string | number | null;

/**
 * A cell that begins like this is taken for a formula by spreadsheets: the sign itself or its wide form, alone or after
 * blanks and signs that cannot be seen, which some of them drop. What begins with a tab or a line break is marked too.
 */
const formulaStart = /^(?:[\t\r\n]|[\s\p{Cc}\p{Cf}\u115f\u1160\u3164]*[=+\-@＝＋－＠])/u;

/** Text as it was before it was marked. */
export const withoutMark = (text: string): string =>
  text.startsWith("'") && formulaStart.test(text.slice(1)) ? text.slice(1) : text;

/** Text becomes text and nothing else when a spreadsheet opens it: a mark goes before what looks like a formula. */
const safeText = (text: string): string => (formulaStart.test(text) ? `'${text}` : text);

const cellText = (cell: CsvCell): string => {
  if (cell === null) return '';
  // A number of ours is a number: -1 is no formula.
  if (typeof cell === 'number') return String(Math.round(cell * 1e6) / 1e6);
  const text = safeText(cell);
  return /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** A table as CSV (RFC 4180), UTF-8 with the mark that spreadsheets look for. */
export const csvText = (header: readonly string[], rows: readonly (readonly CsvCell[])[]): string =>
  `\uFEFF${[header, ...rows].map((row) => row.map(cellText).join(',')).join('\r\n')}\r\n`;
