import { readFileSync } from 'node:fs';
import { type ProcessTimeRow, processTimeRow } from '../../shared/schemas/reference/process-time.ts';
import { type ProcessTables, rowKeyOf, schedulesFor } from '../../src/preserving/lookup/process-lookup.ts';
import type { ProcessQuery } from '../../src/preserving/lookup/schedule.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';
import { readRows } from '../reference/read-table.ts';

const usage = `Usage: shelfward verify-table process-times FILE.csv
Loads the file as the table of processing times and looks each row up at both edges and the middle of its altitude band.
The last line counts rows: N passed, N failed.
`;

const openEndFt = 30_000;
const faultsShown = 50;

/** Exit code 0 when every row passed, 1 when one failed, 2 when the file or the arguments are not understood. */
export const run = async (args: readonly string[]): Promise<number> => {
  if (args.includes('--help') || args.includes('-h')) {
    process.stdout.write(usage);
    return 0;
  }
  const [table, file, ...others] = args;
  if (table !== 'process-times' || file === undefined || others.length > 0) {
    console.error(
      `Name process-times and the FILE.csv to compare it with; you wrote “${args.join(' ')}”. Use --help for more.`,
    );
    return 2;
  }
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    console.error(`${file} could not be read: ${error instanceof Error ? error.message : String(error)}`);
    return 2;
  }
  const outcome = readRows(file, text, processTimeRow);
  if (!outcome.ok) {
    for (const problem of outcome.problems) console.error(problem.message);
    return 2;
  }
  const { rows, problems } = outcome.value;
  const tables = { processTimes: rows, cannerFacts: loadReferenceTables().cannerFacts };
  const brokenLines = new Set(problems.map((problem) => problem.path[1])).size;
  const faults = [...problems.map((problem) => problem.message), ...faultsOf(tables)];
  const failedRows = faults.length - problems.length;
  for (const fault of faults.slice(0, faultsShown)) process.stdout.write(`${fault}\n`);
  if (faults.length > faultsShown) process.stdout.write(`and ${faults.length - faultsShown} more\n`);
  const failed = failedRows + brokenLines;
  process.stdout.write(`${rows.length - failedRows} passed, ${failed} failed\n`);
  return failed === 0 ? 0 : 1;
};

/** One line for each row that the look-up does not answer with exactly its own minutes and pressure. */
export const faultsOf = (tables: ProcessTables): string[] => {
  const byFood = new Map<string, ProcessTimeRow[]>();
  for (const row of tables.processTimes) byFood.set(row.foodKey, [...(byFood.get(row.foodKey) ?? []), row]);
  return tables.processTimes.flatMap((row) => {
    const ofFood = { ...tables, processTimes: byFood.get(row.foodKey) ?? [] };
    for (const altitudeFt of altitudesOf(row)) {
      const fault = faultAt(ofFood, row, altitudeFt);
      if (fault) return [`${rowKeyOf(row)} at ${altitudeFt} ft: ${fault}`];
    }
    return [];
  });
};

const altitudesOf = (row: ProcessTimeRow): readonly number[] => {
  const to = row.altitudeToFt ?? openEndFt;
  return [row.altitudeFromFt, (row.altitudeFromFt + to) / 2, to];
};

const faultAt = (tables: ProcessTables, row: ProcessTimeRow, altitudeFt: number): string | undefined => {
  const ruling = schedulesFor(tables, queryFor(row, altitudeFt));
  if (row.basis !== 'read') {
    if (!ruling.ok) return undefined;
    const served = ruling.value.some((schedule) => schedule.rowKey === rowKeyOf(row));
    return served ? 'served although it was not read' : undefined;
  }
  if (!ruling.ok) return `refused: ${ruling.problems.map((problem) => problem.message).join(' ')}`;
  const same = ruling.value.filter(({ minutes, psi }) => minutes === row.minutes && psi === row.psi);
  if (same.length === 1 && (row.psi !== null || ruling.value.length === 1)) return undefined;
  const listed = ruling.value.map(
    ({ minutes, psi }) => `${minutes} min${psi === null ? '' : ` at ${psi} psi`}`,
  );
  return `expected once ${row.minutes} min${row.psi === null ? '' : ` at ${row.psi} psi`}, got ${listed.join(', ')}`;
};

const queryFor = (row: ProcessTimeRow, altitudeFt: number): ProcessQuery => ({
  foodKey: row.foodKey,
  style: row.style,
  pack: row.pack,
  jar: row.jar,
  altitudeFt,
  ...(row.method === 'boiling-water'
    ? { method: 'boiling-water' }
    : { method: 'pressure', gauge: row.method === 'pressure-dial' ? 'dial' : 'weighted' }),
});
