import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { recipeId } from '../ids.ts';
import { weekKey } from '../week.ts';
import { choiceField, optionalNumberField, toldBeside } from './form-fields.ts';
import { idField } from './id-fields.ts';

/** What a person decides about a batch in the plan; `free` takes an earlier decision back. */
export const decisionForm = z
  .object({
    recipeId: idField('Recipe', recipeId),
    week: idField('Week', weekKey),
    decision: choiceField('decision', ['pinned', 'ruled-out', 'free'] as const),
    batches: optionalNumberField({ label: 'Batches', ...bounds.batchesMade, example: '2' }),
  })
  .refine(
    (kept) => kept.decision !== 'pinned' || kept.batches !== null,
    toldBeside<Readonly<Record<'decision' | 'batches', unknown>>>(
      'batches',
      ['decision', 'batches'],
      'Write how many batches to keep.',
    ),
  );

/** What became of batches whose day is past and of which nothing was written down. */
export const passedForm = z.object({
  recipeId: idField('Recipe', recipeId),
  week: idField('Week', weekKey),
  answer: choiceField('answer', ['moved', 'dropped'] as const),
  batches: optionalNumberField({ label: 'Batches', ...bounds.batchesMade, example: '2' }).transform(
    (batches) => batches ?? 1,
  ),
});
export type PassedAnswer = Readonly<z.output<typeof passedForm>>;
export type DecisionRequest = Readonly<z.output<typeof decisionForm>>;
