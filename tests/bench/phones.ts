import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type PhonesReport, prepareFile, takeWithPhones } from './phones-protocol.ts';

const { values } = parseArgs({
  options: {
    phones: { type: 'string', default: '50' },
    seconds: { type: 'string', default: '60' },
    'pause-ms': { type: 'string', default: '500' },
  },
});
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
const reports: Record<string, PhonesReport> = {};
for (const solving of [false, true]) {
  const file = join(folder, `${solving ? 'with' : 'without'}-a-solve.sqlite`);
  await prepareFile(file);
  reports[solving ? 'a solve running' : 'no solve'] = await takeWithPhones({
    file,
    phones: Number(values.phones),
    seconds: Number(values.seconds),
    pauseMs: Number(values['pause-ms']),
    solving,
    seed: 20_261_125,
  });
}
rmSync(folder, { recursive: true, force: true });
console.table(
  Object.fromEntries(
    Object.entries(reports).map(([name, report]) => [
      name,
      Object.fromEntries(
        Object.entries(report)
          .filter(([what]) => what !== 'failures')
          .map(([what, value]) => [what, typeof value === 'number' ? Math.round(value * 10) / 10 : value]),
      ),
    ]),
  ),
);
for (const failure of new Set(Object.values(reports).flatMap(({ failures }) => failures)))
  console.log(failure);
const { 'no solve': without, 'a solve running': during } = reports;
const held = Object.values(reports).every(
  ({ errors, lost, doubled, integrity, stock, replayed }) =>
    errors === 0 && lost === 0 && doubled === 0 && integrity === 'ok' && stock === replayed,
);
if (without && during)
  console.log(
    `p99 with a solve running is ${(during.p99Ms / without.p99Ms).toFixed(2)} times that without; ${during.plans} plans were made meanwhile.`,
  );
console.log(
  held
    ? 'Every acknowledged take is in the ledger exactly once; no request failed.'
    : 'A take was lost or doubled, or a request failed.',
);
process.exitCode = held ? 0 : 1;
