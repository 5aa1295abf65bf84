import type { Citation } from '../citation.ts';

/** What a step of the sheet is about; the same words as in the printed guide's order of work. */
export const stepKinds = [
  'stage',
  'jars',
  'lids',
  'sterilize',
  'keep-hot',
  'water-ready',
  'water-warm',
  'prepare',
  'boil',
  'strain',
  'test',
  'skim',
  'acid-per-jar',
  'salt',
  'fill',
  'liquid',
  'headspace',
  'bubbles',
  'headspace-again',
  'rim',
  'lid',
  'band',
  'load',
  'water-over',
  'heat',
  'steam',
  'vent',
  'pressurize',
  'process',
  'keep-boiling',
  'keep-steaming',
  'keep-pressure',
  'restart',
  'heat-off',
  'wait',
  'lift',
  'do-not-tighten',
  'cool',
  'bands-off',
  'check-seals',
  'unsealed',
  'wash',
  'label',
  'store',
  'use-within',
  'cure',
] as const;
export type StepKind = (typeof stepKinds)[number];

/** One line of the checklist for a load. */
export interface SessionStep {
  /** Unlike any other of the load: its kind, with a number from the second of a kind on. */
  readonly key: string;
  readonly kind: StepKind;
  readonly text: string;
  readonly source: Citation;
  /** The clock of the load may not start before this is ticked. */
  readonly blocksLoad: boolean;
}

/** A step that is the only one of its kind in a load. */
export const step = (kind: StepKind, text: string, source: Citation, blocksLoad = false): SessionStep => ({
  key: kind,
  kind,
  text,
  source,
  blocksLoad,
});

/** The same steps with keys that differ where a kind comes more than once: `boil`, `boil-2`. */
export const numbered = (steps: readonly SessionStep[]): readonly SessionStep[] => {
  const seen = new Map<StepKind, number>();
  return steps.map((one) => {
    const count = (seen.get(one.kind) ?? 0) + 1;
    seen.set(one.kind, count);
    return count === 1 ? one : { ...one, key: `${one.kind}-${count}` };
  });
};

/** Steps that must be ticked before the load may start and are not. An empty list: the load may start. */
export const stepsBlockingLoad = (
  steps: readonly SessionStep[],
  ticked: ReadonlySet<string>,
): readonly SessionStep[] => steps.filter((candidate) => candidate.blocksLoad && !ticked.has(candidate.key));
