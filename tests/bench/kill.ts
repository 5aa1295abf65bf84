import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { killWhileTaking } from './kill-protocol.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const report = await killWhileTaking({
  file: join(folder, 'quince-yard.sqlite'),
  kills: Number(process.argv[2] ?? 100),
  clients: 8,
  seed: 20_261_125,
  atMostMs: 30 * 60_000,
});
rmSync(folder, { recursive: true, force: true });
console.table(report);
const held =
  report.lost === 0 && report.doubled === 0 && report.integrity === 'ok' && report.stock === report.replayed;
console.log(
  held
    ? `${report.acknowledged} acknowledged takes over ${report.kills} kills: each is there exactly once.`
    : 'Something was lost or doubled.',
);
process.exitCode = held ? 0 : 1;
