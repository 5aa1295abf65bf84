import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { producesSaid } from '../trade-measure.ts';
import { choiceField, numberField, textField } from './form-fields.ts';

/** Too much of a crop at once. */
export const glutForm = z.object({
  crop: textField('Crop', 60),
  amount: numberField({ label: 'How much', ...bounds.glut, example: '40' }),
  unit: choiceField('unit', producesSaid).prefault('lb'),
});
