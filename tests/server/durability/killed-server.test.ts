import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { killWhileTaking } from '../../bench/kill-protocol.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a server killed in the middle of taking loses no acknowledged jar and counts none twice', async () => {
  const report = await killWhileTaking({
    file: join(folder, 'quince-yard.sqlite'),
    kills: 3,
    clients: 8,
    seed: 7,
    atMostMs: 120_000,
  });

  expect(report.kills).toBe(3);
  expect(report.acknowledged).toBeGreaterThan(0);
  expect(report).toMatchObject({ lost: 0, doubled: 0, integrity: 'ok', stock: report.replayed });
});
