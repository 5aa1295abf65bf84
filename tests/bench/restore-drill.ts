import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { backUpFile } from '../../server/database/backup.ts';
import { openDatabase } from '../../server/database/database.ts';
import { restore } from '../../server/database/restore.ts';
import { stampOf } from '../../server/database/rotation.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { householdText } from '../../server/files/household-file.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from '../builders/outcomes.ts';

// npm run -s bench:restore: the demo household is backed up, its file is lost, and the backup is put in place by the very
// ways the commands go. Every row a household takes along must be there again, letter for letter.

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const file = join(folder, 'pantry.sqlite');
const backup = join(folder, 'backups', `pantry-${stampOf(Date.UTC(2026, 7, 12, 8, 30))}.sqlite`);
const textOf = async (): Promise<string> => {
  const db = await openDatabase(file);
  const [household] = await db.selectFrom('household').select('id').execute();
  const text = await householdText(db, household?.id as Parameters<typeof householdText>[1]);
  await db.destroy();
  return text;
};
const took = async <T>(what: string, work: () => Promise<T>): Promise<T> => {
  const began = performance.now();
  const result = await work();
  console.log(`${what}: ${Math.round(performance.now() - began)} ms`);
  return result;
};

const db = await openDatabase(file);
await makeDemoHousehold(db, asDate('2026-08-12'));
await db.destroy();
const before = await textOf();
await took('backup', async () => worked(await backUpFile(file, backup)));
for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true });
const refused = await openDatabase(file).then(
  () => 'opened: a lost file was begun anew',
  (cause: Error) => cause.message,
);
console.log(refused);
await took('restore', async () =>
  worked(await restore({ backup, file, withoutChecksum: false, stamp: 'drill' })),
);
const held = (await textOf()) === before && refused.includes(backup);
console.log(
  held ? `All ${before.length} letters of the household are there again.` : 'Something is missing.',
);
rmSync(folder, { recursive: true, force: true });
process.exitCode = held ? 0 : 1;
