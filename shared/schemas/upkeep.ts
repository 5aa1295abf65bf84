import { z } from 'zod';
import { bounds, letters } from '../bounds.ts';
import { cannerId } from '../ids.ts';
import {
  choiceField,
  dateField,
  optionalNumberField,
  optionalTextField,
  textField,
  toldBeside,
} from './form-fields.ts';
import { optionalIdField } from './id-fields.ts';

/** Something that was done: what a guide asks for of a canner, or a task of the household's own. */
export const upkeepDoneForm = z.object({
  kind: choiceField('task', ['look-over', 'own']),
  /** The canner, or the task. */
  of: textField('Task', letters.key),
  doneOn: dateField('Done on'),
  note: optionalTextField('Note', letters.note),
});
export type UpkeepDoneRequest = Readonly<z.output<typeof upkeepDoneForm>>;

/** A task of the household's own, of a canner or of a device that is named. */
export const upkeepTaskForm = z
  .object({
    cannerId: optionalIdField('Device', cannerId),
    device: optionalTextField('Name of another device', letters.shortName),
    name: textField('What you do', letters.name),
    everyMonths: optionalNumberField({
      label: 'Every so many months',
      ...bounds.upkeepMonths,
      unit: 'months',
      example: '12',
    }),
  })
  .refine(
    (task) => (task.cannerId === null) !== (task.device === ''),
    toldBeside<Readonly<Record<'cannerId' | 'device', unknown>>>(
      'device',
      ['cannerId', 'device'],
      'Choose a canner, or another device and write its name.',
    ),
  );
export type UpkeepTaskRequest = Readonly<z.output<typeof upkeepTaskForm>>;
