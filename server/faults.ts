/**
 * What the machine, not the program, stood in the way of: the disk, a right, another program, a damaged file, a database server
 * that does not answer.
 */
export type MachineFault =
  | 'disk-full'
  | 'read-only'
  | 'busy'
  | 'damaged'
  | 'not-allowed'
  | 'missing'
  | 'unreachable';

const byCode: readonly (readonly [RegExp, MachineFault])[] = [
  [/^(SQLITE_FULL|SQLITE_IOERR_WRITE|SQLITE_IOERR_FSYNC|ENOSPC|EDQUOT|EFBIG|53100$)/, 'disk-full'],
  [/^(SQLITE_READONLY|EROFS|25006$)/, 'read-only'],
  // Of PostgreSQL: two writers in each other's way, a lock that is held, as many connections as there may be.
  [/^(SQLITE_BUSY|SQLITE_LOCKED|40001$|40P01$|55P03$|53300$)/, 'busy'],
  [/^(SQLITE_CORRUPT|SQLITE_NOTADB|XX001$|XX002$)/, 'damaged'],
  [/^(SQLITE_AUTH|SQLITE_PERM|EACCES|EPERM|28\w{3}$|42501$)/, 'not-allowed'],
  [/^(08\w{3}$|57P0\d$|ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|ENOTFOUND|EAI_AGAIN|3D000$)/, 'unreachable'],
  [/^(SQLITE_CANTOPEN|ENOENT|ENOTDIR|EISDIR|ELOOP|ENAMETOOLONG)/, 'missing'],
];

/** A database server that ends in the middle of an answer leaves no code. */
const cutOff = /^(Connection terminated|Client has encountered a connection error)/;

/** The kind of fault by the code SQLite or the system gave it; null for what is the program's own. Looks through causes. */
export function machineFault(cause: unknown): MachineFault | null {
  for (let at = cause, deep = 0; at instanceof Error && deep < 8; at = at.cause, deep += 1) {
    const code = 'code' in at ? String(at.code) : '';
    const known = byCode.find(([pattern]) => pattern.test(code));
    if (known) return known[1];
    if (cutOff.test(at.message)) return 'unreachable';
  }
  return null;
}

/** What a rule of the schema refused. */
export type RuleFault = 'foreign key' | 'unique' | 'other rule';

const rules: readonly (readonly [RegExp, RuleFault])[] = [
  [/^(SQLITE_CONSTRAINT_FOREIGNKEY|23503)$/, 'foreign key'],
  [/^(SQLITE_CONSTRAINT_(UNIQUE|PRIMARYKEY|ROWID)|23505)$/, 'unique'],
  // Of PostgreSQL: its own rules, a trigger's, and text or a number that the column does not take.
  [/^(SQLITE_CONSTRAINT\w*|23\w{3}|22\w{3}|P0001)$/, 'other rule'],
];

/** Which rule of the schema a row did not fit; null for what is no fault of a row. */
export function ruleFault(cause: unknown): RuleFault | null {
  const code = cause instanceof Error && 'code' in cause ? String(cause.code) : '';
  return rules.find(([pattern]) => pattern.test(code))?.[1] ?? null;
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
  unreachable:
    'The database does not answer. Look whether it runs and whether its address is right; what was recorded before is safe.',
};

/** A line for people about what went wrong; `otherwise` where it was the program's own fault. */
export function faultWords(cause: unknown, otherwise: string): string {
  const fault = machineFault(cause);
  return fault === null ? otherwise : machineFaultWords[fault];
}
