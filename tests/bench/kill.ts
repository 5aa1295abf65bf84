import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { killedActs, killInTheMiddle } from './kill-acts-protocol.ts';
import { killWhileTaking } from './kill-protocol.ts';

// npm run -s bench:kill [-- KILLS [ACT …]]: so many kills of each act, 100 unless told otherwise; acts: taking and those of
// `killedActs`.

const [asked = '100', ...acts] = process.argv.slice(2);
const kills = Number(asked);
const seed = 20_261_125;
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const isAsked = (act: string): boolean => acts.length === 0 || acts.includes(act);
let held = true;
for (const act of killedActs.filter(isAsked)) {
  const { amiss, ...report } = await killInTheMiddle(act, { folder: join(folder, act), kills, seed });
  console.log(
    `${act}: ${report.kills} kills, ${report.inTheMiddle} before it was done, ${report.acknowledged} acknowledged; ${amiss.length === 0 ? 'nothing amiss' : amiss.join('; ')}`,
  );
  held &&= amiss.length === 0;
}
if (isAsked('taking')) {
  const report = await killWhileTaking({
    file: join(folder, 'quince-yard.sqlite'),
    kills,
    clients: 8,
    seed,
    atMostMs: 30 * 60_000,
  });
  console.table(report);
  const whole =
    report.lost === 0 &&
    report.doubled === 0 &&
    report.integrity === 'ok' &&
    report.stock === report.replayed;
  console.log(
    whole
      ? `${report.acknowledged} acknowledged takes over ${report.kills} kills: each is there exactly once.`
      : 'Something was lost or doubled.',
  );
  held &&= whole;
}
rmSync(folder, { recursive: true, force: true });
process.exitCode = held ? 0 : 1;
