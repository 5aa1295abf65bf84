import { DateTime } from 'luxon';
import { z } from 'zod';
import { bounds, letters } from '../bounds.ts';
import { numberField, optionalTextField, textField } from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

/** A minute on the kitchen's clock, as a date-and-time field sends it. */
const localMinute = z
  .string()
  .regex(
    /^20\d\d-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d$/,
    'expected a day and time like 2026-08-12T21:00',
  )
  .refine((text) => DateTime.fromISO(text, { zone: 'utc' }).isValid, 'that day does not exist');

const stageFields = {
  position: numberField({ label: 'Stage', ...bounds.stagePosition, example: '1' }),
  /** The printed way; empty where only one is printed. */
  way: optionalTextField('Way', letters.way).prefault(''),
  /** Empty: now. */
  begunAt: optionalIdField('When', localMinute, { like: 'a day and a time like 2026-08-17 14:30' }),
};

/** The next stage of a batch that was begun. */
export const nextStageForm = z.object(stageFields);
export type NextStageRequest = Readonly<z.output<typeof nextStageForm>>;

/** The printed way a household takes with a recipe from now on. */
export const wayForm = z.object({
  recipe: idField('Recipe', z.string().min(1).max(letters.key)),
  way: textField('Way', letters.way),
});
export type WayRequest = Readonly<z.output<typeof wayForm>>;

/** Batches that are begun with their first stage. */
export const firstStageForm = z.object({
  ...stageFields,
  recipe: idField('Recipe', z.string().min(1).max(letters.key)),
  batches: numberField({ label: 'Batches', ...bounds.batchesMade, example: '1' }).prefault('1'),
});
export type FirstStageRequest = Readonly<z.output<typeof firstStageForm>>;
