import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { compileDiskLog } from './power-cut/disk-log.ts';
import { cutActs, cutThePower } from './power-cut-protocol.ts';

// npm run -s bench:power-cut -- --cuts 1000 --seed S [ACT …]: so many cuts of the power in each act, and whether everything
// acknowledged by then is there.

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cuts: { type: 'string', default: '1000' },
    entries: { type: 'string', default: '300' },
    seed: { type: 'string', default: '20261218' },
  },
});
const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
try {
  const shim = compileDiskLog(folder);
  if (shim === null) {
    console.log('Expected Linux and a C compiler (cc, gcc or clang); there is none, so no power was cut.');
    process.exitCode = 2;
  } else {
    const table: Record<string, object> = {};
    let lost = 0;
    for (const act of cutActs.filter((act) => positionals.length === 0 || positionals.includes(act))) {
      const { amiss, ...report } = await cutThePower(act, {
        folder: join(folder, act),
        shim,
        cuts: Number(values.cuts),
        seed: Number(values.seed),
        entries: Number(values.entries),
      });
      for (const line of amiss.slice(0, 20)) console.log(line);
      lost += amiss.length;
      table[act] = { ...report, amiss: amiss.length };
    }
    console.table(table);
    console.log(
      lost === 0
        ? `Seed ${values.seed}: after every cut the file was sound, and each acknowledged act was there.`
        : `Seed ${values.seed}: ${lost} cuts lost or broke something.`,
    );
    process.exitCode = lost === 0 ? 0 : 1;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
