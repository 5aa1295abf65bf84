import { z } from 'zod';
import { bounds, letters } from '../bounds.ts';
import { namesAsTyped, namesIn } from '../hands.ts';
import { jarKind } from '../jar.ts';
import {
  choiceField,
  numberField,
  optionalChoiceField,
  optionalNumberField,
  optionalTextField,
  textField,
  tickField,
  toldBeside,
} from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

const clockTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a time like 09:30');

/** `Ann, Ben`: each gets a list of their own, and so many pairs of hands are planned with. */
export const whoIsThere = optionalTextField('Who is there', letters.whoIsThere)
  .prefault('')
  .refine(
    (names) => namesIn(names).length <= bounds.peopleAtWork.to,
    `Who is there takes ${bounds.peopleAtWork.to} names at most. Leave out who only looks on.`,
  )
  .transform((names) => namesAsTyped(namesIn(names)));

/** How a canning day is laid out. */
export const sessionSettingForm = z.object({
  by: choiceField('way to count', ['start', 'end']).prefault('start'),
  time: idField('Time', clockTime, { like: 'a time like 09:00' }).prefault('09:00'),
  people: numberField({ label: 'People at work', ...bounds.peopleAtWork, example: '2' }),
  who: whoIsThere,
  burners: numberField({ label: 'Burners free that day', ...bounds.stoveBurners, example: '4' }),
});

/** How many batches of a recipe are made on a day; none takes it off. Its label is the recipe's name. */
export const batchCountField = numberField({ label: 'The number', ...bounds.batches, example: '2' });

/** What came out of a recipe's batches. */
export const batchResultForm = z.object({
  batches: numberField({ label: 'From how many batches', ...bounds.batches, example: '2' }),
  units: numberField({ label: 'How many came out', ...bounds.units, example: '9' }),
  jarKind: optionalIdField('Jar', jarKind),
  otherUnits: optionalNumberField({
    label: 'And in another jar',
    ...bounds.unitsOfOtherJar,
    example: '2',
  }),
  otherKind: optionalIdField('Jar', jarKind),
  minutesRun: optionalNumberField({
    label: 'Minutes without a break',
    ...bounds.minutesRun,
    example: '25',
  }),
  psi: optionalNumberField({ label: 'Pressure held', ...bounds.psi, unit: 'psi', example: '11' }),
  altitudeFt: optionalNumberField({
    label: 'Altitude of the kitchen it was done in',
    ...bounds.altitudeFt,
    unit: 'ft',
    example: '1200',
  }),
  acidTicked: tickField(),
  doneBy: optionalTextField('Who watched the canner', letters.person).prefault(''),
  minutesTaken: optionalNumberField({
    label: 'Hands-on time it really took, all batches',
    ...bounds.minutesOfBatch,
    example: '140',
  }),
  byProduct: optionalNumberField({ label: 'What was left over', ...bounds.byProduct, example: '2.5' }),
  note: optionalTextField('Note', letters.batchNote).prefault(''),
});
export type BatchResultRequest = Readonly<z.output<typeof batchResultForm>>;

export const failedSealChoices = ['reprocess', 'freeze', 'refrigerate', 'discard'] as const;

/** What the next day's look at the seals showed. */
export const sealCheckForm = z
  .object({
    failed: numberField({ label: 'Did not seal', ...bounds.sealsFailed, example: '1' }),
    choice: optionalChoiceField('way to deal with them', failedSealChoices).prefault(''),
  })
  .refine(
    (check) => check.failed === 0 || check.choice !== null,
    toldBeside<Readonly<Record<'failed' | 'choice', unknown>>>(
      'choice',
      ['failed', 'choice'],
      'Choose what is done with the jars that did not seal.',
    ),
  );
export type SealCheckRequest = Readonly<z.output<typeof sealCheckForm>>;

/** Why lots are doubted. */
export const doubtReason = textField('Why', letters.doubt);
