import { type Citation, inWords } from '../../src/preserving/citation.ts';
import type { SessionStep, StepKind } from '../../src/preserving/sheet/session-step.ts';
import { withMetric } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { listed } from '../../views/words/sentences.ts';

/** One line of the sheet, on paper, on the page and in the command. */
export interface SheetStep {
  readonly key: string;
  readonly kind: StepKind;
  /** Whose step it is, when it is not that of every batch: `Peaches: Boil …` */
  readonly words: string;
  /** `p1-18`; `from memory: …` where the guide was not seen. */
  readonly page: string;
  /** The clock may not start before it is done. */
  readonly blocks: boolean;
}

interface BatchSteps {
  readonly name: string;
  readonly steps: readonly SessionStep[];
}

interface Line {
  readonly step: SessionStep;
  readonly of: string[];
}

/**
 * The steps of all batches of a day in one list, each text once where the order allows. Whatever the batches are, the
 * steps of each stand in it in their own order and none is left out.
 */
export const sheetSteps = (batches: readonly BatchSteps[], reading?: Reading): readonly SheetStep[] => {
  const lines: Line[] = [];
  for (const { name, steps } of batches) {
    let place = 0;
    for (const step of steps) {
      const same = lines.findIndex((line, at) => at >= place && isSame(line.step, step));
      if (same === -1) {
        lines.splice(place, 0, { step, of: [name] });
        place += 1;
      } else {
        lines[same]?.of.push(name);
        place = same + 1;
      }
    }
  }
  return lines.map(({ step, of }, at) => ({
    key: `${at + 1}-${step.kind}`,
    kind: step.kind,
    words: inUnitsOf(
      reading,
      of.length === batches.length ? step.text : `${listed([...new Set(of)])}: ${step.text}`,
    ),
    page: pageWords(step.source),
    blocks: step.blocksLoad,
  }));
};

/** As printed; for metric readers with metric beside. */
const inUnitsOf = (reading: Reading | undefined, text: string): string =>
  reading === undefined ? text : withMetric(text, reading);

const isSame = (one: SessionStep, other: SessionStep): boolean =>
  one.kind === other.kind && one.text === other.text && pageWords(one.source) === pageWords(other.source);

/** The page alone where it names its guide by itself, as `p1-18` does. */
const pageWords = (source: Citation): string => {
  const page = /p\d+-\d+.*$/.exec(source.locator)?.[0];
  return source.basis === 'read' && source.sourceId.startsWith('USDA-G') && page !== undefined
    ? page
    : inWords(source);
};
