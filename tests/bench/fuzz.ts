import { parseArgs } from 'node:util';
import { fuzz } from './fuzz-protocol.ts';
import { aimsMissed, servingInWords } from './serving-aims.ts';

const { values } = parseArgs({
  options: {
    requests: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '20261125' },
  },
});
const began = performance.now();
const report = await fuzz({
  requests: Number(values.requests),
  seed: Number(values.seed),
  onProgress: (made) => {
    if (made > 0) console.error(`${made} requests after ${Math.round((performance.now() - began) / 1000)} s`);
  },
});
const { broken, halfWritten, wrongStock, statuses, onlooker, mostMemoryInMb, ...counts } = report;
const missed = aimsMissed({ onlooker, mostMemoryInMb });
console.table(counts);
console.table(statuses);
for (const line of new Set([...broken, ...halfWritten, ...wrongStock])) console.log(line);
const held =
  broken.length === 0 &&
  halfWritten.length === 0 &&
  wrongStock.length === 0 &&
  counts.integrity === 'ok' &&
  counts.foreignKeys === 0;
console.log(
  held
    ? `${counts.requests} requests over ${counts.routes} routes (seed ${values.seed}): no answer of 500 and above, nothing half-written.`
    : `${broken.length} broken answers, ${halfWritten.length} half-written, ${wrongStock.length} lots with wrong stock.`,
);
console.log(servingInWords({ onlooker, mostMemoryInMb }));
for (const line of missed) console.log(line);
process.exitCode = held && missed.length === 0 ? 0 : 1;
