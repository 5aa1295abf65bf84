import { sendSpoiltFiles } from './files-protocol.ts';

// npm run -s bench:files [-- FILES [SEED]]
// Sends household files and lists gone wrong, and household files that lie about what is canned, 5,000 of them, while somebody
// else looks at the shelf. Aims: nobody is kept waiting by more than 2 s of work, and the server stays under 500 MB.
const [files = '5000', seed = '14'] = process.argv.slice(2);
const report = await sendSpoiltFiles({
  files: Number(files),
  seed: Number(seed),
  onProgress: (sent) => console.error(`${sent} sent`),
});
console.log(JSON.stringify(report, null, 1));
process.exitCode =
  report.broken.length + report.changed.length + report.wronglyTaken.length + report.wrongTimes.length > 0 ||
  report.longestWorkMs > 2000 ||
  report.mostMemoryInMb > 500
    ? 1
    : 0;
