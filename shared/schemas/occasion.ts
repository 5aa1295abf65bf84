import { z } from 'zod';
import { bounds, letters } from '../bounds.ts';
import { itemId } from '../ids.ts';
import { choiceField, dateField, numberField, optionalTextField, tickField } from './form-fields.ts';
import { idField } from './id-fields.ts';

export const occasionKinds = ['occasion', 'gift', 'promised'] as const;

/** Dated units beyond everyday use: a feast, a gift, a promise. */
export const occasionForm = z.object({
  itemId: idField('Item', itemId),
  kind: choiceField('kind', occasionKinds),
  onDate: dateField('Day'),
  units: numberField({ label: 'How many', ...bounds.occasionUnits, example: '6' }),
  note: optionalTextField('What for', letters.note),
  yearly: tickField(),
});
export type OccasionRequest = Readonly<z.output<typeof occasionForm>>;
