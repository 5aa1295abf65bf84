import { sendSpoiltFiles } from './files-protocol.ts';
import { aimsMissed, servingInWords } from './serving-aims.ts';

// npm run -s bench:files [-- FILES [SEED]]
// Sends household files and lists gone wrong, and household files that lie about what is canned, 5,000 of them, while somebody
// else looks at the shelf. The aims of the serving process: serving-aims.ts.
const [files = '5000', seed = '14'] = process.argv.slice(2);
const { onlooker, longestWorkMs, longestWorkFor, mostMemoryInMb, ...report } = await sendSpoiltFiles({
  files: Number(files),
  seed: Number(seed),
  onProgress: (sent) => console.error(`${sent} sent`),
});
console.log(JSON.stringify(report, null, 1));
console.log(servingInWords({ onlooker, mostMemoryInMb }));
console.log(`Longest work without a pause: ${longestWorkMs} ms of the processor, for ${longestWorkFor}.`);
const missed = aimsMissed({ onlooker, mostMemoryInMb });
for (const line of missed) console.log(line);
const isWrong = [report.broken, report.changed, report.wronglyTaken, report.wrongTimes].some(
  (lines) => lines.length > 0,
);
process.exitCode = isWrong || missed.length > 0 ? 1 : 0;
