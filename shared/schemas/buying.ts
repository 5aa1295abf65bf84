import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../bounds.ts';
import { weekKey } from '../week.ts';
import {
  choiceField,
  moneyField,
  optionalDateField,
  optionalNumberField,
  optionalTextField,
  textField,
} from './form-fields.ts';
import { idField } from './id-fields.ts';

const kinds = ['item', 'produce', 'supply', 'jars', 'lids'] as const;

/** A line of the shopping list, as the plan names it. */
export const lineForm = z.object({
  week: idField('Week', weekKey),
  kind: choiceField('kind', kinds),
  what: textField('What', letters.key),
  pack: optionalTextField('Pack', letters.key).transform((pack) => (pack === '' ? null : pack)),
});
export type LineRequest = Readonly<z.output<typeof lineForm>>;

/** What was bought of it; what is left out is as planned, and today. */
export const boughtForm = lineForm.extend({
  amount: optionalNumberField({ label: 'How much', ...bounds.boughtQuantity, example: '2' }),
  paid: moneyField({ label: 'Paid in all', ...moneyBounds.paid })
    .nullable()
    .prefault(null),
  boughtOn: optionalDateField('Day'),
  /** `asked`: what is left of the line is still to be bought. */
  rest: z.enum(['asked', 'dropped']).catch('dropped'),
});
export type BoughtRequest = Readonly<z.output<typeof boughtForm>>;
