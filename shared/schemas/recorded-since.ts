import { z } from 'zod';
import { optionalDateField } from './form-fields.ts';

/** Since when the household writes down what it eats, of all items; empty leaves each item to begin by itself. */
export const recordedSinceForm = z.object({ since: optionalDateField('We have recorded since') });
export type RecordedSince = Readonly<z.output<typeof recordedSinceForm>>;
