import { parseArgs } from 'node:util';
import { lookInEveryZone, wallTimes, zones } from './zones-protocol.ts';

// npm run -s bench:zones -- --zones 10 --count 10: every page in so many zones at so many times of the wall clock. There is no
// chance in it, so it needs no seed.

const { values } = parseArgs({
  options: {
    zones: { type: 'string', default: String(zones.length) },
    count: { type: 'string', default: String(wallTimes.length) },
  },
});
const { broken, changedOfOthers, statuses, ...report } = await lookInEveryZone(
  Number(values.zones),
  Number(values.count),
);
console.table(report);
console.table(statuses);
for (const line of broken) console.log(line);
for (const table of changedOfOthers) console.log(`of the other household, ${table} is no longer as it was`);
const held = broken.length === 0 && changedOfOthers.length === 0;
console.log(
  held
    ? `${report.looks} looks: no answer of 500 and above, nothing of the other household changed.`
    : `${broken.length} broken answers, ${changedOfOthers.length} tables of the other household changed.`,
);
process.exitCode = held ? 0 : 1;
