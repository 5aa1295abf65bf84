/** What the machine, not the program, stood in the way of: the disk, a right, another program, a damaged file. */
export type MachineFault = 'disk-full' | 'read-only' | 'busy' | 'damaged' | 'not-allowed' | 'missing';

const byCode: readonly (readonly [RegExp, MachineFault])[] = [
  [/^(SQLITE_FULL|SQLITE_IOERR_WRITE|SQLITE_IOERR_FSYNC|ENOSPC|EDQUOT|EFBIG)/, 'disk-full'],
  [/^(SQLITE_READONLY|EROFS)/, 'read-only'],
  [/^(SQLITE_BUSY|SQLITE_LOCKED)/, 'busy'],
  [/^(SQLITE_CORRUPT|SQLITE_NOTADB)/, 'damaged'],
  [/^(SQLITE_AUTH|SQLITE_PERM|EACCES|EPERM)/, 'not-allowed'],
  [/^(SQLITE_CANTOPEN|ENOENT|ENOTDIR|EISDIR|ELOOP|ENAMETOOLONG)/, 'missing'],
];

/** The kind of fault by the code SQLite or the system gave it; null for what is the program's own. Looks through causes. */
export function machineFault(cause: unknown): MachineFault | null {
  for (let at = cause, deep = 0; at instanceof Error && deep < 8; at = at.cause, deep += 1) {
    const code = 'code' in at ? String(at.code) : '';
    const known = byCode.find(([pattern]) => pattern.test(code));
    if (known) return known[1];
  }
  return null;
}

/** In words, with what to do next. */
export const machineFaultWords: Readonly<Record<MachineFault, string>> = {
  'disk-full': 'There was no room on the disk. Make room; what was recorded before is safe.',
  'read-only':
    'The file or its folder cannot be written. Allow the program to write there; nothing was changed.',
  busy: 'Another program was writing to the file. Wait a moment and try again; nothing was changed.',
  damaged:
    'The file is damaged. Stop the program and restore the newest backup with the command restore; the damaged file is kept.',
  'not-allowed': 'The system does not allow the program to read or write there. Allow it, then try again.',
  missing: 'A file or folder that should be there is not. Look at its name and place.',
};

/** A line for people about what went wrong; `otherwise` where it was the program's own fault. */
export function faultWords(cause: unknown, otherwise: string): string {
  const fault = machineFault(cause);
  return fault === null ? otherwise : machineFaultWords[fault];
}
