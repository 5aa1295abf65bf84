import { z } from 'zod';
import { bounds, letters } from '../../bounds.ts';
import { cannerId, itemId, placeId, recipeId } from '../../ids.ts';
import { jarKind } from '../../jar.ts';
import {
  numberField,
  optionalDateField,
  optionalNumberField,
  optionalTextField,
  textField,
} from '../form-fields.ts';
import { idField, optionalIdField } from '../id-fields.ts';

/** How a lot was processed: what stands between "I think it was fine" and knowing. */
export const processingEvidence = z.object({
  cannerId: idField('Canner', cannerId),
  method: z.enum(['boiling-water', 'steam', 'pressure']),
  gauge: z.enum(['dial', 'weighted']).nullable(),
  /** Key of the published row that was followed. */
  scheduleRow: z.string().min(1).max(300),
  altitudeFt: numberField({ label: 'Altitude', ...bounds.altitudeFt, unit: 'ft', example: '1200' }),
  psi: optionalNumberField({ label: 'Pressure', ...bounds.psi, unit: 'psi', example: '11' }),
  minutesRun: numberField({ label: 'Minutes', ...bounds.minutesRun, example: '25' }),
  acidTicked: z.boolean().nullable(),
  doneBy: textField('Who', letters.person),
});
export type ProcessingEvidence = Readonly<z.output<typeof processingEvidence>>;

/** What came out of a batch: one lot for each kind of jar. */
export const putUpForm = z.object({
  itemId: idField('Item', itemId),
  recipeId: optionalIdField('Recipe', recipeId),
  batches: optionalNumberField({ label: 'Batches', ...bounds.batchesMade, example: '2' }),
  madeOn: optionalDateField('Day it was put up or bought'),
  readyFrom: optionalDateField('Ready from'),
  bestQualityUntil: optionalDateField('Date printed on it'),
  placeId: optionalIdField('Place', placeId),
  filled: z
    .array(
      z.object({
        jarKind: optionalIdField('Jar', jarKind),
        units: numberField({ label: 'How many', ...bounds.units, example: '9' }),
      }),
    )
    .min(1, 'Write how many were filled, for at least one jar size.')
    .max(12, 'One batch fills at most 12 jar sizes. Write fewer.'),
  /** How many are left of what was put up, when some were eaten before it was written down; null: none were, or nobody knows. */
  left: optionalNumberField({ label: 'Left now', ...bounds.unitsCounted, example: '8' }).prefault(''),
  note: optionalTextField('Note', letters.batchNote).prefault(''),
  evidence: processingEvidence.nullable().prefault(null),
});
export type PutUp = Readonly<z.output<typeof putUpForm>>;
