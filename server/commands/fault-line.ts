import { z } from 'zod';
import { ShelfwardError } from '../../shared/problems.ts';
import { machineFault, machineFaultWords } from '../faults.ts';

/**
 * What a command that could not go on says: one line, by the kind of what went wrong. Traces are for developers: with
 * `SHELFWARD_TRACE` set, the trace follows.
 */
export function faultLine(cause: unknown): string {
  const trace = process.env.SHELFWARD_TRACE && cause instanceof Error ? `\n${cause.stack ?? ''}` : '';
  return `${wordsOf(cause).replace(/\s*\n\s*/g, ' ')}${trace}`;
}

function wordsOf(cause: unknown): string {
  if (cause instanceof z.ZodError)
    return `What was given cannot be used: ${cause.issues[0]?.message ?? 'it could not be read'}. Use --help for what can be given.`;
  const fault = machineFault(cause);
  const said = cause instanceof Error ? cause.message : String(cause);
  // What failed in the background is named, and then why.
  if (cause instanceof ShelfwardError)
    return cause.code === 'job-failed' && cause.cause !== undefined
      ? `${said}: ${wordsOf(cause.cause)}`
      : said;
  if (fault !== null) return `${machineFaultWords[fault]} (${said})`;
  return `This stopped because of a fault in the program: ${said.slice(0, 300)}. Nothing half done was kept; set SHELFWARD_TRACE=1 to see where.`;
}
