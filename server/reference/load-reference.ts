import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { ShelfwardError } from '../../shared/problems.ts';
import { freezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { type ReferenceTables, referenceFiles } from '../../shared/schemas/reference/tables.ts';
import { programFile } from '../program.ts';
import { readTable } from './read-table.ts';

export type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';

const shippedFolder = programFile('seed-data/reference/');
const climateFile = programFile('seed-data/climate/freeze-normals.csv');

/** Reads every published table once, at boot. A table that does not fit its schema stops the program with the line named. */
export const loadReferenceTables = (folder: string = shippedFolder): ReferenceTables => {
  const tables = Object.fromEntries(
    Object.entries(referenceFiles).map(([table, { file, row }]) => [
      table,
      readWhole<unknown>(file, `${folder}/${file}`, row),
    ]),
  ) as unknown as Omit<ReferenceTables, 'freezeNormals'>;
  return {
    ...tables,
    get freezeNormals() {
      climate ??= readWhole('freeze-normals.csv', climateFile, freezeNormalRow);
      return climate;
    },
  };
};

let climate: ReferenceTables['freezeNormals'] | null = null;

function readWhole<Row>(name: string, path: string, schema: z.ZodType<Row>): readonly Row[] {
  const outcome = readTable(name, readFileSync(path, 'utf8'), schema);
  if (outcome.ok) return outcome.value;
  const listed = outcome.problems.slice(0, 20).map((problem) => problem.message);
  throw new ShelfwardError('reference-table-broken', listed.join('\n'));
}
