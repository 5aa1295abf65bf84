import { wasOrWere } from '../../../shared/counting.ts';
import { dateInZone } from '../../../shared/week.ts';
import type { BatchResult, FailedSealChoice, ResultLot } from '../../../src/household/batch-result.ts';
import type { FailedSealAdvice } from '../../../src/preserving/afterwards/seal-check.ts';
import { sealChecks, sealCheckWindow, sealTests } from '../../../src/preserving/afterwards/seal-check.ts';
import type { BatchHere } from '../../../src/preserving/day/session-here.ts';
import type { ResultProps, SealCheckProps } from '../../../views/pages/canning-day/results.tsx';
import {
  formatClock,
  formatDate,
  formatMinutes,
  formatQuantity,
  formatWeekday,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf } from '../../words/shelf-units.ts';
import type { StateOfForm } from '../shared/answer-form.ts';

export interface ResultSetting {
  readonly path: string;
  readonly timeZone: string;
  readonly now: number;
  readonly reading: Reading;
  /** Whether every load of a batch had its whole time; of what is not canned, always. */
  readonly ranInFull: (batch: BatchHere) => boolean;
  /** The canning day is behind us, whether its clocks were used or not. */
  readonly isOver: boolean;
  readonly adviceFor: (batch: BatchHere, result: BatchResult) => readonly FailedSealAdvice[];
  readonly state: StateOfForm;
}

export const presentResults = (
  batches: readonly BatchHere[],
  results: readonly BatchResult[],
  setting: ResultSetting,
): readonly ResultProps[] =>
  batches.map((batch) => {
    const own = results.filter(({ recipeId }) => recipeId === batch.recipe.id);
    return {
      key: batch.recipe.id,
      name: batch.item.name,
      lines: own.map((result) => resultLine(batch, result, setting.reading)),
      writeDown: {
        href: `${setting.path}/results/${batch.recipe.id}`,
        words: own.length === 0 ? 'Write down what came out' : 'Write down more',
        isDue: own.length === 0 && (setting.isOver || setting.ranInFull(batch)),
      },
      seals: own.flatMap((result) =>
        result.lots
          .filter(({ isProcessed }) => isProcessed)
          .map((lot) => presentSeal(batch, result, lot, setting)),
      ),
    };
  });

const resultLine = (batch: BatchHere, result: BatchResult, reading: Reading): string => {
  const lots = result.lots.map(
    (lot) =>
      `${amountOf(batch.item, lot.units, reading, lot.jarKind)}, batch ${lot.batchCode}, ready from ${formatDate(lot.readyFrom, reading)}, best quality until ${formatDate(lot.bestQualityUntil, reading)}`,
  );
  const took = result.minutesTaken === null ? '' : ` Took ${formatMinutes(result.minutesTaken)}.`;
  const batches = result.batches === 0 ? '' : `${formatQuantity(result.batches, 'batch', reading)}: `;
  return `${batches}${lots.join('; ')}.${took}${result.note === '' ? '' : ` ${result.note}`}`;
};

const choiceWords: Readonly<Record<FailedSealChoice, string>> = {
  reprocess: 'processed again, in full, with new lids',
  freeze: 'frozen',
  refrigerate: 'refrigerated',
  discard: 'thrown away',
};

function presentSeal(
  batch: BatchHere,
  result: BatchResult,
  lot: ResultLot,
  setting: ResultSetting,
): SealCheckProps {
  const { reading, timeZone, state } = setting;
  const words = `${amountOf(batch.item, lot.units, reading, lot.jarKind)}, batch ${lot.batchCode}.`;
  const { sealCheck } = lot;
  if (sealCheck !== null)
    return {
      lotId: lot.lotId,
      words,
      when:
        sealCheck.failed === 0
          ? 'Seals checked: all hold.'
          : `Seals checked: ${sealCheck.failed} did not hold and ${wasOrWere(sealCheck.failed)} ${sealCheck.choice === null ? 'taken off' : choiceWords[sealCheck.choice]}.`,
      form: null,
    };
  const { to: latest } = sealCheckWindow(result.processedAt);
  const [check] = sealChecks([result.processedAt], timeZone);
  const due = check ?? sealCheckWindow(result.processedAt);
  const at = (instant: number) =>
    `${formatWeekday(dateInZone(instant, timeZone), reading)}, ${formatClock(instant, timeZone, reading)}`;
  return {
    lotId: lot.lotId,
    words,
    when:
      setting.now > latest
        ? `The seals should have been checked by ${at(latest)}. Check them now; a jar found open is discarded.`
        : `Check the seals between ${at(due.from)} and ${at(due.to)}.`,
    form: {
      action: `${setting.path}/seals/${lot.lotId}`,
      state: state(`seal-${lot.lotId}`, { failed: '0', choice: '' }),
      tests: sealTests.map(({ text }) => text),
      choices: setting.adviceFor(batch, result).map(({ choice, text }) => ({ value: choice, words: text })),
    },
  };
}
