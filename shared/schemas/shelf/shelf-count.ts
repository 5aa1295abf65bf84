import { z } from 'zod';
import { bounds } from '../../bounds.ts';
import { itemId } from '../../ids.ts';
import { numberField, optionalChoiceField, optionalDateField } from '../form-fields.ts';
import { idField } from '../id-fields.ts';

export const countExplanations = ['taken-unrecorded', 'miscount', 'breakage', 'gift', 'found'] as const;
/** What a difference between shelf and book means. Fewer than the book: taken without saying so, unless said otherwise. */
export type CountExplanation = (typeof countExplanations)[number];

export const shelfCountForm = z.object({
  countedOn: optionalDateField('Up to which day'),
  counts: z
    .array(
      z.object({
        itemId: idField('Item', itemId),
        units: numberField({ label: 'The number', ...bounds.unitsCounted, example: '12' }),
        explainedAs: optionalChoiceField('reason', countExplanations),
      }),
    )
    .min(1, 'Count one item and send again.')
    .max(500, 'One count holds 500 items at most. Send the rest as a second count.'),
});
/** The shelf as somebody counted it. Items not named were not counted. */
export type ShelfCount = Readonly<z.output<typeof shelfCountForm>>;
