import { createHash } from 'node:crypto';

/** What became of one change of one operator, value or word, as the mutation testing report schema 2 names it. */
export interface Mutant {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly status:
    | 'Killed'
    | 'Timeout'
    | 'Survived'
    | 'NoCoverage'
    | 'CompileError'
    | 'RuntimeError'
    | 'Ignored'
    | 'Pending';
  readonly location: { readonly start: Place; readonly end: Place };
}

interface Place {
  /** Both from 1. */
  readonly line: number;
  readonly column: number;
}

export interface MutantsReport {
  readonly files: Readonly<Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>>;
}

export interface FileScore {
  readonly file: string;
  readonly killed: number;
  readonly survived: number;
  readonly uncovered: number;
  /** Share of the mutants that could be tried and were noticed, 0 to 1; 1 where there was nothing to change. */
  readonly score: number;
}

const are = (mutants: readonly Mutant[], ...statuses: Mutant['status'][]) =>
  mutants.filter(({ status }) => statuses.includes(status)).length;

function scoreOf(file: string, mutants: readonly Mutant[]): FileScore {
  const killed = are(mutants, 'Killed', 'Timeout');
  const survived = are(mutants, 'Survived');
  const uncovered = are(mutants, 'NoCoverage');
  const tried = killed + survived + uncovered;
  return { file, killed, survived, uncovered, score: tried === 0 ? 1 : killed / tried };
}

/** How many mutants each file's tests noticed, worst first, and all of them together. */
export function scores({ files }: MutantsReport): {
  readonly byFile: readonly FileScore[];
  readonly all: FileScore;
} {
  const byFile = Object.entries(files).map(([file, { mutants }]) => scoreOf(file, mutants));
  return {
    byFile: byFile.toSorted((one, other) => one.score - other.score || (one.file < other.file ? -1 : 1)),
    all: scoreOf(
      'all',
      Object.values(files).flatMap(({ mutants }) => mutants),
    ),
  };
}

/** Every mutant nobody noticed, as one line: where, what stood there, what stood there instead. */
export function unnoticed({ files }: MutantsReport): readonly string[] {
  return Object.entries(files).flatMap(([file, { source, mutants }]) => {
    const lines = source.split('\n');
    return mutants
      .filter(({ status }) => status === 'Survived' || status === 'NoCoverage')
      .toSorted((one, other) => one.location.start.line - other.location.start.line)
      .map(
        ({ location: { start, end }, mutatorName, replacement = '', status }) =>
          `${file}:${start.line}:${start.column} ${mutatorName}${status === 'NoCoverage' ? ' (never run)' : ''}: ${inShort(
            textBetween(lines, start, end),
          )} -> ${inShort(replacement)}`,
      );
  });
}

function textBetween(lines: readonly string[], start: Place, end: Place): string {
  const taken = lines.slice(start.line - 1, end.line);
  return taken
    .map((line, at) =>
      line.slice(at === 0 ? start.column - 1 : 0, at === taken.length - 1 ? end.column - 1 : undefined),
    )
    .join('\n');
}

const inShort = (text: string): string => {
  const folded = text.replace(/\s+/g, ' ').trim();
  return folded.length > 100 ? `${folded.slice(0, 97)}...` : folded;
};

/**
 * Whether a mutant is in a sample of `share` (0 to 1) of all: by a hash of its name (where it is and what would stand there) and
 * the seed, so that the same seed draws the same ones whatever the order they come in.
 */
export function isDrawn(name: string, seed: string, share: number): boolean {
  const drawn = createHash('sha256').update(`${seed}:${name}`).digest().readUInt32BE(0);
  return drawn / 2 ** 32 < share;
}

/**
 * How far the score of a sample may be from the score of all, at 95 %: half the width of Wilson's interval (Wilson 1927, read of
 * in textbooks), as a share.
 */
export function eitherWay(score: number, tried: number): number {
  if (tried === 0) return 1;
  const z = 1.96;
  return (z / (1 + z ** 2 / tried)) * Math.sqrt((score * (1 - score)) / tried + z ** 2 / (4 * tried ** 2));
}
