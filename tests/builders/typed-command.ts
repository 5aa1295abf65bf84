import { vi } from 'vitest';
import { runCommandLine } from '../../server/commands/command-line.ts';

/** Runs a command as it is typed, in this process, on a file; with what it printed and complained of. */
export const typedCommand =
  (file: string) =>
  async (
    ...args: readonly string[]
  ): Promise<{ readonly exit: number; readonly complaint: string; readonly printed: string }> => {
    const complaints = vi.spyOn(console, 'error').mockImplementation(() => {});
    const lines = vi.spyOn(console, 'log').mockImplementation(() => {});
    let written = '';
    const writing = vi.spyOn(process.stdout, 'write').mockImplementation((part) => {
      written += String(part);
      return true;
    });
    vi.stubEnv('SHELFWARD_DATABASE', file);
    try {
      const exit = await runCommandLine(args);
      return { exit, complaint: said(complaints), printed: said(lines) + written };
    } finally {
      vi.unstubAllEnvs();
      complaints.mockRestore();
      lines.mockRestore();
      writing.mockRestore();
    }
  };

const said = ({ mock }: { readonly mock: { readonly calls: readonly (readonly unknown[])[] } }): string =>
  mock.calls.map((line) => `${line.join(' ')}\n`).join('');
