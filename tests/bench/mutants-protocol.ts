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
