import { runCommandLine } from './commands/command-line.ts';
import { couldNot } from './commands/exit-codes.ts';
import { faultLine } from './commands/fault-line.ts';

// Whoever reads the output may have read enough (`| head`): the rest goes nowhere, and the work is still finished.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

// What nobody waited for and went wrong ends the program all the same, with a line and not with a trace.
process.on('uncaughtException', (cause) => {
  console.error(faultLine(cause));
  process.exit(couldNot);
});

process.exitCode = await runCommandLine(process.argv.slice(2));
