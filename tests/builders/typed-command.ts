import { vi } from 'vitest';
import { runCommandLine } from '../../server/commands/command-line.ts';

/** Runs a command as it is typed, in this process, on a file; with what it complained of. */
export const typedCommand =
  (file: string) =>
  async (...args: readonly string[]): Promise<{ readonly exit: number; readonly complaint: string }> => {
    const complaints = vi.spyOn(console, 'error').mockImplementation(() => {});
    const printed = vi.spyOn(console, 'log').mockImplementation(() => {});
    vi.stubEnv('SHELFWARD_DATABASE', file);
    try {
      const exit = await runCommandLine(args);
      return { exit, complaint: complaints.mock.calls.map((line) => `${line.join(' ')}\n`).join('') };
    } finally {
      vi.unstubAllEnvs();
      complaints.mockRestore();
      printed.mockRestore();
    }
  };
