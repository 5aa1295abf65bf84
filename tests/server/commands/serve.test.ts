import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { openDatabase } from '../../../server/database/database.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { recordDeclaredUse } from '../../../server/records/year/targets.ts';
import { declaredUseForm } from '../../../shared/schemas/declared-use.ts';
import { worked } from '../../builders/outcomes.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('serve plans, tells the next four weeks and the address, answers there, and stops when told to', async () => {
  const file = join(folder, 'quince-yard.sqlite');
  const { db, writer } = await quinceYardHousehold(file);
  worked(
    await recordDeclaredUse(
      writer(),
      declaredUseForm.parse({ itemId: 'plum-jam', amount: '0.5', per: 'week' }),
    ),
  );
  await db.destroy();

  const serving = spawn(process.execPath, ['bin/shelfward.mjs', 'serve', '--port', '0', '--database', file], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  serving.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
  });
  while (!said.includes('Stop with Ctrl-C')) await once(serving.stdout, 'data');
  const address = /Open (http:\/\/127\.0\.0\.1:\d+) in a browser/.exec(said)?.[1] ?? '';
  const page = await fetch(`${address}/`);
  serving.kill('SIGTERM');
  const [exit] = await once(serving, 'exit');

  expect(said).toContain('The next four weeks of Quince Yard:');
  expect(said.match(/^week of /gm)).toHaveLength(4);
  expect(page.status).toBe(200);
  expect(await page.text()).toContain('Quince Yard');
  expect(exit).toBe(0);
  const again = await openDatabase(file);
  expect((await newestPlan(again, quinceYard))?.outcome).toBe('planned');
  await again.destroy();
});
