import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { BatchDays } from '../../../src/planning/days/batch-days.ts';
import { dayLines } from '../../../src/planning/days/day-lines.ts';
import type { PaperBatch } from '../../../views/pages/stages/stages-paper-page.tsx';
import { formatQuantity, formatWeekday } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { heldBackWords, lineWords } from '../../words/batch-days.ts';

/** One batch on paper: a line a day, with a box and room for the hour it was done; none for what is made in one go. */
export const presentPaperBatch = (
  batch: BatchDays,
  { reference, reading }: { readonly reference: ReferenceTables; readonly reading: Reading },
): readonly PaperBatch[] => {
  if (batch.calendar.state === 'one go') return [];
  const [first] = batch.calendar.before;
  return [
    {
      key: batch.key,
      name: batch.recipe.name,
      line: [
        formatQuantity(batch.batches, 'batch', reading),
        ...(batch.calendar.way === null ? [] : [batch.calendar.way]),
        ...(first === undefined ? [] : [`${first.stage.source.sourceId}, ${first.stage.source.locator}`]),
      ].join(', '),
      heldBack: heldBackWords(batch, reading),
      lines: dayLines([batch]).map((line) => {
        const { task, when, more } = lineWords(line, reference, reading);
        return {
          key: line.key,
          on: formatWeekday(line.on, reading),
          when,
          what: task,
          more: more.join(', '),
          isDone: line.kind === 'stage' && line.day.state === 'done',
        };
      }),
    },
  ];
};
