import { z } from 'zod';
import { bounds } from '../../bounds.ts';
import { lotId } from '../../ids.ts';
import { dateField, numberField } from '../form-fields.ts';
import { idField } from '../id-fields.ts';

/** An open jar is finished: which batch it came from and when it was opened. */
export const finishedJarForm = z.object({
  lotId: idField('Batch', lotId),
  openedOn: dateField('Opened on'),
  jars: numberField({ label: 'How many', ...bounds.jarsFinished, example: '1' }).prefault('1'),
});
export type FinishedJar = Readonly<z.output<typeof finishedJarForm>>;
