import { sendSpoiltFiles } from './files-protocol.ts';

// npm run -s bench:files [-- FILES [SEED]]
// Sends household files and lists gone wrong, 5,000 of them, while somebody else looks at the shelf.
const [files = '5000', seed = '14'] = process.argv.slice(2);
const report = await sendSpoiltFiles({
  files: Number(files),
  seed: Number(seed),
  onProgress: (sent) => console.error(`${sent} sent`),
});
console.log(JSON.stringify(report, null, 1));
process.exitCode =
  report.broken.length + report.changed.length + report.wronglyTaken.length > 0 ||
  report.slowestOther > 2000 ||
  report.mostMemoryInMb > 500
    ? 1
    : 0;
